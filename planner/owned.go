package planner

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"

	"holdover/loads"
	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/planner/choose"
	"holdover/planner/effort"
	"holdover/planner/fit"
	"holdover/planner/generator"
	"holdover/planner/site"
	"holdover/planner/working"
	"holdover/profiles"
)

// An Inventory is what a house has already: what each unit carries, and the cheapest thing to add for the rest.
type Inventory struct {
	Units   []OwnedUnit
	Served  []string // kept circuits that the owned units carry through the outage
	Rest    []string // kept and rotated circuits that they do not
	Kind    Kind     // what carries the rest at the least cost; None when nothing is left or nothing does
	Design  choose.Outcome
	Without float64    // present cost of the plan that knows nothing of what is owned; 0 when it has none
	OnSale  []fit.Unit // gear that is not owned and that fits the rest by itself, the cheapest first
	Tried   bool       // every circuit was tried on every unit; false where the budget of work ended first
	Sheet   *working.Sheet

	meter *effort.Meter
}

// An OwnedUnit is one owned unit with what it carries.
type OwnedUnit struct {
	All     fit.Unit // against every kept circuit
	Carries []Carried
}

// Carried is one kept circuit on one owned unit by itself.
type Carried struct {
	Circuit string
	Unit    fit.Unit
}

// Owned works out what the gear marked `owned: true` is good for; ok is false where nothing is owned or nothing kept.
//
// The units that store energy are given kept circuits, the hungriest first, as long as everything on them still fits. What is
// left is planned again with the owned generators among the machines to choose from, at no price.
func Owned(ctx context.Context, r *Result) (inv Inventory, ok bool) {
	owned := slices.DeleteFunc(slices.Clone(r.Home.Gear), func(g home.Gear) bool { return !g.Owned })
	if _, _, err := fit.Only(r.Home, ""); err != nil || len(owned) == 0 {
		return inv, false
	}
	inv.Sheet, inv.Tried, inv.meter = &working.Sheet{}, true, effort.New(ctx, ownedSteps)
	for _, gear := range owned {
		inv.Units = append(inv.Units, inv.ownedUnit(r.Home, gear))
	}
	inv.assign(r, owned)
	inv.plan(ctx, r, owned)
	inv.addFigures(r)
	return inv, true
}

// ownedSteps is the budget of work for holding circuits to what is owned, and checkSteps what one check takes of it for each
// circuit of the home.
const (
	ownedSteps = 6_000_000
	checkSteps = 30
)

// mayTry takes one more check off the budget; false, and said so, where nothing is left of it.
func (inv *Inventory) mayTry(house *home.Home) bool {
	inv.Tried = inv.Tried && !inv.meter.Spent()
	inv.meter.Spend(checkSteps * len(house.Circuits))
	return inv.Tried
}

// ownedUnit holds one unit to all kept circuits and to each alone.
func (inv *Inventory) ownedUnit(house *home.Home, gear home.Gear) (out OwnedUnit) {
	out.All, _ = fitOne(house, gear, "")
	for _, c := range house.Circuits {
		if c.Care == home.Keep && inv.mayTry(house) {
			unit, _ := fitOne(house, gear, c.Name)
			out.Carries = append(out.Carries, Carried{c.Name, unit})
		}
	}
	return out
}

// fitOne checks one unit by itself.
func fitOne(house *home.Home, gear home.Gear, circuit string) (fit.Unit, error) {
	changed := *house
	changed.Gear = []home.Gear{gear}
	report, err := fit.Of(&changed, fit.Request{Circuit: circuit})
	if err != nil {
		return fit.Unit{}, err
	}
	return report.Units[0], nil
}

// assign gives kept circuits to the units that store energy.
func (inv *Inventory) assign(r *Result, owned []home.Gear) {
	var hungry []*loads.Load
	for i := range r.Demand.Loads {
		if r.Demand.Loads[i].Care == home.Keep {
			hungry = append(hungry, &r.Demand.Loads[i])
		}
	}
	energy := func(l *loads.Load) units.WattHours {
		return loads.EnergyOver(l.Hourly, r.Demand.Start, r.Home.Outage.Length)
	}
	slices.SortStableFunc(hungry, func(a, b *loads.Load) int { return cmp.Compare(energy(b), energy(a)) })
	for _, gear := range owned {
		if gear.Kind != "ups" && gear.Kind != "power-station" {
			continue
		}
		var on []string
		for _, l := range hungry {
			if slices.Contains(inv.Served, l.Name) || !inv.mayTry(r.Home) {
				continue
			}
			if u, err := fitOne(keptOnly(r.Home, append(slices.Clone(on), l.Name)), gear, ""); err == nil && u.Verdict == fit.Fits {
				on = append(on, l.Name)
			}
		}
		inv.Served = append(inv.Served, on...)
	}
	for i := range r.Demand.Loads {
		if name := r.Demand.Loads[i].Name; !slices.Contains(inv.Served, name) {
			inv.Rest = append(inv.Rest, name)
		}
	}
}

// keptOnly is a home of which only some circuits are kept and the rest are shed.
func keptOnly(house *home.Home, names []string) *home.Home {
	changed := *house
	changed.Circuits = slices.Clone(house.Circuits)
	for i := range changed.Circuits {
		changed.Circuits[i].Care = home.Shed
		if slices.Contains(names, changed.Circuits[i].Name) {
			changed.Circuits[i].Care = home.Keep
		}
	}
	return &changed
}

