package sheet

import (
	"fmt"
	"math"
	"slices"
	"sync"

	"holdover/loads"
	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/planner/derive"
	"holdover/profiles"
)

// checkGap holds the break in supply at the change-over to each circuit's own limit, and to the ITIC curve where a circuit that
// can never wait gives none.
func (h *holding) checkGap() {
	minds := h.sensitive()
	if len(minds) == 0 {
		h.say("gap", Holds, nil, "Nothing here minds a short break.")
		return
	}
	if !h.Has("gap") && h.Engine() {
		h.say("gap", NotOnSheet, nil, "Not on the sheet: give under gap how long it takes until it runs and is connected (by hand, minutes). It matters to %s.", few(minds))
		return
	}
	if !h.Has("gap") {
		h.ask("gap", "its transfer time", fmt.Sprintf("It matters to %s.", few(minds)))
		return
	}
	figures := derive.IDs(h.given("gap", float64(h.Gap), "s"))
	var restart, harmed []string
	shortest := units.Seconds(math.Inf(1))
	for i := range h.demand.Loads {
		within, dark, minds := h.dark(i)
		if !minds {
			continue
		}
		shortest = min(shortest, within)
		switch name := h.demand.Loads[i].Name; {
		case h.Gap > dark:
			harmed = append(harmed, fmt.Sprintf("%s (%s)", name, brief(dark)))
		case h.Gap > within:
			restart = append(restart, fmt.Sprintf("%s (%s)", name, brief(within)))
		}
	}
	curve := profiles.VoltageTolerance()
	figures = append(figures, h.figures.Note("fit.gap_limit", float64(shortest), "s", "the shortest break that one of the circuits rides through", "the home file, its profiles, or the ITIC curve"),
		h.figures.Note("fit.itic_gap", curve.Ride(0), "s", "no voltage at all is ridden through for so long", curve.Source))
	h.compare(float64(shortest), float64(h.Gap), "s")
	switch {
	case len(harmed) > 0:
		h.say("gap", Fails, figures, "It takes over after %s, which is too long for %s.", brief(h.Gap), few(harmed))
	case len(restart) > 0:
		h.sayMet("gap", figures, "You accept a restart: it takes over after %s, longer than rides through %s.", brief(h.Gap), few(restart))
	default:
		h.say("gap", Holds, figures, "It takes over after %s; the circuits ride through %s, and electronics by the ITIC curve %s.", brief(h.Gap), brief(shortest), brief(units.Seconds(curve.Ride(0))))
	}
}

// longestGap is the longest break that a sheet may give: what can wait for longer does not mind.
var longestGap = sync.OnceValue(func() units.Seconds {
	fields := home.FieldsOf("gear")
	return units.Seconds(fields[slices.IndexFunc(fields, func(f home.Field) bool { return f.Key == "gap" })].High)
})

// dark is [loads.Dark] of load i; minds is false where no unit's break can be too long for it.
func (h *holding) dark(i int) (within, most units.Seconds, minds bool) {
	within, most, minds = loads.Dark(h.home, h.demand.Loads[i].Index)
	return within, most, minds && within < longestGap()
}

// sensitive lists the circuits that mind a short break, which are those that mind a dip.
func (h *holding) sensitive() (names []string) {
	for i := range h.demand.Loads {
		if _, _, minds := h.dark(i); minds {
			names = append(names, h.demand.Loads[i].Name)
		}
	}
	return names
}
