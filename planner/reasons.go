package planner

import (
	"fmt"
	"strings"

	"holdover/loads/units"
	"holdover/profiles"
)

// choose takes the open option that costs least over the planning years, and says why.
func (r *Result) choose() {
	r.Choice = None
	if len(r.Demand.Loads) == 0 {
		r.Carried = true
		r.Reasons = []string{"No circuit is kept or rotated, so nothing needs to be carried."}
		return
	}
	var best *Option
	for i := range r.Options {
		o := &r.Options[i]
		if o.Open() && (best == nil || o.Cost < best.Cost) {
			best = o
		}
	}
	if best == nil {
		r.Reasons = append(r.noneReasons(), r.notProven()...)
		return
	}
	r.Choice, r.Carried = best.Kind, true
	r.Reasons = append(r.Reasons, fmt.Sprintf("A %s carries the house: %s.", best.Kind, best.Describe()))
	for _, o := range r.Options {
		if o.Kind != best.Kind {
			r.Reasons = append(r.Reasons, against(o, best))
		}
	}
	r.Reasons = append(r.Reasons, r.notProven()...)
}

// notProven says of which kinds the search ended at its budget of work, and what that leaves open.
func (r *Result) notProven() (says []string) {
	for _, o := range r.Options {
		switch {
		case o.Outcome.Proven:
		case o.Carried:
			says = append(says, fmt.Sprintf("That no %s is cheaper than this one is not proven: the search ended at its budget of work.", o.Kind))
		default:
			says = append(says, fmt.Sprintf("That no %s will do is not proven: the search ended at its budget of work.", o.Kind))
		}
	}
	return says
}

// against says why another option was not chosen.
func against(o Option, best *Option) string {
	if o.Open() {
		return fmt.Sprintf("A %s would carry it too (%s), for %s over the planning years in place of %s.",
			o.Kind, o.Describe(), Money(o.Cost), Money(best.Cost))
	}
	return fmt.Sprintf("A %s will not do: %s", o.Kind, strings.Join(o.WhyNot, " "))
}

func (r *Result) noneReasons() []string {
	reasons := []string{"Nothing carries this house within its limits."}
	for _, o := range r.Options {
		reasons = append(reasons, fmt.Sprintf("A %s will not do: %s", o.Kind, strings.Join(o.WhyNot, " ")))
	}
	return reasons
}

// Describe says in a few words what an option is made of.
func (o Option) Describe() string {
	d := o.Outcome
	var parts []string
	if d.Modules > 0 {
		parts = append(parts, fmt.Sprintf("%s kWh of battery with %s VA inverter", units.Format(o.BatteryKWh), withArticle(d.InverterVA)))
	}
	if d.ChargerKW > 0 {
		parts = append(parts, fmt.Sprintf("%s kW charger", withArticle(d.ChargerKW)))
	}
	if m := d.Machine; m != nil {
		parts = append(parts, fmt.Sprintf("%s kW %s on %s", withArticle(m.KW), m.Title, strings.ToLower(m.Fuel.Title)))
	}
	if len(parts) == 0 {
		return "no design of this kind"
	}
	return strings.Join(parts, ", ")
}

// Money writes an estimate in the currency of the price bands.
func Money(amount float64) string { return units.About(amount, profiles.PriceBands().Currency) }

// withArticle writes a number as it is spoken after a or an: an 8, an 11, an 18, an 80.
func withArticle(value float64) string {
	text := units.Format(value)
	whole, _, _ := strings.Cut(text, ".")
	if strings.HasPrefix(text, "8") || whole == "11" || whole == "18" {
		return "an " + text
	}
	return "a " + text
}
