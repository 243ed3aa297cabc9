package planner

import (
	"cmp"
	"context"
	"fmt"
	"slices"

	"holdover/loads"
	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/planner/choose"
	"holdover/planner/derive"
	"holdover/planner/effort"
	"holdover/planner/sheet"
	"holdover/profiles"
)

// An Inventory is what a house has already: what each unit carries, and the cheapest thing to add for the rest.
type Inventory struct {
	Units   []OwnedUnit
	Served  []string // kept circuits that the owned units carry through the outage
	Rest    []string // kept and rotated circuits that they do not
	Kind    Kind     // what carries the rest at the least cost; None when nothing is left or nothing does
	Design  choose.Outcome
	Without float64      // present cost of the plan that knows nothing of what is owned; 0 when it has none
	OnSale  []sheet.Unit // gear that is not owned and that fits the rest by itself, the cheapest first
	Tried   bool         // every circuit was tried on every unit; false where the budget of work ended first
	Sheet   *derive.Figures

	meter *effort.Meter
}

// An OwnedUnit is one owned unit with what it carries.
type OwnedUnit struct {
	All     sheet.Unit // against every kept circuit
	Carries []Carried
}

// Carried is one kept circuit on one owned unit by itself.
type Carried struct {
	Circuit string
	Unit    sheet.Unit
}

// Owned works out what the gear marked `owned: true` is good for; ok is false where nothing is owned or nothing kept.
//
// The units that store energy are given kept circuits, the hungriest first, as long as everything on them still fits. What is
// left is planned again with the owned generators among the machines to choose from, at no price.
func Owned(ctx context.Context, r *Result) (inv Inventory, ok bool) {
	owned := slices.DeleteFunc(slices.Clone(r.Home.Gear), func(g home.Gear) bool { return !g.Owned })
	if len(r.Demand.Loads) == 0 || len(owned) == 0 {
		return inv, false
	}
	inv.Sheet, inv.Tried, inv.meter = &derive.Figures{}, true, effort.New(ctx, ownedSteps)
	for _, gear := range owned {
		inv.Units = append(inv.Units, inv.ownedUnit(r, gear))
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

// ownedUnit holds one unit to the whole duty and to each kept circuit alone.
func (inv *Inventory) ownedUnit(r *Result, gear home.Gear) OwnedUnit {
	out := OwnedUnit{All: r.duty.Unit(gear)}
	for i := range r.Demand.Loads {
		if l := &r.Demand.Loads[i]; l.Care == home.Keep && inv.mayTry(r.Home) {
			alone, _ := sheet.Alone(r.Home, l.Name)
			out.Carries = append(out.Carries, Carried{l.Name, alone.Unit(gear)})
		}
	}
	return out
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
		if s := (sheet.Sheet{Gear: gear}); !s.Stores() || s.Wired() {
			continue
		}
		var on []string
		for _, l := range hungry {
			if slices.Contains(inv.Served, l.Name) || !inv.mayTry(r.Home) {
				continue
			}
			if sheet.NewDuty(sheet.Keeping(r.Home, append(slices.Clone(on), l.Name)...)).Unit(gear).Verdict == sheet.Fits {
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

// plan chooses for the rest, and looks for gear on offer that would do alone.
func (inv *Inventory) plan(ctx context.Context, r *Result, owned []home.Gear) {
	inv.Kind = None
	if option, ok := r.Option(r.Choice); ok {
		inv.Without = option.Cost
	}
	if len(inv.Rest) == 0 {
		return
	}
	rest := sheet.NewDuty(without(r.Home, inv.Served))
	c := choose.NewCase(rest).Within(effort.New(ctx, verdictSteps))
	c.NoTurns = r.c.NoTurns
	for _, gear := range owned {
		if s := (sheet.Sheet{Gear: gear}); s.Engine() {
			c.AddOwned(s)
		}
	}
	inv.Kind, inv.Design = c.Choose()
	offered := slices.DeleteFunc(slices.Clone(r.Home.Gear), func(g home.Gear) bool { return g.Owned })
	if report, err := rest.Rank(offered); err == nil {
		for _, u := range report.Units {
			if u.Verdict == sheet.Fits {
				inv.OnSale = append(inv.OnSale, u)
			}
		}
	}
}

// without is a home that sheds some circuits.
func without(house *home.Home, names []string) *home.Home {
	changed := *house
	changed.Circuits = slices.Clone(house.Circuits)
	for i := range changed.Circuits {
		if slices.Contains(names, changed.Circuits[i].Name) {
			changed.Circuits[i].Care = home.Shed
		}
	}
	return &changed
}

func (inv *Inventory) addFigures(r *Result) {
	for i, u := range inv.Units {
		if u.All.Stored {
			inv.Sheet.Add(derive.Figure{ID: fmt.Sprintf("owned.unit_%d_h", i+1), Value: float64(u.All.Runtime), Unit: "h", How: u.All.Gear.Name + " with every kept circuit on it", Source: "spec sheet of " + u.All.Gear.Name})
		}
	}
	if inv.Without > 0 {
		inv.Sheet.Add(derive.Figure{ID: "owned.cost_without", Value: inv.Without, Unit: profiles.PriceBands().Currency, How: "present cost of the plan that counts nothing as owned", Source: "the choice for the whole house"})
	}
	if inv.Kind != None {
		const estimate = "generic price bands, typical figure: estimates, common practice, no source"
		inv.Sheet.Add(derive.Figure{ID: "owned.to_buy", Value: inv.Design.Cost.Purchase, Unit: profiles.PriceBands().Currency, How: "what the rest takes to buy, transfer equipment and fuel store included", Source: estimate})
		inv.Sheet.Add(derive.Figure{ID: "owned.cost", Value: inv.Design.Cost.Total(), Unit: profiles.PriceBands().Currency, How: "its present cost over the planning years", Source: estimate})
	}
}
