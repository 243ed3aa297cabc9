package sheet

import (
	"fmt"
	"math"

	"holdover/loads/units"
	"holdover/planner/derive"
	"holdover/profiles"
)

// checkRecharge asks whether the unit is full again when the next outage comes: within the time between two that the home file
// gives, or else the mean time between them.
func (h *holding) checkRecharge() {
	perYear := h.home.Outage.PerYear
	if perYear == 0 && !h.home.Given("outage.apart") {
		return
	}
	var apart derive.Term
	why := "the next outage may come %s after the last"
	if h.home.Given("outage.apart") {
		apart = h.figures.At("outage.apart", float64(h.home.Outage.Apart))
	} else {
		often := h.figures.At("outage.per_year", perYear).As("outages a year", perYear)
		apart, why = h.figures.Put("fit.apart_h", "h", derive.Called("hours of a year", 365*24).Over(often), ""), "outages are %s apart on average"
	}
	within := apart.Value
	if !h.Has("recharge") {
		h.ask("recharge", "the time from empty to full", sentence(fmt.Sprintf(why, span(units.Hours(within))))+".")
		return
	}
	figures := derive.IDs(h.given("recharge", float64(h.Recharge), "h"), apart)
	chance := 1 - math.Exp(-float64(h.Recharge)*perYear/(365*24))
	figures = append(figures, h.figures.Note("fit.caught_empty", chance, "", "1 − e^(−recharge · outages a year / hours of a year): the chance that the next one comes sooner",
		"outages independent of each other (Poisson); storms bring several, so the true chance is higher", "sheet.recharge"))
	outcome := Holds
	if float64(h.Recharge) > within {
		outcome = Fails
	}
	h.compare(within, float64(h.Recharge), "h")
	h.say("recharge", outcome, figures, "It is full again after %s; %s.", span(h.Recharge), fmt.Sprintf(why, span(units.Hours(within))))
}

// wantBattery says what battery an inverter without one needs.
func (h *holding) wantBattery() {
	efficiency, idle := h.conversion()
	nameplate, _ := h.SizeBattery(h.figures, efficiency, idle)
	id := h.figures.Note("fit.battery_wh", nameplate.Value, "Wh", "as for the plan's own battery", "", "battery.nameplate_wh")
	chemistry, _ := profiles.FindChemistry(h.home.Assume.Chemistry)
	h.say("runtime", HoldsIf, []string{id}, "A battery of %s Wh nameplate (%s) stands behind it, for it stores nothing itself; ask the maker which battery voltage it takes.", number(nameplate.Value), chemistry.Title)
}
