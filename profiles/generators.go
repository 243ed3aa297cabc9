package profiles

import (
	"cmp"
	"slices"
	"sync"
)

// GeneratorKind is what the sizes of one kind of machine have in common.
type GeneratorKind struct {
	Entry[string] `yaml:",inline"`

	Kind       string         `yaml:"kind"`       // portable, inverter-portable, standby
	Distortion float64        `yaml:"distortion"` // of its wave at full load, 0..1
	Alternator string         `yaml:"alternator"` // wound, or inverter where electronics make the wave
	Place      string         `yaml:"place"`      // portable or fixed
	SurgeS     float64        `yaml:"surge_s"`    // how long it gives more than it does steadily, s
	Neutral    string         `yaml:"neutral"`    // bonded or floating, as delivered
	TakeoverS  float64        `yaml:"takeover_s"` // from the start of an outage until it carries the house, s
	Price      GeneratorPrice `yaml:"price"`
	Sizes      [][2]float64   `yaml:"sizes_kw_dba"`
}

// A GeneratorPrice is what a machine of one kind costs.
type GeneratorPrice struct {
	Fixed         Band    `yaml:"fixed"`           // once an installation: pad, pipe or inlet, labour
	PerKW         Band    `yaml:"per_kw"`          // per rated kW
	UpkeepPerYear Band    `yaml:"upkeep_per_year"` // whether it runs or not
	UpkeepPerHour Band    `yaml:"upkeep_per_hour"` // of running: oil, filters, wear
	LifeYears     float64 `yaml:"life_years"`
	LifeHours     float64 `yaml:"life_hours"` // of running
	Source        string  `yaml:"source"`
}

// Generator is one size of one kind of machine as it is commonly sold.
type Generator struct {
	GeneratorKind
	KW       float64 // rated continuous kW at reference conditions
	NoiseDBA float64 // dB(A) at 7 m, half to full load
}

var generators = sync.OnceValue(func() []Generator {
	var all []Generator
	for _, kind := range parse[[]GeneratorKind]("generators.yaml") {
		for _, size := range kind.Sizes {
			all = append(all, Generator{kind, size[0], size[1]})
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
