package choose

import (
	"math"
	"slices"

	"holdover/loads"
	"holdover/loads/home"
	"holdover/planner/generator"
	"holdover/planner/site"
	"holdover/profiles"
)

// A Machine is one generator on one fuel, rated for this site.
type Machine struct {
	KW        float64 // rated
	SiteKW    float64 // here; in a hybrid less the power margin, which a machine that serves alone has in its size already
	Kind      string
	Title     string // in words
	Neutral   string
	TakeoverS float64 // dark time before it carries the house, s
	Fuel      profiles.Fuel
	Line      profiles.Willans
	LeastKW   float64
	Store     float64 // fuel units there are; +Inf when piped or not limited
	Price     profiles.GeneratorPrice
	FuelPrice profiles.FuelPrice
}

// same says whether two machines are the same size of the same kind on the same fuel.
func (m *Machine) same(other *Machine) bool {
	return m.Kind == other.Kind && m.KW == other.KW && m.Fuel.Name == other.Fuel.Name
}

// dieselLeastLoad is the share of its rating below which a diesel should not run for long, and no fuel is saved by it
// (common practice, no source).
const dieselLeastLoad = 0.3

// addMachines lists every generator on every fuel to be had whose wave and legs serve these loads. A hybrid's machine passes
// its supply through to them while it runs, so it must serve them too.
func (c *Case) addMachines(r site.Rating) {
	house := c.home
	if house.Limits.Generator == "none" {
		return
	}
	need := generator.Size(GeneratorWanted(house, c.demand, r))
	bothLegs := c.demand.NeedsBothLegs(house)
	for _, name := range house.Limits.Fuels {
		fuel, _ := profiles.FindFuel(name)
		for _, g := range profiles.Generators() {
			if !slices.Contains(g.Fuels, name) || (len(c.demand.SineFor) > 0 && !g.LowDistortion) ||
				(bothLegs && g.KW < profiles.Transfers().SingleLeg.BelowKW) {
				continue
			}
			m := c.machine(g, fuel, r)
			if m.TakeoverS <= c.WithinS && c.startsLargest(g, r) && generator.NextMade([]float64{g.KW}, need.RatedKW, need.RatedKVA, house.Assume.GeneratorPowerFactor) > 0 {
				c.Generators = append(c.Generators, m)
			}
			m.SiteKW /= 1 + house.Assume.PowerMargin
			c.Machines = append(c.Machines, m)
		}
	}
}

// startsLargest says whether a machine that makes its wave by electronics can give the worst moment: there is no alternator
// whose field rides through a start, so it is held to its short-time rating. Others are held to their voltage dip, which is
// in their size already.
func (c *Case) startsLargest(g profiles.Generator, r site.Rating) bool {
	if g.Kind != "inverter-portable" {
		return true
	}
	a := c.home.Assume
	shortTimeVA := 1000 * g.KW / a.GeneratorPowerFactor * a.GeneratorSurge * min(r.Engine, r.Alternator)
	return float64(c.demand.WorstVA) <= shortTimeVA*(1+1e-9)
}

func (c *Case) machine(g profiles.Generator, fuel profiles.Fuel, r site.Rating) Machine {
	m := Machine{KW: g.KW, SiteKW: g.KW * r.Engine, Kind: g.Kind, Title: g.Title, Neutral: g.Neutral, TakeoverS: g.TakeoverS, Fuel: fuel,
		Line: generator.Willans(fuel, g.KW), Store: math.Inf(1), Price: c.rates.generators[g.Kind], FuelPrice: c.rates.fuels[fuel.Name]}
	if fuel.Stored && c.home.Limits.FuelStore > 0 {
		m.Store = float64(c.home.Limits.FuelStore)
	}
	if fuel.Name == "diesel" {
		m.LeastKW = dieselLeastLoad * g.KW
	}
	return m
}

// GeneratorWanted is what a generator that serves alone must do.
func GeneratorWanted(house *home.Home, d *loads.Demand, r site.Rating) generator.Wanted {
	a := house.Assume
	return generator.Wanted{RunningW: d.RunningW, WorstW: d.WorstW, RunningVA: d.Running.VA(), WorstVA: d.WorstVA,
		Margin: a.PowerMargin, Surge: a.GeneratorSurge, Reactance: a.Reactance, Dip: a.AllowedDip,
		PowerFactor: a.GeneratorPowerFactor, EngineDerate: r.Engine, AlternatorDerate: r.Alternator}
}

// slowestTakeoverS is the longest that any generator takes to carry a house, s.
const slowestTakeoverS = 600

// addHurried finds how long a generator that serves alone may take to start: no longer than the shortest gap of a kept
// circuit that cannot be without supply for longer either. A circuit that can wait restarts after a longer break; one that
// can never wait counts though it is set to take turns.
func (c *Case) addHurried() {
	c.WithinS = math.Inf(1)
	for i := range c.demand.Loads {
		l := &c.demand.Loads[i]
		_, dark, minds := loads.Dark(c.home, l.Index)
		if !minds || (l.Care == home.Rotate && !loads.NeverWaits(c.home, l.Index)) {
			continue // it waits, for its turn in any case
		}
		within := float64(dark)
		if within < slowestTakeoverS {
			c.Hurried = append(c.Hurried, l.Name)
		}
		c.WithinS = min(c.WithinS, within)
	}
}
