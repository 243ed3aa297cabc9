// Package choose answers: which of all designs is the cheapest that carries the house, what else comes close, and when
// would the answer change?
//
// A [Case] holds everything that does not change from design to design; [NewCase] makes it from a duty, out of the sheets whose
// checks hold. A [Design] is one point of its grid: battery modules × inverter × charger × generator and fuel × start policy.
// [Case.Try] carries one through the outage and prices it; [Case.Best] finds the cheapest of a kind, exactly; [Case.FlipPoints]
// and [Case.Front] say how the answer moves.
package choose

import (
	"slices"

	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/planner/battery"
	"holdover/planner/effort"
	"holdover/planner/outage"
	"holdover/planner/sheet"
	"holdover/profiles"
)

// A Case is one house and outage, ready for designs to be tried on it.
type Case struct {
	Outages        []outage.Outage // the one planned for; with start worst one for each clock hour, the hungriest first
	Battery        sheet.Pack
	Alone, Beside  bool      // the battery does its part by itself, and beside an engine
	InvertersVA    []float64 // sizes made that serve, rising; empty when none does
	ChargersKW     []float64 // rising
	Machines       []Machine // that may serve in a hybrid
	Generators     []Machine // that serve alone
	Policies       []Policy
	InverterDerate float64
	PowerFactor    float64 // of the running total: real kW an inverter's VA gives to these loads
	Efficiency     float64
	IdleKW         float64
	PowerModules   int // fewest modules that give the running power
	OutagesPerYear float64
	Horizon        Horizon
	Budget         units.Limit // of what it costs to buy
	RotatingH      float64     // hours a day that circuits taking turns say they want between them; beyond 24 nothing carries the house
	NoTurns        bool        // no timetable keeps every waiting limit, so nothing carries the house

	rates rates
	duty  *sheet.Duty
	meter *effort.Meter // of the searches; nil for as long as they take
	known known         // kept between searches of the same outages; nil for one search alone
}

// Within is the same case with a budget of work for its searches; see [Outcome.Proven] for what becomes of one that is spent.
func (c *Case) Within(m *effort.Meter) *Case {
	other := *c
	other.meter = m
	return &other
}

// A Policy is when a hybrid's generator starts and stops, in shares of usable charge.
type Policy struct{ StartAt, StopAt, LeadAt float64 }

// policies are the rules tried. Starting late and filling up runs the engine least often and hardest; the last three fill
// up before quiet hours, the very last to the brim.
var policies = []Policy{{0.1, 1, 0.1}, {0.1, 0.8, 0.1}, {0.3, 1, 0.3}, {0.1, 1, 0.95}, {0.3, 1, 0.95}, {0.1, 1, 1}}

// MaxModules bounds the grid.
const MaxModules = 200

// NewCase gathers what stays the same from design to design.
func NewCase(d *sheet.Duty) *Case {
	house := d.Home
	a := house.Assume
	c := &Case{
		duty:           d,
		InverterDerate: d.Rating.Inverter,
		PowerFactor:    d.PowerFactor(),
		Efficiency:     a.InverterEfficiency,
		IdleKW:         float64(a.InverterIdle) / 1000,
		ChargersKW:     profiles.ChargerSizesKW(),
		Policies:       policies,
		OutagesPerYear: house.Outage.PerYear,
		Horizon:        NewHorizon(a.Years, a.Discount),
		Budget:         house.Limits.Budget,
		rates:          ratesOf(house, len(d.Demand.Loads)),
	}
	if !house.Limits.Quiet.Any() {
		c.Policies = slices.DeleteFunc(slices.Clone(policies), func(p Policy) bool { return p.LeadAt != p.StartAt })
	}
	c.setLength(house.Outage.Length)
	c.PowerModules = battery.PowerModules(d.Demand.RunningW, a.InverterIdle, a.InverterEfficiency, c.Battery.DischargePerH, a.Module)
	for i := range d.Demand.Loads {
		if l := &d.Demand.Loads[i]; l.Care == home.Rotate && l.Use.Kind != home.UseAlways {
			c.RotatingH += 24 * l.MeanDuty()
		}
	}
	c.addBattery()
	c.addMachines()
	return c
}

// addBattery finds the inverters that do their part, and whether a battery does.
func (c *Case) addBattery() {
	cells := sheet.BatteryOf(c.duty.Home, c.PowerModules)
	for _, va := range profiles.InvertersMade().VA {
		if c.duty.Holds(sheet.InverterOf(c.duty.Home, va), sheet.Place{Part: sheet.House, Battery: &cells}) {
			c.InvertersVA = append(c.InvertersVA, va)
		}
	}
	if len(c.InvertersVA) == 0 || c.PowerModules > len(c.Battery.UsableKWh)-1 {
		return
	}
	inverter := sheet.InverterOf(c.duty.Home, c.InvertersVA[0])
	c.Alone = c.duty.Holds(cells, sheet.Place{Part: sheet.House, Inverter: &inverter})
	c.Beside = c.duty.Holds(cells, sheet.Place{Part: sheet.House, Inverter: &inverter, Beside: &sheet.Sheet{}})
}

// Overbooked says whether the circuits that take turns want more hours between them than a day has.
func (c *Case) Overbooked() bool { return c.RotatingH > 24*(1+1e-9) }

// setLength cuts the outage into spans, and fills what depends on how long it is.
func (c *Case) setLength(length units.Hours) {
	house := c.duty.Home
	chemistry, _ := profiles.FindChemistry(house.Assume.Chemistry)
	c.Battery = c.duty.PackOf(sheet.BatteryOf(house, 1), chemistry, sheet.MostModules(house, MaxModules), length, house.Assume.InverterEfficiency, house.Assume.InverterIdle)
	c.Outages, c.known = c.duty.OutagesOf(length), nil
}

// WithLength is the same case for an outage of another length.
func (c *Case) WithLength(length units.Hours) *Case {
	other := *c
	other.setLength(length)
	return &other
}

// WithStore is the same case with another store of fuel; piped fuel stays without end.
func (c *Case) WithStore(store units.Limit) *Case {
	other := *c
	other.Machines, other.Generators = withStore(c.Machines, store), withStore(c.Generators, store)
	return &other
}

func withStore(machines []Machine, store units.Limit) []Machine {
	out := slices.Clone(machines)
	for i := range out {
		if out[i].Fuel.Stored {
			out[i].Store = store
		}
	}
	return out
}

// WithModulePrice is the same case at another price of a battery module, for each kWh.
func (c *Case) WithModulePrice(perKWh float64) *Case {
	other := *c
	other.rates.battery.PerKWh.Typical = perKWh
	return &other
}

// ModulePrice is the price in force of a battery module, for each kWh.
func (c *Case) ModulePrice() float64 { return c.rates.battery.PerKWh.Typical }
