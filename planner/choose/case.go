// Package choose answers: which of all designs is the cheapest that carries the house, and what else comes close?
//
// A [Case] holds everything that does not change from design to design; [NewCase] makes it from a home. A [Design] is one
// point of the grid; [Case.Try] carries it through the outage and prices it. [Case.Best] searches the grid.
package choose

import (
	"fmt"
	"math"
	"slices"

	"holdover/loads"
	"holdover/loads/units"
	"holdover/planner/battery"
	"holdover/planner/generator"
	"holdover/planner/inverter"
	"holdover/planner/outage"
	"holdover/planner/site"
	"holdover/profiles"
)

// A Case is one house and outage, ready for designs to be tried on it.
type Case struct {
	Outage         outage.Outage
	Battery        Battery
	InverterVA     float64 // smallest size made that serves; 0 when none does
	InverterDerate float64
	PowerFactor    float64 // of the running total: real kW an inverter's VA gives to these loads
	Efficiency     float64
	IdleKW         float64
	ChargersKW     []float64
	Machines       []Machine // that may serve in a hybrid, cheapest first
	Generators     []Machine // that serve alone, cheapest first
	Policies       []Policy
	PowerModules   int      // fewest modules that give the running power
	Hurried        []string // kept circuits that can be dark for no longer than Within
	Within         float64  // s
	Transfer       Price
	Prices         prices
	OutagesPerYear float64
	Horizon        Horizon
	Budget         float64 // 0: none
}

// A Battery is what one kind of module gives here.
type Battery struct {
	ModuleKWh     float64
	UsableKWh     []float64 // by number of modules, from 0
	DischargePerH float64   // greatest rate as a share of nameplate an hour
	ChargePerH    float64
	RoundTrip     float64
	LifeYears     float64
	MayCharge     bool // not too cold or hot to be charged
	MayDischarge  bool
}

// A Machine is one generator on one fuel, rated for this site.
type Machine struct {
	KW        float64 // rated
	SiteKW    float64
	Kind      string
	Neutral   string
	TakeoverS float64 // dark time before it carries the house, s
	Fuel      profiles.Fuel
	Line      profiles.Willans
	LeastKW   float64
	Store     float64 // fuel units there are; +Inf when piped or not limited
	Price     profiles.GeneratorPrice
	FuelPrice profiles.FuelPrice
}

// A Policy is when a hybrid's generator starts and stops, in shares of usable charge.
type Policy struct{ StartAt, StopAt, LeadAt float64 }

// policies are the rules tried. Starting late and filling up runs the engine least often and hardest; the last fill up
// before quiet hours.
var policies = []Policy{{0.1, 1, 0.1}, {0.1, 0.8, 0.1}, {0.3, 1, 0.3}, {0.1, 1, 0.95}, {0.3, 1, 0.95}}

// dieselLeastLoad is the share of its rating below which a diesel should not run for long, and no fuel is saved by it
// (common practice, no source).
const dieselLeastLoad = 0.3

// chargerEfficiency is from AC to the battery's DC; the battery's own round trip comes on top (common practice, no source).
const chargerEfficiency = 0.94

// NewCase gathers what stays the same from design to design.
func NewCase(home *loads.Home, d *loads.Demand, r site.Rating) *Case {
	a := home.Assume
	bands := profiles.PriceBands()
	row, _ := bands.Battery(a.Chemistry)
	c := &Case{
		Outage:         outage.New(d.Hourly, [24]units.Watts{}, d.Start, home.Outage.Length, home.Limits.Quiet),
		InverterDerate: r.Inverter,
		PowerFactor:    1,
		Efficiency:     a.InverterEfficiency,
		IdleKW:         float64(a.InverterIdle) / 1000,
		ChargersKW:     profiles.ChargerSizesKW(),
		Policies:       policies,
		Prices:         prices{bands, row},
		OutagesPerYear: home.Outage.PerYear,
		Horizon:        Horizon{a.Years, a.Discount},
		Budget:         home.Limits.Budget,
	}
	if !home.Limits.Quiet.Any() {
		c.Policies = slices.DeleteFunc(slices.Clone(policies), func(p Policy) bool { return p.LeadAt != p.StartAt })
	}
	if va := d.Running.VA(); va > 0 {
		c.PowerFactor = float64(d.Running.W()) / float64(va)
	}
	split := home.House.Service == loads.SplitPhase
	inv := inverter.Size(d.Running.VA(), d.WorstVA, d.Legs.Heaviest, split, a.PowerMargin, r.Inverter, a.InverterSurge)
	c.InverterVA = float64(inv.Made)
	c.Battery = newBattery(home, d)
	c.PowerModules = max(1, battery.WholeModules(units.WattHours(float64(d.RunningW)/a.InverterEfficiency/c.Battery.DischargePerH), a.Module))
	c.addHurried(home, d)
	c.addMachines(home, d, r)
	transfer, _ := bands.Transfer("manual-panel")
	c.Transfer = Price{transfer.Fixed.Typical + float64(len(d.Loads))*transfer.PerCircuit.Typical, 0, transfer.LifeYears}
	return c
}

