package profiles

import "slices"

// sizes are the steps in which things are made.
type sizes struct {
	Inverters struct {
		Source string    `yaml:"source"`
		VA     []float64 `yaml:"va"`
	} `yaml:"inverters"`
	Breakers struct {
		Source string    `yaml:"source"`
		Amps   []float64 `yaml:"amps"`
	} `yaml:"breakers"`
	Chargers struct {
		Source string    `yaml:"source"`
		KW     []float64 `yaml:"kw"`
	} `yaml:"chargers"`
}

var sizesMade = table[sizes]("sizes.yaml")

// InverterSizesVA lists the continuous ratings in which inverters are made, rising, VA.
func InverterSizesVA() []float64 { return slices.Clone(sizesMade().Inverters.VA) }

// StandardBreakersA lists the standard ratings of overcurrent devices, rising, A: NEC 240.6(A).
func StandardBreakersA() []float64 { return slices.Clone(sizesMade().Breakers.Amps) }

// ChargerSizesKW lists the ratings in which chargers are made, AC side, rising, kW.
func ChargerSizesKW() []float64 { return slices.Clone(sizesMade().Chargers.KW) }
