package planner

import (
	"fmt"

	"holdover/loads"
	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/planner/derive"
	"holdover/planner/generator"
	"holdover/planner/site"
	"holdover/profiles"
)

// addGenerator writes the generator that serves alone on the sheet, and what the next size made burns of the preferred
// fuel. What the machine chosen burns stands with its option.
func addGenerator(s *derive.Figures, house *home.Home, d *loads.Demand, r site.Rating, size generator.Sizing) {
	s.Add(derive.Figure{ID: "generator.site_kw", Value: size.SiteKW, Unit: "kW", From: []string{"load.running_w", "assume.power_margin", "load.worst_moment_w", "assume.generator_surge"},
		How: "max(running W · (1 + power margin), worst moment W / generator surge)"})
	s.Add(derive.Figure{ID: "generator.starting_kva", Value: size.StartKVA, Unit: "kVA", From: []string{"load.worst_moment_va", "assume.reactance", "assume.allowed_dip"},
		How: "worst moment VA · X·(1 − d)/d, which holds the dip X/(X + S_rated/S_start) to d", Source: "voltage divider of subtransient reactance and starting load: circuit theory"})
	s.Add(derive.Figure{ID: "generator.site_kva", Value: size.SiteKVA, Unit: "kVA", From: []string{"load.running_va", "assume.power_margin", "generator.starting_kva"},
		How: "max(running VA · (1 + power margin), the kVA that holds the starting dip)"})
	s.Add(derive.Figure{ID: "generator.rated_kw", Value: size.RatedKW, Unit: "kW", From: []string{"generator.site_kw", "site.engine_derate"}, How: "site kW / engine derate"})
	s.Add(derive.Figure{ID: "generator.rated_kva", Value: size.RatedKVA, Unit: "kVA", From: []string{"generator.site_kva", "site.alternator_derate", "generator.rated_kw", "assume.generator_power_factor"},
		How: "max(site kVA / alternator derate, rated kW / generator power factor)"})
	s.Add(derive.Figure{ID: "generator.size_kw", Value: size.MadeKW, Unit: "kW", From: []string{"generator.rated_kw", "generator.rated_kva"},
		How: "the next size made that gives both; 0 where none is made", Source: "sizes commonly sold, common practice, no source"})
	addFuel(s, house, d, r, size)
}

func addFuel(s *derive.Figures, house *home.Home, d *loads.Demand, r site.Rating, size generator.Sizing) {
	fraction := 0.0
	if size.MadeKW > 0 {
		fraction = float64(d.Average) / 1000 / (size.MadeKW * r.Engine)
	}
	s.Add(derive.Figure{ID: "generator.load_fraction", Value: fraction, From: []string{"load.average_w", "generator.size_kw", "site.engine_derate"},
		How: "average W / what the size made gives here"})
	fuel, _ := profiles.FindFuel(house.Limits.Fuels[0])
	line := fuel.Line(size.MadeKW)
	amount := generator.Fuel(line, size.MadeKW, house.Outage.Length, float64(d.Energy)/1000)
	how := fmt.Sprintf("%s, the first fuel to be had: %.4g %s/h for each rated kW · length + %.4g %s/kWh · energy = %s", fuel.Title, line.IdleUnitsPerHourPerKW, fuel.Unit, line.UnitsPerKWh, fuel.Unit, fuelText(&fuel, amount))
	s.Add(derive.Figure{ID: "generator.fuel", Value: amount, Unit: fuel.Unit, From: []string{"generator.size_kw", "limits.fuels", "outage.length", "load.energy_wh"}, How: how, Source: "Willans line; " + line.Source})
	perDay := amount * 24 / float64(house.Outage.Length)
	s.Add(derive.Figure{ID: "generator.fuel_per_day", Value: perDay, Unit: fuel.Unit, From: []string{"generator.fuel", "outage.length"}, How: "fuel · 24 h / length = " + fuelText(&fuel, perDay) + " a day"})
}

// fuelText says an amount in both systems of units, piped gas in therms too.
func fuelText(f *profiles.Fuel, amount float64) string {
	text := fmt.Sprintf("%.3g %s (%.3g %s", amount, units.Sign(f.Unit), amount*f.USPerUnit, units.Sign(f.USUnit))
	if !f.Stored {
		const kWhPerTherm = 29.3071 // 100 000 Btu
		text += fmt.Sprintf(", %.3g therms", amount*f.KWhPerUnit/kWhPerTherm)
	}
	return text + ")"
}
