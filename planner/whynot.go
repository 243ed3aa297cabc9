package planner

import (
	"fmt"

	"holdover/loads"
	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/planner/choose"
	"holdover/planner/working"
	"holdover/profiles"
)

// This file says in plain words why an option may not be chosen: each limit it breaks, by the name it has in the home
// file.

// rotation says why circuits that take turns cannot: one at a time, they may not want more hours between them than there are.
func (v *verdictInputs) rotation() []string {
	if !v.c.Overbooked() {
		return nil
	}
	names := []string{}
	for i := range v.demand.Loads {
		if l := &v.demand.Loads[i]; l.Care == home.Rotate && l.Use.Kind != home.UseAlways {
			names = append(names, l.Name)
		}
	}
	return []string{fmt.Sprintf("The circuits that take turns (%s) want %s h of running a day between them, and one at a time there are 24: keep or shed some of them.",
		working.Names(names, 4), units.Format(v.c.RotatingH))}
}

// verdictInputs is what the why-nots look at.
type verdictInputs struct {
	home   *home.Home
	demand *loads.Demand
	c      *choose.Case
	sizes
}

// batteryParts says what rules a battery and its inverter out whatever its size.
func (v *verdictInputs) batteryParts() (why []string) {
	chemistry, _ := profiles.FindChemistry(v.home.Assume.Chemistry)
	at := float64(v.home.Site.BatterySpace)
	if v.home.Limits.BatteryPlace == "none" {
		why = append(why, "There is no place for a battery (limits.battery_place: none).")
	}
	if !v.c.Battery.MayDischarge {
		why = append(why, fmt.Sprintf("The battery's place reaches %s; %s may be discharged from %s to %s only (site.battery_space).",
			v.temperature(at), chemistry.Title, v.temperature(chemistry.DischargeMinC), v.temperature(chemistry.DischargeMaxC)))
	}
	if len(v.c.InvertersVA) == 0 {
		why = append(why, fmt.Sprintf("No inverter is made for %s VA running and %s VA starting.",
			units.Format(float64(max(v.inverter.Continuous, v.inverter.ByLeg))), units.Format(float64(v.inverter.Surge))))
	}
	return why
}

func (v *verdictInputs) battery(o choose.Outcome) []string {
	why := v.batteryParts()
	if len(why) > 0 {
		return why
	}
	most := len(v.c.Battery.UsableKWh) - 1
	if !o.Real() || !o.Carried() {
		place := "one installation"
		if p, ok := profiles.Places().Find(v.home.Limits.BatteryPlace); ok {
			place = p.Title
		}
		why = append(why, fmt.Sprintf("It takes %d modules of %s kWh; %s may hold %d (limits.battery_place).",
			v.sizes.battery.Modules, units.Format(float64(v.home.Assume.Module)/1000), place, most))
	}
	return append(why, v.short(o)...)
}

// engineParts says what rules any generator out.
func (v *verdictInputs) engineParts() (why []string) {
	if v.home.Limits.Generator == "none" {
		return []string{"There is no place for a generator (limits.generator: none)."}
	}
	if len(v.c.Machines) == 0 {
		why = append(why, fmt.Sprintf("No machine that burns %s gives the wave and the legs these circuits need (limits.fuels).", working.Names(v.home.Limits.Fuels, 4)))
	}
	return why
}

func (v *verdictInputs) engine(o choose.Outcome) []string {
	why := v.engineParts()
	if len(why) > 0 {
		return why
	}
	if v.generator.MadeKW == 0 {
		return []string{fmt.Sprintf("No generator is made for %s kW and %s kVA rated.", units.Format(v.generator.RatedKW), units.Format(v.generator.RatedKVA))}
	}
	if !o.Real() && len(v.c.Hurried) > 0 {
		return []string{fmt.Sprintf("%s cannot be dark for as long as a generator takes to start (needs.gap, needs.can_wait); a battery bridges it.", working.Names(v.c.Hurried, 3))}
	}
	if !o.Real() {
		return []string{fmt.Sprintf("No machine that burns %s is made in %s kW or more for these circuits.", working.Names(v.home.Limits.Fuels, 4), units.Format(v.generator.RatedKW))}
	}
	return v.short(o)
}

func (v *verdictInputs) hybrid(o choose.Outcome) []string {
	why := append(v.batteryParts(), v.engineParts()...)
	if !v.c.Battery.MayCharge && v.home.Limits.BatteryPlace != "none" {
		why = append(why, fmt.Sprintf("The battery's place reaches %s, at which it may not be charged (site.battery_space).", v.temperature(float64(v.home.Site.BatterySpace))))
	}
	if len(why) > 0 {
		return why
	}
	if !o.Real() {
		return []string{"No battery that its place can hold gives the power and lasts through the quiet hours beside any of the generators made."}
	}
	return v.short(o)
}

// short says where a design of its kind's nearest falls short, and what it costs beyond the budget.
func (v *verdictInputs) short(o choose.Outcome) (why []string) {
	if o.Real() && !o.Carried() {
		reason := "what it can give"
		if o.Machine != nil {
			reason = v.engineShort(o)
		}
		why = append(why, fmt.Sprintf("It falls short at %s, %s h after the start: %s.", ClockAt(v.demand.Start, o.Run.ShortAt), units.Format(o.Run.ShortAt), reason))
	}
	if budget := v.home.Limits.Budget; o.Real() && budget > 0 && o.Cost.Purchase > budget {
		why = append(why, fmt.Sprintf("It costs %s to buy; the budget is %s (limits.budget).", Money(o.Cost.Purchase), units.Format(budget)))
	}
	return why
}

func (v *verdictInputs) engineShort(o choose.Outcome) string {
	if o.Run.Fuel >= o.Machine.Store*(1-1e-9) {
		return fmt.Sprintf("the fuel store of %s is gone (limits.fuel_store)", fuelText(o.Machine.Fuel, o.Machine.Store))
	}
	if v.home.Limits.Quiet.Any() {
		return fmt.Sprintf("no engine may run in the quiet hours %s (limits.quiet)", v.home.Limits.Quiet)
	}
	return "what it can give"
}

// temperature writes °C in the units that the home shows.
func (v *verdictInputs) temperature(celsius float64) string {
	return units.InSystem(celsius, "C", v.home.System())
}
