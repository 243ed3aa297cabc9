package fit

import (
	"fmt"

	"holdover/loads/home"
	"holdover/profiles"
)

// addRuntime writes how the runtime came about on the unit's sheet and returns the ids to show.
func (s *subject) addRuntime(b bounds, r Reserve) []string {
	from := append([]string{"load.running_w", "outage.length"}, s.addLeft(r)...)
	how, source := "", "power law t = a·P^−b through the maker's own points; a battery with a share s left lasts at P as a new one at P/s"
	switch {
	case r.ByLaw:
		how = fmt.Sprintf("t = %.4g·P^−%.4g h", r.Law.A, r.Law.B)
		if r.Law.Points > 2 {
			how += fmt.Sprintf(", least squares of ln t over ln P through %d points, none missed by more than %s; nothing passes on what it is above a point", r.Law.Points, percent(r.Law.WorstMiss))
		}
		if s.Has("energy") {
			efficiency, idle := s.conversion()
			how += fmt.Sprintf("; below the lightest of them no longer than Wh · share left / (P/%.3g + %s)", efficiency, watts(idle))
			from = append(from, s.given("energy", float64(s.Energy), "Wh"), s.conversionFigure("efficiency", "assume.inverter_efficiency", efficiency, ""),
				s.conversionFigure("idle", "assume.inverter_idle", float64(idle), "W"))
		}
		from = append(from, s.figure("fit.law_a", r.Law.A, "", "a of the power law, h at 1 W", source, s.given("watts", float64(s.Watts), "W")),
			s.figure("fit.law_b", r.Law.B, "", "b of the power law", source))
	case s.Has("energy"):
		efficiency, idle := s.conversion()
		how = fmt.Sprintf("Wh · depth of discharge · share left / (P/%.3g + %s)", efficiency, watts(idle))
		source = "energy balance; depth of discharge, and Peukert's law for lead-acid, by the battery's kind"
		from = append(from, s.given("energy", float64(s.Energy), "Wh"), s.conversionFigure("efficiency", "assume.inverter_efficiency", efficiency, ""),
			s.conversionFigure("idle", "assume.inverter_idle", float64(idle), "W"))
	default:
		how, source = "the energy of its one published runtime, at any load", "the maker's one published point"
	}
	how += "; " + s.useHow()
	return []string{
		s.figure("fit.runtime_h", float64(b.runtime), "h", how, source, from...),
		s.figure("fit.runtime_throughout_h", float64(r.Hours(s.demand.RunningW)), "h", "the same with everything on throughout", source, from...),
		s.figure("fit.runtime_sure_h", float64(b.sure), "h", "the same, with no load taken as lighter than the lightest that the maker published a runtime for, less the share by which a law through several points is above one of them", source, from...),
		s.figure("fit.runtime_best_h", float64(b.best), "h", "the kindest reading: the draw spread evenly over each hour, and the kindest battery where the sheet does not name its kind", source, from...),
		s.figure("fit.spare_h", float64(b.runtime-s.home.Outage.Length), "h", "runtime less the outage", "", "fit.runtime_h", "outage.length"),
	}
}

// conversionFigure writes one figure of the way from the battery to the outlet: the sheet's, or else the plan's.
func (s *subject) conversionFigure(key, otherwise string, value float64, unit string) string {
	if s.Has(key) {
		return s.given(key, value, unit)
	}
	return s.assumed(otherwise, value, unit)
}

func (s *subject) useHow() string {
	if s.spell() {
		return "the circuit on from the start until its hours of the day are used up, then idle"
	}
	return "over the hourly draw of the plan, each hour's draw taken as all on or all idle"
}

// addLeft writes what age and cold leave of the battery. Where its kind is not known, that of the worst is taken.
func (s *subject) addLeft(r Reserve) []string {
	space := s.assumed("site.battery_space", float64(s.home.Site.BatterySpace), "°C")
	how := "share left when it is retired, by the battery's kind · share that this temperature leaves"
	if s.Has("capacity_left") {
		how = "share of its new capacity that the sheet gives · share that this temperature leaves"
	}
	source := "every kind of battery the program knows"
	if c, ok := profiles.FindChemistry(s.Chemistry); ok {
		source = c.Title + ": " + c.Source
	} else {
		how += "; the sheet does not name its kind, so the one that leaves the least runtime is taken"
	}
	return []string{s.figure("fit.capacity_left", r.Left, "", how, source, space)}
}

// checkCold holds the battery's place to what its kind bears.
func (s *subject) checkCold() {
	at := float64(s.home.Site.BatterySpace)
	var discharge, charge []string
	kinds := s.chemistries()
	for _, c := range kinds {
		if at < c.DischargeMinC || at > c.DischargeMaxC {
			discharge = append(discharge, c.Title)
		}
		if at < c.ChargeMinC || at > c.ChargeMaxC {
			charge = append(charge, c.Title)
		}
	}
	if len(discharge) == 0 && len(charge) == 0 {
		return
	}
	figures := []string{s.assumed("site.battery_space", at, "°C")}
	place := temperature(s.home, at)
	switch {
	case len(kinds) > 1:
		s.ask("cold", "the chemistry of its battery, and the temperatures it may be used and charged at", fmt.Sprintf("Its place reaches %s.", place))
	case len(discharge) > 0:
		s.say("cold", Failed, figures, "Its place reaches %s; %s may be discharged from %s to %s.", place, kinds[0].Title, temperature(s.home, kinds[0].DischargeMinC), temperature(s.home, kinds[0].DischargeMaxC))
	default:
		s.say("cold", Conditional, figures, "It is brought to between %s and %s before it is charged: its place reaches %s.", temperature(s.home, kinds[0].ChargeMinC), temperature(s.home, kinds[0].ChargeMaxC), place)
	}
}

// temperature writes a temperature in the units of the home, and in °C.
func temperature(house *home.Home, c float64) string {
	if house.House.Units == "us" {
		return fmt.Sprintf("%s °F (%s °C)", number(c*9/5+32), number(c))
	}
	return number(c) + " °C"
}
