package profiles

import (
	"cmp"
	"slices"
	"sync"
)

// Generator is one size of one kind of machine as it is commonly sold.
type Generator struct {
	KW         float64    // rated continuous kW at reference conditions
	Kind       string     // portable, inverter-portable, standby
	Title      string     // in words, such as "standby generator"
	Fuels      []FuelName // any one of these: those whose entry says so
	Distortion float64    // of its wave at full load, 0..1
	Alternator string     // wound, or inverter where electronics make the wave
	Place      string     // portable or fixed
	SurgeS     float64    // how long it gives more than it does steadily, s
	Neutral    string     // bonded or floating, as delivered
	NoiseDBA   float64    // dB(A) at 7 m, half to full load
	TakeoverS  float64    // from the start of an outage until it carries the house, s
	Source     string
}

// generatorRow is how the file says it: a kind once, then its sizes.
type generatorRow struct {
	Entry[string] `yaml:",inline"`

	Kind       string       `yaml:"kind"`
	Distortion float64      `yaml:"distortion"`
	Alternator string       `yaml:"alternator"`
	Place      string       `yaml:"place"`
	SurgeS     float64      `yaml:"surge_s"`
	Neutral    string       `yaml:"neutral"`
	TakeoverS  float64      `yaml:"takeover_s"`
	Sizes      [][2]float64 `yaml:"sizes_kw_dba"`
}

var generators = sync.OnceValue(func() []Generator {
	var all []Generator
	for _, row := range parse[[]generatorRow]("generators.yaml") {
		var burns []FuelName
		for _, f := range fuels() {
			if slices.Contains(f.Machines, row.Name) {
				burns = append(burns, f.Name)
			}
		}
		for _, size := range row.Sizes {
			all = append(all, Generator{size[0], row.Kind, row.Title, burns, row.Distortion, row.Alternator, row.Place, row.SurgeS, row.Neutral, size[1], row.TakeoverS, row.Source})
		}
	}
	slices.SortStableFunc(all, func(a, b Generator) int { return cmp.Compare(a.KW, b.KW) })
	return all
})

// Generators lists every size made, rising; several kinds can share one size.
func Generators() []Generator { return slices.Clone(generators()) }

// GeneratorSizesKW lists the distinct rated sizes, rising, kW.
func GeneratorSizesKW() []float64 {
	var sizes []float64
	for _, g := range generators() {
		sizes = append(sizes, g.KW)
	}
	return slices.Compact(sizes)
}
