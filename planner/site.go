package planner

import (
	"fmt"

	"holdover/loads/home"
	"holdover/planner/derive"
	"holdover/planner/site"
)

// addSite writes the deratings on the sheet.
func addSite(s *derive.Figures, house *home.Home, r site.Rating) {
	s.Add(derive.Figure{ID: "site.pressure_kpa", Value: r.PressureKPa, Unit: "kPa", From: []string{"site.elevation"},
		How: "101.325·(1 − 0.0065·H/288.15)^5.25588 at geopotential height H", Source: "US Standard Atmosphere 1976, ISO 2533"})
	s.Add(derive.Figure{ID: "site.air_c", Value: float64(r.Air), Unit: "°C", From: []string{"outage.season", "site.hottest", "site.coldest", "site.daily_range"},
		How: "air temperature machines are derated for: the hottest in summer, coldest + daily range in winter, the mean of the two in mild seasons"})
	s.Add(derive.Figure{ID: "site.vapour_kpa", Value: r.VapourKPa, Unit: "kPa", From: []string{"site.air_c"},
		How: "saturation vapour pressure at the air temperature", Source: "IAPWS-95 auxiliary equation; below 0 °C IAPWS R14 over ice"})
	s.Add(derive.Figure{ID: "site.engine_derate_iso", Value: r.ISO, From: []string{"site.pressure_kpa", "site.vapour_kpa", "site.humidity", "site.air_c", "assume.engine", "assume.mechanical_efficiency"},
		How: fmt.Sprintf("α = k − 0.7·(1 − k)·(1/η_m − 1) with k = %.4f, never above 1", r.K), Source: "ISO 3046-1 power adjustment"})
	s.Add(derive.Figure{ID: "site.engine_derate_thumb", Value: r.Thumb, From: []string{"site.elevation", "site.air_c"},
		How: "(1 − 3.5 % per 1000 ft)·(1 − 1 % per 10 °F above 77 °F)", Source: "common practice, no source"})
	s.Add(engineFigure(house, r))
	s.Add(derive.Figure{ID: "site.alternator_derate", Value: r.Alternator, From: []string{"site.elevation", "site.air_c"},
		How: "(1 − 1 % per 100 m above 1000 m)·(1 − 1 % per K above 40 °C)", Source: "common practice among makers, no source"})
	s.Add(derive.Figure{ID: "site.inverter_derate", Value: r.Inverter, From: []string{"site.inverter_space", "assume.inverter_knee", "assume.inverter_derate_per_k"},
		How: "1 up to the knee, then less by so much per K", Source: "common practice, no source; the maker's curve goes first"})
}

func engineFigure(house *home.Home, r site.Rating) derive.Figure {
	f := derive.Figure{ID: "site.engine_derate", Value: r.Engine}
	iso, thumb := fmt.Sprintf("ISO 3046-1 gives %.3f", r.ISO), fmt.Sprintf("the rule of thumb gives %.3f", r.Thumb)
	switch house.Assume.EngineDerate.Method {
	case home.RuleOfThumb:
		f.How, f.From, f.Source = "by the rule of thumb, as asked; "+iso, []string{"site.engine_derate_thumb", "assume.engine_derate"}, "common practice, no source"
	case home.Stated:
		f.How, f.From, f.Source = "the maker's own figure, as given; "+iso+", "+thumb, []string{"assume.engine_derate"}, "the maker's documents"
	default:
		f.How, f.From, f.Source = "by ISO 3046-1; "+thumb, []string{"site.engine_derate_iso", "assume.engine_derate"}, "ISO 3046-1"
	}
	return f
}
