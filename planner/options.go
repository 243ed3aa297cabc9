package planner

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/planner/choose"
	"holdover/planner/derive"
	"holdover/profiles"
)

// An option's figures share the ids of its kind: battery.purchase, generator.purchase, hybrid.purchase, …

// newOption is one option with its outcome.
func newOption(c *choose.Case, kind Kind, o choose.Outcome, whyNot []string) Option {
	option := Option{Kind: kind, Carried: o.Carried() && o.Real() && !c.Overbooked(), WhyNot: whyNot, Sheet: &derive.Figures{}, Outcome: o}
	if !o.Real() {
		return option
	}
	option.Cost, option.BatteryKWh = o.Cost.Total(), float64(o.Modules)*c.Battery.ModuleKWh
	if at := o.Run.ShortAt; !o.Carried() && !math.IsInf(at, 1) {
		option.FellShortAt = &at
	}
	return option
}

// addOption writes one option's outcome on its own sheet and on the plan's.
func (r *Result) addOption(o *Option) {
	if !o.Outcome.Real() {
		return
	}
	add := func(f derive.Figure) { r.addTo(o, f) }
	addParts(add, r.c, o.Kind, o.Outcome)
	addCosts(add, r.c, o.Kind, o.Outcome)
}

// addTo puts a figure of an option on both sheets, under the option's name.
func (r *Result) addTo(o *Option, f derive.Figure) {
	f.ID = string(o.Kind) + "." + f.ID
	o.Sheet.Add(f)
	r.Sheet.Add(f)
}

// addParts writes what the design is made of and how it ran.
func addParts(add func(derive.Figure), c *choose.Case, kind Kind, o choose.Outcome) {
	const grid = "found by trying designs in the sizes made, cheapest first"
	if o.Modules > 0 {
		add(derive.Figure{ID: "battery_kwh", Value: float64(o.Modules) * c.Battery.ModuleKWh, Unit: "kWh", How: fmt.Sprintf("%d modules, %s", o.Modules, grid), From: []string{"assume.module"}})
		add(derive.Figure{ID: "inverter_va", Value: o.InverterVA, Unit: "VA", How: "the inverter that serves these loads", From: []string{"inverter.size_va"}})
		add(derive.Figure{ID: "end_kwh", Value: o.Run.EndKWh, Unit: "kWh", How: "left in the battery at the end, of what may be used", Source: runSource})
	}
	if o.ChargerKW > 0 {
		add(derive.Figure{ID: "charger_kw", Value: o.ChargerKW, Unit: "kW", How: grid, Source: "ratings commonly sold, common practice, no source"})
	}
	if m := o.Machine; m != nil {
		add(derive.Figure{ID: "generator_kw", Value: m.KW, Unit: "kW", How: fmt.Sprintf("%s on %s, %s", m.Title, strings.ToLower(m.Fuel.Title), grid), From: []string{"site.engine_derate"}})
		siteHow, siteFrom := "rated kW · engine derate", []string{string(kind) + ".generator_kw", "site.engine_derate"}
		if kind == Hybrid {
			siteHow, siteFrom = "rated kW · engine derate / (1 + power margin): what the plan counts on", append(siteFrom, "assume.power_margin")
		}
		add(derive.Figure{ID: "generator_site_kw", Value: m.SiteKW, Unit: "kW", How: siteHow, From: siteFrom})
		add(derive.Figure{ID: "run_hours", Value: o.Run.RunHours, Unit: "h", How: fmt.Sprintf("generator on, in %d starts", o.Run.Starts), Source: runSource})
		add(derive.Figure{ID: "generated_kwh", Value: o.Run.GeneratorKWh, Unit: "kWh", How: "given by the generator over the outage", Source: runSource})
		add(derive.Figure{ID: "fuel_burnt", Value: o.Run.Fuel, Unit: m.Fuel.Unit, Source: "Willans line; " + m.Line.Source,
			From: []string{string(kind) + ".generator_kw", string(kind) + ".run_hours", string(kind) + ".generated_kwh"},
			How: fmt.Sprintf("%s: %.4g %s/h for each rated kW · hours on + %.4g %s/kWh · energy given = %s", m.Fuel.Title,
				m.Line.IdleUnitsPerHourPerKW, m.Fuel.Unit, m.Line.UnitsPerKWh, m.Fuel.Unit, fuelText(m.Fuel, o.Run.Fuel))})
	}
	add(derive.Figure{ID: "short_kwh", Value: roundedShort(o), Unit: "kWh", How: "wanted but not supplied", Source: runSource})
}

