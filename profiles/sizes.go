package profiles

import "slices"

// Inverters are those commonly built into a house.
type Inverters struct {
	Source     string    `yaml:"source"`
	VA         []float64 `yaml:"va"`         // continuous ratings, rising
	Distortion float64   `yaml:"distortion"` // 0..1
	GapS       float64   `yaml:"gap_s"`      // break at the change-over, s
	SurgeS     float64   `yaml:"surge_s"`    // how long its surge holds, s
	Neutral    string    `yaml:"neutral"`
}

// sizes are the steps in which things are made.
type sizes struct {
	Inverters Inverters `yaml:"inverters"`
	Chargers  struct {
		Source string    `yaml:"source"`
		KW     []float64 `yaml:"kw"`
	} `yaml:"chargers"`
}

var sizesMade = table[sizes]("sizes.yaml")

// InvertersMade gives what is commonly built into a house. What is inside is shared and must be read only.
func InvertersMade() Inverters { return sizesMade().Inverters }

// ChargerSizesKW lists the ratings in which chargers are made, AC side, rising, kW.
func ChargerSizesKW() []float64 { return slices.Clone(sizesMade().Chargers.KW) }
