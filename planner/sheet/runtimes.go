package sheet

import (
	"fmt"

	"holdover/loads/units"
	"holdover/planner/derive"
	"holdover/profiles"
)

// addRuntime writes how the runtime came about on the unit's sheet and returns the ids to show.
func (h *holding) addRuntime(b bounds, r Reserve) []string {
	from := append([]string{"load.running_w", "outage.length"}, h.addLeft(r)...)
	efficiency, idle := h.conversion()
	if r.Published != nil || h.Has("energy") {
		from = append(from, derive.IDs(efficiency, idle)...)
	}
	how := fmt.Sprintf("Wh · depth of discharge · share left · rate factor / (P/%.3g + %s)", efficiency.Value, watts(units.Watts(idle.Value)))
	source := "energy balance; depth of discharge, and Peukert's law at the mean draw for lead-acid, by the battery's kind"
	if r.Published != nil {
		how = fmt.Sprintf("a power law between the published points; below the lightest, %s, as much energy as there, (P/%.3g + %s)·t", watts(r.Published.Lightest()), efficiency.Value, watts(units.Watts(idle.Value)))
		source = "the maker's own points; a battery with a share s left lasts at P as a new one at P/s"
		from = append(from, derive.IDs(h.given("watts", float64(h.Watts), "W"))...)
	}
	if h.Has("energy") {
		from = append(from, derive.IDs(h.given("energy", float64(h.Energy), "Wh"))...)
		if r.Published != nil {
			how += "; never more than the stated Wh · share left"
		}
	}
	how += "; " + h.useHow()
	figures := []string{
		h.figures.Note("fit.runtime_h", float64(b.runtime), "h", how, source, from...),
		h.figures.Note("fit.runtime_throughout_h", float64(r.Hours(h.demand.RunningW)), "h", "the same with everything on throughout", source, from...),
		h.figures.Note("fit.runtime_sure_h", float64(b.sure), "h", "the same, but a lighter load than the lightest published lasts no longer than that for sure", source, from...),
		h.figures.Note("fit.runtime_best_h", float64(b.best), "h", "the kindest reading: the draw spread evenly over each hour, and the kindest battery where the sheet does not name its kind", source, from...),
	}
	spare := h.figures.Term("fit.runtime_h").Minus(h.figures.Term("outage.length"))
	return append(figures, derive.IDs(h.figures.Put("fit.spare_h", "h", spare, ""))...)
}

func (h *holding) useHow() string {
	if h.spell() {
		return "the circuit on from the start until its hours of the day are used up, then idle"
	}
	return "over the hourly draw of the plan, each hour's draw taken as all on or all idle"
}

// addLeft writes what age and cold leave of the battery. Where its kind is not known, that of the worst is taken.
func (h *holding) addLeft(r Reserve) []string {
	how := "share left when it is retired, by the battery's kind · share that this temperature leaves"
	if h.Has("capacity_left") {
		how = "share of its new capacity that the sheet gives · share that this temperature leaves"
	}
	source := "every kind of battery the program knows"
	if c, ok := profiles.FindChemistry(h.Chemistry); ok {
		source = c.Title + ": " + c.Source
	} else {
		how += "; the sheet does not name its kind, so the one that leaves the least runtime is taken"
	}
	return []string{h.figures.Note("fit.capacity_left", r.Left, "", how, source, "site.battery_space")}
}

// checkCold holds the battery's place to what its kind bears.
func (h *holding) checkCold() {
	at := float64(h.home.Site.BatterySpace)
	kinds := h.chemistries()
	var discharge, charge bool
	for _, c := range kinds {
		may, mayCharge := Bears(h.home, c)
		discharge, charge = discharge || !may, charge || !mayCharge
	}
	if !discharge && !charge {
		return
	}
	figures := []string{"site.battery_space"}
	place, c := degrees{h.home, at}, kinds[0]
	switch {
	case len(kinds) > 1:
		h.ask("cold", "the chemistry of its battery, and the temperatures it may be used and charged at", fmt.Sprintf("Its place reaches %s.", place))
	case discharge:
		h.say("cold", Fails, figures, "Its place reaches %s; %s may be discharged from %s to %s (site.battery_space).", place, c.Title, degrees{h.home, c.DischargeMinC}, degrees{h.home, c.DischargeMaxC})
	case h.Beside != nil:
		h.say("cold", Fails, figures, "Its place reaches %s, at which it may not be charged: %s may from %s to %s (site.battery_space).", place, c.Title, degrees{h.home, c.ChargeMinC}, degrees{h.home, c.ChargeMaxC})
	default:
		h.sayMet("cold", figures, "It is brought to between %s and %s before it is charged: its place reaches %s.", degrees{h.home, c.ChargeMinC}, degrees{h.home, c.ChargeMaxC}, place)
	}
}
