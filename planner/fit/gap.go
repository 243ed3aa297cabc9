package fit

import (
	"fmt"
	"math"
	"slices"
	"sync"

	"holdover/loads"
	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/profiles"
)

// checkGap holds the break in supply at the change-over to each circuit's own limit, and to the ITIC curve where a circuit that
// can never wait gives none.
func (s *subject) checkGap() {
	minds := s.sensitive()
	if len(minds) == 0 {
		s.say("gap", Passed, nil, "Nothing here minds a short break.")
		return
	}
	if !s.Has("gap") && s.Kind == generatorSet {
		s.say("gap", Asked, nil, "Not on the sheet: give under gap how long it takes until it runs and is connected (by hand, minutes). It matters to %s.", list(minds))
		return
	}
	if !s.Has("gap") {
		s.ask("gap", "its transfer time", fmt.Sprintf("It matters to %s.", list(minds)))
		return
	}
	figures := []string{s.given("gap", float64(s.Gap), "s")}
	var restart, harmed []string
	shortest := units.Seconds(math.Inf(1))
	for i := range s.demand.Loads {
		within, dark, minds := s.dark(i)
		if !minds {
			continue
		}
		shortest = min(shortest, within)
		switch name := s.demand.Loads[i].Name; {
		case s.Gap > dark:
			harmed = append(harmed, fmt.Sprintf("%s (%s)", name, brief(dark)))
		case s.Gap > within:
			restart = append(restart, fmt.Sprintf("%s (%s)", name, brief(within)))
		}
	}
	curve := profiles.VoltageTolerance()
	figures = append(figures, s.figure("fit.gap_limit", float64(shortest), "s", "the shortest break that one of the circuits rides through", "the home file, its profiles, or the ITIC curve"),
		s.figure("fit.itic_gap", curve.Ride(0), "s", "no voltage at all is ridden through for so long", curve.Source))
	switch {
	case len(harmed) > 0:
		s.say("gap", Failed, figures, "It takes over after %s, which is too long for %s.", brief(s.Gap), list(harmed))
	case len(restart) > 0:
		s.say("gap", Conditional, figures, "You accept a restart: it takes over after %s, longer than rides through %s.", brief(s.Gap), list(restart))
	default:
		s.say("gap", Passed, figures, "It takes over after %s; the circuits ride through %s, and electronics by the ITIC curve %s.", brief(s.Gap), brief(shortest), brief(units.Seconds(curve.Ride(0))))
	}
}

// longestGap is the longest break that a sheet may give: what can wait for longer does not mind.
var longestGap = sync.OnceValue(func() units.Seconds {
	fields := home.FieldsOf("gear")
	return units.Seconds(fields[slices.IndexFunc(fields, func(f home.Field) bool { return f.Key == "gap" })].High)
})

// dark is [loads.Dark] of load i; minds is false where no unit's break can be too long for it.
func (s *subject) dark(i int) (within, most units.Seconds, minds bool) {
	within, most, minds = loads.Dark(s.home, s.demand.Loads[i].Index)
	return within, most, minds && within < longestGap()
}