// addHurried finds how long a generator that serves alone may take to start: no longer than the shortest gap of a kept
// circuit that cannot be without supply for longer either. A circuit that can wait restarts after a longer break.
func (c *Case) addHurried(home *loads.Home, d *loads.Demand) {
	c.Within = math.Inf(1)
	for i := range d.Loads {
		l := &d.Loads[i]
		at := fmt.Sprintf("circuits[%d].needs.", l.Index)
		_, hasGap := home.Origin(at + "gap")
		_, hasWait := home.Origin(at + "can_wait")
		within := math.Inf(1)
		switch {
		case hasGap && hasWait:
			within = max(float64(l.Needs.Gap), float64(l.Needs.CanWait)*3600)
		case hasGap:
			within = float64(l.Needs.Gap)
		case hasWait:
			within = float64(l.Needs.CanWait) * 3600
		}
		if l.Care != loads.Keep || math.IsInf(within, 1) {
			continue
		}
		if within < slowestTakeoverS {
			c.Hurried = append(c.Hurried, l.Name)
		}
		c.Within = min(c.Within, within)
	}
}

// slowestTakeoverS is the longest that any generator takes to carry a house, s.
const slowestTakeoverS = 600

// MaxModules bounds the grid.
const MaxModules = 200

func newBattery(home *loads.Home, d *loads.Demand) Battery {
	a := home.Assume
	chemistry, _ := profiles.FindChemistry(a.Chemistry)
	temperature := Temperature(home)
	at := float64(home.Site.BatterySpace)
	b := Battery{ModuleKWh: float64(a.Module) / 1000, DischargePerH: chemistry.DischargePerHour, ChargePerH: chemistry.ChargePerHour,
		RoundTrip: chemistry.RoundTripEfficiency, LifeYears: chemistry.LifeYears,
		MayCharge:    at >= chemistry.ChargeMinC && at <= chemistry.ChargeMaxC,
		MayDischarge: at >= chemistry.DischargeMinC && at <= chemistry.DischargeMaxC,
		UsableKWh:    make([]float64, mostModules(home)+1)}
	mean := units.Watts(float64(d.Average)/a.InverterEfficiency) + a.InverterIdle
	shares := a.DepthOfDischarge * a.EndOfLife * temperature / (1 + a.EnergyMargin)
	for m := range b.UsableKWh {
		plate := a.Module * units.WattHours(m)
		rate := 1.0
		if m > 0 {
			rate = battery.Rate(plate, mean, chemistry.RatedHours, a.Peukert)
		}
		b.UsableKWh[m] = float64(plate) / 1000 * shares * rate
	}
	return b
}

// mostModules is how many modules the battery's place takes, within MaxModules. No place given, no limit of place.
func mostModules(home *loads.Home) int {
	if home.Limits.BatteryPlace == "none" {
		return 0
	}
	place, ok := profiles.Places().Find(home.Limits.BatteryPlace)
	if !ok {
		return MaxModules
	}
	return min(MaxModules, int(place.LimitKWh*1000/float64(home.Assume.Module)+1e-9))
}

// Temperature is the battery's temperature factor in force: the one given, or the chemistry's at the battery's place.
func Temperature(home *loads.Home) float64 {
	if home.Given("assume.battery_temperature_factor") {
		return home.Assume.TemperatureFactor
	}
	chemistry, _ := profiles.FindChemistry(home.Assume.Chemistry)
	factor, _ := battery.TemperatureFactor(chemistry, home.Site.BatterySpace)
	return factor
}

// addMachines lists every generator on every fuel to be had whose wave serves these loads.
func (c *Case) addMachines(home *loads.Home, d *loads.Demand, r site.Rating) {
	if home.Limits.Generator == "none" {
		return
	}
	need := generator.Size(GeneratorWanted(home, d, r))
	for _, name := range home.Limits.Fuels {
		fuel, _ := profiles.FindFuel(name)
		for _, g := range profiles.Generators() {
			if !slices.Contains(g.Fuels, name) || (len(d.SineFor) > 0 && !g.LowDistortion) {
				continue
			}
			m := c.machine(home, g, fuel, r)
			c.Machines = append(c.Machines, m)
			if m.TakeoverS <= c.Within && generator.NextMade([]float64{g.KW}, need.RatedKW, need.RatedKVA, home.Assume.GeneratorPowerFactor) > 0 {
				c.Generators = append(c.Generators, m)
			}
		}
	}
}

func (c *Case) machine(home *loads.Home, g profiles.Generator, fuel profiles.Fuel, r site.Rating) Machine {
	m := Machine{KW: g.KW, SiteKW: g.KW * r.Engine, Kind: g.Kind, Neutral: g.Neutral, TakeoverS: g.TakeoverS, Fuel: fuel,
		Line: generator.Willans(fuel, g.KW), Store: math.Inf(1)}
	if fuel.Stored && home.Limits.FuelStore > 0 {
		m.Store = float64(home.Limits.FuelStore)
	}
	if fuel.Name == "diesel" {
		m.LeastKW = dieselLeastLoad * g.KW
	}
	m.Price, _ = c.Prices.bands.Generator(g.Kind)
	m.FuelPrice, _ = c.Prices.bands.Fuel(fuel.Name)
	return m
}

// GeneratorWanted is what a generator that serves alone must do.
func GeneratorWanted(home *loads.Home, d *loads.Demand, r site.Rating) generator.Wanted {
	a := home.Assume
	return generator.Wanted{RunningW: d.RunningW, WorstW: d.WorstW, RunningVA: d.Running.VA(), WorstVA: d.WorstVA,
		Margin: a.PowerMargin, Surge: a.GeneratorSurge, Reactance: a.Reactance, Dip: a.AllowedDip,
		PowerFactor: a.GeneratorPowerFactor, EngineDerate: r.Engine, AlternatorDerate: r.Alternator}
}