// plan chooses for the rest, and looks for gear on offer that would do alone.
func (inv *Inventory) plan(ctx context.Context, r *Result, owned []home.Gear) {
	inv.Kind = None
	if option, ok := r.Option(r.Choice); ok {
		inv.Without = option.Cost
	}
	if len(inv.Rest) == 0 {
		return
	}
	house := *r.Home
	house.Circuits = slices.Clone(r.Home.Circuits)
	for i := range house.Circuits {
		if slices.Contains(inv.Served, house.Circuits[i].Name) {
			house.Circuits[i].Care = home.Shed
		}
	}
	demand, rating := loads.Work(&house), site.Rate(&house)
	c := choose.NewCase(&house, &demand, rating).Within(effort.New(ctx, verdictSteps))
	for _, gear := range owned {
		if m, ok := ownedMachine(&house, &demand, rating, gear); ok {
			addOwnedMachine(c, &house, &demand, rating, gear, m)
		}
	}
	inv.Kind, inv.Design = c.Choose()
	offered := keptOnly(&house, inv.Rest)
	offered.Gear = slices.DeleteFunc(slices.Clone(r.Home.Gear), func(g home.Gear) bool { return g.Owned })
	if report, err := fit.Of(offered, fit.Request{}); err == nil {
		for _, u := range report.Units {
			if u.Verdict == fit.Fits {
				inv.OnSale = append(inv.OnSale, u)
			}
		}
	}
}

// worksAround are the checks that the choice makes itself, by hour and with a battery beside the machine, and the neutral: a
// floating one is joined to earth by the house's, through the transfer equipment that a plan always has. What fails another one
// can not join the plan.
var worksAround = []string{"quiet", "fuel", "watts", "va", "surge", "dip", "gap", "neutral"}

// ownedMachine is an owned generator as the choice knows machines, at no price; ok is false for one that can not serve these
// circuits, or whose sheet does not say enough.
func ownedMachine(house *home.Home, d *loads.Demand, r site.Rating, gear home.Gear) (m choose.Machine, ok bool) {
	fuel, known := profiles.FindFuel(gear.Fuel)
	if gear.Kind != "generator" || !known || gear.Watts == 0 || !slices.Contains(house.Limits.Fuels, gear.Fuel) || house.Limits.Generator == "none" {
		return m, false
	}
	unit, err := fitOne(keptOnly(house, loadNames(d)), gear, "")
	if err != nil {
		return m, false
	}
	for _, check := range unit.Checks {
		if check.Outcome != fit.Passed && !slices.Contains(worksAround, check.ID) {
			return m, false
		}
	}
	kW := float64(gear.Watts) / 1000
	price, _ := profiles.PriceBands().Fuel(gear.Fuel)
	m = choose.Machine{KW: kW, SiteKW: kW * r.Engine, Kind: "owned", Neutral: gear.Neutral, TakeoverS: float64(gear.Gap), Fuel: fuel,
		Line: generator.Willans(fuel, kW), Store: storeOf(house, fuel), FuelPrice: price}
	if fuel.Name == "diesel" {
		const leastLoad = 0.3 // share of its rating below which a diesel saves no more fuel (common practice, no source)
		m.LeastKW = leastLoad * kW
	}
	return m, true
}

// addOwnedMachine puts it among the machines of a case: alone where it is large and quick enough, and less the margin in a hybrid.
func addOwnedMachine(c *choose.Case, house *home.Home, d *loads.Demand, r site.Rating, gear home.Gear, m choose.Machine) {
	need := generator.Size(choose.GeneratorWanted(house, d, r))
	if m.TakeoverS <= c.WithinS && m.KW >= need.RatedKW && float64(gear.VA)/1000 >= need.RatedKVA {
		c.Generators = append(c.Generators, m)
	}
	m.SiteKW /= 1 + house.Assume.PowerMargin
	c.Machines = append(c.Machines, m)
}

// storeOf is how much of a fuel there is, in its unit; +Inf for piped fuel and where no store is given.
func storeOf(house *home.Home, fuel profiles.Fuel) float64 {
	if fuel.Stored && house.Limits.FuelStore > 0 {
		return float64(house.Limits.FuelStore)
	}
	return math.Inf(1)
}

func loadNames(d *loads.Demand) []string {
	names := make([]string, len(d.Loads))
	for i := range d.Loads {
		names[i] = d.Loads[i].Name
	}
	return names
}

func (inv *Inventory) addFigures(r *Result) {
	for i, u := range inv.Units {
		if u.All.Stored {
			inv.Sheet.Add(working.Figure{ID: fmt.Sprintf("owned.unit_%d_h", i+1), Value: float64(u.All.Runtime), Unit: "h", How: u.All.Gear.Name + " with every kept circuit on it", Source: "spec sheet of " + u.All.Gear.Name})
		}
	}
	if inv.Without > 0 {
		inv.Sheet.Add(working.Figure{ID: "owned.cost_without", Value: inv.Without, Unit: profiles.PriceBands().Currency, How: "present cost of the plan that counts nothing as owned", Source: "the choice for the whole house"})
	}
	if inv.Kind != None {
		const estimate = "generic price bands, typical figure: estimates, common practice, no source"
		inv.Sheet.Add(working.Figure{ID: "owned.to_buy", Value: inv.Design.Cost.Purchase, Unit: profiles.PriceBands().Currency, How: "what the rest takes to buy, transfer equipment and fuel store included", Source: estimate})
		inv.Sheet.Add(working.Figure{ID: "owned.cost", Value: inv.Design.Cost.Total(), Unit: profiles.PriceBands().Currency, How: "its present cost over the planning years", Source: estimate})
	}
}