const runSource = "the event-driven run of this design through the outage"

func roundedShort(o choose.Outcome) float64 {
	if o.Carried() {
		return 0
	}
	return o.Run.ShortKWh
}

func addCosts(add func(derive.Figure), c *choose.Case, kind Kind, o choose.Outcome) {
	const estimate = "generic price bands, typical figure: estimates, common practice, no source"
	over := []string{"assume.years", "assume.discount"}
	bought := []string{}
	for _, part := range c.Parts(o.Design, o.Run.Fuel, o.Run.RunHours) {
		if part.Kind == "" {
			continue
		}
		id := "price." + string(part.Kind)
		add(derive.Figure{ID: id, Value: part.Price.Purchase, Unit: "USD", Source: priceSource(c, part.Kind),
			How: c.PartHow(part.Kind, o.Design, o.Run.Fuel) + lastingText(part.Price)})
		bought = append(bought, string(kind)+"."+id)
	}
	add(derive.Figure{ID: "purchase", Value: o.Cost.Purchase, Unit: "USD", From: bought, How: "machines, installation, transfer equipment, fuel store", Source: estimate})
	add(derive.Figure{ID: "replacement", Value: o.Cost.Replacement, Unit: "USD", From: slices.Concat(bought, over), How: "each part bought again at the end of its life before the horizon, at present worth", Source: estimate})
	add(derive.Figure{ID: "upkeep", Value: o.Cost.Upkeep, Unit: "USD", From: slices.Concat(bought, over, []string{"outage.per_year"}), How: "upkeep of each part, by the year and by running hours, at present worth", Source: estimate})
	fuelHow, fuelFrom := "no fuel is burnt", []string{}
	if m := o.Machine; m != nil {
		fuelHow = fmt.Sprintf("fuel burnt · outages a year · %s USD/%s, at present worth", units.Format(m.Fuel.Price.PerUnit.Typical), m.Fuel.Unit)
		fuelFrom = slices.Concat([]string{string(kind) + ".fuel_burnt", "outage.per_year"}, over)
	}
	add(derive.Figure{ID: "fuel_cost", Value: o.Cost.Fuel, Unit: "USD", From: fuelFrom, How: fuelHow, Source: estimate})
	parts := []string{}
	for _, part := range []string{"purchase", "replacement", "upkeep", "fuel_cost"} {
		parts = append(parts, string(kind)+"."+part)
	}
	add(derive.Figure{ID: "cost", Value: o.Cost.Total(), Unit: "USD", From: parts, How: "present cost over the planning years: purchase + replacement + upkeep + fuel", Source: estimate})
}

// lastingText says what a part costs to keep, and how often it is bought again.
func lastingText(p choose.Price) string {
	text := ""
	if p.PerYear > 0 {
		text += fmt.Sprintf("; %s a year to keep up", units.Format(p.PerYear))
	}
	if p.LifeYears > 0 {
		text += fmt.Sprintf("; bought again every %s years", units.Format(p.LifeYears))
	}
	return text
}

// priceSource says whose price it is: the household's own, or the band's.
func priceSource(c *choose.Case, part choose.PartKind) string {
	bands := profiles.PriceBands()
	if own := c.OwnPrices(part); len(own) > 0 {
		return "the home file: " + strings.Join(own, ", ")
	}
	return "typical figure of a generic band, " + bands.Dated + ": an estimate, common practice, no source"
}

// ClockAt writes hours after the start as a clock time, and the day where it is not the first.
func ClockAt(start units.Hours, after float64) string {
	day := int(math.Floor((float64(start)+after)/24 + 1e-9))
	text := home.Clock(start + units.Hours(after))
	if day > 0 {
		text += fmt.Sprintf(" on day %d", day+1)
	}
	return text
}
