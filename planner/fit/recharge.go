package fit

import (
	"fmt"
	"math"

	"holdover/loads/units"
	"holdover/planner/battery"
	"holdover/profiles"
)

// checkRecharge asks whether the unit is full again when the next outage comes: within the time between two that the home file
// gives, or else the mean time between them.
func (s *subject) checkRecharge() {
	perYear := s.home.Outage.PerYear
	if perYear == 0 && !s.home.Given("outage.apart") {
		return
	}
	within, id, why := float64(s.home.Outage.Apart), "outage.apart", "the next outage may come %s after the last"
	if s.home.Given("outage.apart") {
		s.assumed("outage.apart", within, "h")
	} else {
		within, why = 365*24/perYear, "outages are %s apart on average"
		id = s.figure("fit.apart_h", within, "h", "hours of a year / outages a year", "", s.assumed("outage.per_year", perYear, ""))
	}
	if !s.Has("recharge") {
		s.ask("recharge", "the time from empty to full", sentence(fmt.Sprintf(why, span(units.Hours(within))))+".")
		return
	}
	figures := []string{s.given("recharge", float64(s.Recharge), "h"), id}
	chance := 1 - math.Exp(-float64(s.Recharge)*perYear/(365*24))
	figures = append(figures, s.figure("fit.caught_empty", chance, "", "1 − e^(−recharge · outages a year / hours of a year): the chance that the next one comes sooner",
		"outages independent of each other (Poisson); storms bring several, so the true chance is higher", "sheet.recharge"))
	outcome := Passed
	if float64(s.Recharge) > within {
		outcome = Failed
	}
	s.say("recharge", outcome, figures, "It is full again after %s; %s.", span(s.Recharge), fmt.Sprintf(why, span(units.Hours(within))))
}

// wantBattery says what battery an inverter without one needs.
func (s *subject) wantBattery() {
	a, d := s.home.Assume, s.demand
	chemistry, _ := profiles.FindChemistry(a.Chemistry)
	cold := a.TemperatureFactor
	if !s.home.Given("assume.battery_temperature_factor") {
		cold, _ = battery.TemperatureFactor(chemistry, s.home.Site.BatterySpace)
	}
	efficiency, idle := s.conversion()
	size := battery.Size(
		battery.Wanted{Energy: d.Energy, Continuous: d.RunningW, Length: s.home.Outage.Length, Efficiency: efficiency, Idle: idle, Margin: a.EnergyMargin},
		battery.Ageing{DepthOfDischarge: a.DepthOfDischarge, EndOfLife: a.EndOfLife, Temperature: cold, Peukert: a.Peukert, Chemistry: chemistry}, a.Module)
	energy := s.figure("load.energy_wh", float64(d.Energy), "Wh", "hourly draw of these circuits over the outage", "", "outage.length")
	id := s.figure("fit.battery_wh", float64(size.Nameplate), "Wh", "as for the plan's own battery: DC energy · (1 + margin) / (depth of discharge · end of life · temperature · rate)", chemistry.Source, energy)
	s.say("runtime", Conditional, []string{id}, "A battery of %s Wh nameplate (%s) stands behind it, for it stores nothing itself; ask the maker which battery voltage it takes.", number(float64(size.Nameplate)), chemistry.Title)
}
