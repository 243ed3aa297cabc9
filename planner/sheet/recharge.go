package sheet

import (
	"fmt"
	"math"

	"holdover/loads/units"
	"holdover/planner/battery"
	"holdover/profiles"
)

// checkRecharge asks whether the unit is full again when the next outage comes: within the time between two that the home file
// gives, or else the mean time between them.
func (h *holding) checkRecharge() {
	perYear := h.home.Outage.PerYear
	if perYear == 0 && !h.home.Given("outage.apart") {
		return
	}
	within, id, why := float64(h.home.Outage.Apart), "outage.apart", "the next outage may come %s after the last"
	if h.home.Given("outage.apart") {
		h.assumed("outage.apart", within, "h")
	} else {
		within, why = 365*24/perYear, "outages are %s apart on average"
		id = h.figure("fit.apart_h", within, "h", "hours of a year / outages a year", "", h.assumed("outage.per_year", perYear, ""))
	}
	if !h.Has("recharge") {
		h.ask("recharge", "the time from empty to full", sentence(fmt.Sprintf(why, span(units.Hours(within))))+".")
		return
	}
	figures := []string{h.given("recharge", float64(h.Recharge), "h"), id}
	chance := 1 - math.Exp(-float64(h.Recharge)*perYear/(365*24))
	figures = append(figures, h.figure("fit.caught_empty", chance, "", "1 − e^(−recharge · outages a year / hours of a year): the chance that the next one comes sooner",
		"outages independent of each other (Poisson); storms bring several, so the true chance is higher", "sheet.recharge"))
	outcome := Holds
	if float64(h.Recharge) > within {
		outcome = Fails
	}
	h.say("recharge", outcome, figures, "It is full again after %s; %s.", span(h.Recharge), fmt.Sprintf(why, span(units.Hours(within))))
}

// wantBattery says what battery an inverter without one needs.
func (h *holding) wantBattery() {
	a, d := h.home.Assume, h.demand
	chemistry, _ := profiles.FindChemistry(a.Chemistry)
	efficiency, idle := h.conversion()
	size := battery.Size(
		battery.Wanted{Energy: d.Energy, Continuous: d.RunningW, Length: h.home.Outage.Length, Efficiency: efficiency, Idle: idle, Margin: a.EnergyMargin},
		h.Ageing(Sheet{}, chemistry), a.Module)
	energy := h.figure("load.energy_wh", float64(d.Energy), "Wh", "hourly draw of these circuits over the outage", "", "outage.length")
	id := h.figure("fit.battery_wh", float64(size.Nameplate), "Wh", "as for the plan's own battery: DC energy · (1 + margin) / (depth of discharge · end of life · temperature · rate)", chemistry.Source, energy)
	h.say("runtime", HoldsIf, []string{id}, "A battery of %s Wh nameplate (%s) stands behind it, for it stores nothing itself; ask the maker which battery voltage it takes.", number(float64(size.Nameplate)), chemistry.Title)
}
