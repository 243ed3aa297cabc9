package planner

import (
	"fmt"
	"math"
	"strings"

	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/planner/choose"
	"holdover/planner/derive"
	"holdover/planner/generator"
	"holdover/planner/sheet"
	"holdover/profiles"
)

// This file says in plain words why an option may not be chosen: the turns that cannot be, what the nearest of the sheets fails,
// and where the nearest of the designs falls short.

// whyNot lists each reason against the best or else the nearest outcome of a kind; none where it is open to choose.
func (r *Result) whyNot(kind Kind, o choose.Outcome) (why []string) {
	why = r.rotation()
	if parts := r.partsOf(kind); len(parts) > 0 {
		return append(why, parts...)
	}
	if kind == Battery && !(o.Real() && o.Carried()) {
		place := "one installation"
		if p, ok := profiles.Places().Find(r.Home.Limits.BatteryPlace); ok {
			place = p.Title
		}
		a := r.Home.Assume
		_, modules := r.duty.SizeBattery(nil, derive.Number(a.InverterEfficiency), derive.Number(float64(a.InverterIdle)))
		why = append(why, fmt.Sprintf("It takes %d modules of %s kWh; %s may hold %d (limits.battery_place).",
			int(modules.Value), units.Format(float64(a.Module)/1000), place, len(r.c.Battery.UsableKWh)-1))
	}
	if kind == Hybrid && !o.Real() {
		return append(why, "No battery that its place can hold gives the power and lasts through the quiet hours beside any of the generators made.")
	}
	return append(why, r.short(o)...)
}

// rotation says why circuits that take turns cannot: one at a time, they may not want more hours between them than there are, and
// some timetable must keep the waiting limit of each.
func (r *Result) rotation() (why []string) {
	if r.c.Overbooked() {
		names := []string{}
		for i := range r.Demand.Loads {
			if l := &r.Demand.Loads[i]; l.Care == home.Rotate && l.Use.Kind != home.UseAlways {
				names = append(names, l.Name)
			}
		}
		why = append(why, fmt.Sprintf("The circuits that take turns (%s) want %s h of running a day between them, and one at a time there are 24: keep or shed some of them.",
			derive.Names(names, 4), units.Format(r.c.RotatingH)))
	}
	if r.c.NoTurns {
		why = append(why, r.Turns.Says())
	}
	return why
}

// partsOf says what rules a kind out whatever the size of the machine: what the nearest sheet of each of its parts fails.
func (r *Result) partsOf(kind Kind) (why []string) {
	if kind != Generator {
		why = r.batteryParts(kind)
	}
	if kind == Generator && len(r.c.Generators) == 0 {
		why = append(why, r.nearest(sheet.Generators(r.Home), sheet.Place{Part: sheet.House})...)
	}
	if kind == Hybrid && len(r.c.Machines) == 0 {
		why = append(why, r.nearest(sheet.Generators(r.Home), sheet.Place{Part: sheet.Charging})...)
	}
	return why
}

func (r *Result) batteryParts(kind Kind) (why []string) {
	if r.Home.Limits.BatteryPlace == home.NoPlace {
		return []string{"There is no place for a battery (limits.battery_place: none)."}
	}
	cells := sheet.BatteryOf(r.Home, max(1, min(r.c.PowerModules, len(r.c.Battery.UsableKWh)-1)))
	if len(r.c.InvertersVA) == 0 {
		var made []sheet.Sheet
		for _, va := range profiles.InvertersMade().VA {
			made = append(made, sheet.InverterOf(r.Home, va))
		}
		why = r.nearest(made, sheet.Place{Part: sheet.House, Battery: &cells})
	}
	place := sheet.Place{Part: sheet.House, Inverter: &sheet.Sheet{}}
	does := r.c.Alone
	if kind == Hybrid {
		place.Beside, does = &sheet.Sheet{}, r.c.Beside
	}
	if !does {
		why = append(why, r.unmet(cells, place)...)
	}
	return why
}

// nearest says what the sheet fails that fails least of all that are made, and of equals the smallest, or the largest where they are too weak.
func (r *Result) nearest(made []sheet.Sheet, at sheet.Place) []string {
	best, fewest := -1, math.MaxInt
	for i := range made {
		n := r.duty.Unmet(made[i], at)
		if n < fewest || (n == fewest && made[i].Watts > made[best].Watts && r.duty.TooWeak(made[best], at)) {
			best, fewest = i, n
		}
	}
	if best < 0 {
		return nil
	}
	why := r.unmet(made[best], at)
	if r.Home.Limits.Generator == home.NoGenerator && made[best].Engine() {
		return []string{"There is no place for a generator (limits.generator: none)."}
	}
	return []string{fmt.Sprintf("Of those made the nearest, %s, will not do. %s", made[best].Name, strings.Join(why, " "))}
}

// unmet says what a sheet fails whatever the run.
func (r *Result) unmet(s sheet.Sheet, at sheet.Place) (why []string) {
	at.Standing = true
	findings, _ := r.duty.Check(s, at)
	for _, f := range findings {
		if !f.Met {
			why = append(why, f.Says)
		}
	}
	return why
}

// short says where a design of its kind's nearest falls short, and what it costs beyond the budget.
func (r *Result) short(o choose.Outcome) (why []string) {
	if o.Real() && !o.Carried() {
		why = append(why, fmt.Sprintf("It falls short at %s, %s h after the start: %s.", ClockAt(units.Hours(o.Start), o.Run.ShortAt), units.Format(o.Run.ShortAt), r.shortOf(o)))
	}
	if budget := r.Home.Limits.Budget; o.Real() && !budget.Allows(o.Cost.Purchase) {
		why = append(why, fmt.Sprintf("It costs %s to buy; the budget is %s (limits.budget).", Money(o.Cost.Purchase), units.Format(budget.Most())))
	}
	return why
}

// shortOf says what an outcome lacks at the moment at which it first falls short.
func (r *Result) shortOf(o choose.Outcome) string {
	quiet := r.Home.Limits.Quiet
	clock := units.Hours(math.Mod(o.Start+o.Run.ShortAt, 24))
	switch {
	case o.Machine != nil && quiet.Covers(clock):
		return fmt.Sprintf("no engine may run in the quiet hours %s (limits.quiet)", quiet)
	case o.Machine != nil && o.Machine.Store.Reached(o.Run.Fuel):
		return fmt.Sprintf("the fuel store of %s is gone (limits.fuel_store)", generator.FuelText(o.Machine.Fuel, o.Machine.Store.Most()))
	}
	return "what it can give"
}
