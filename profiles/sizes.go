package profiles

import "slices"

// sizes are the steps in which things are made.
type sizes struct {
	Inverters struct {
		Source string    `yaml:"source"`
		VA     []float64 `yaml:"va"`
	} `yaml:"inverters"`
	Chargers struct {
		Source string    `yaml:"source"`
		KW     []float64 `yaml:"kw"`
	} `yaml:"chargers"`
}

var sizesMade = table[sizes]("sizes.yaml")

// InverterSizesVA lists the continuous ratings in which inverters are made, rising, VA.
func InverterSizesVA() []float64 { return slices.Clone(sizesMade().Inverters.VA) }

// ChargerSizesKW lists the ratings in which chargers are made, AC side, rising, kW.
func ChargerSizesKW() []float64 { return slices.Clone(sizesMade().Chargers.KW) }
