package fit

import (
	"cmp"
	"slices"

	"holdover/profiles"
)

// checkPrice adds up what the unit costs in all: its price, unless it is owned, and what it takes to connect it. One 120 V
// circuit is taken to have a plug.
func (s *subject) checkPrice() {
	var from []string
	how := "asking price"
	if s.Owned {
		how, s.hasPrice = "owned already", true
	} else if s.Has("price") {
		s.total, s.hasPrice = s.Price, true
		from = append(from, s.given("price", s.Price, currency()))
	}
	if connection := s.connection(); connection > 0 {
		s.total += connection
		how += " + transfer equipment"
		from = append(from, s.figure("fit.connection", connection, currency(), "transfer equipment: a manual panel and so much a circuit, or the home file's own price", "generic price bands, typical figure: an estimate, common practice, no source"))
	}
	id := s.figure("fit.total_price", s.total, currency(), how, "", from...)
	budget := s.home.Limits.Budget
	switch {
	case !s.hasPrice && budget > 0:
		s.ask("price", "its price", "A budget is given.")
	case !s.hasPrice:
		s.say("price", Passed, nil, "The sheet has no price, so it ranks last.")
	case budget > 0 && s.total > budget:
		s.say("price", Failed, []string{id, s.assumed("limits.budget", budget, currency())}, "It costs about %s %s in all; the budget is %s (limits.budget).", number(s.total), currency(), number(budget))
	case s.Owned && s.total > 0:
		s.say("price", Passed, []string{id}, "It is owned already; to connect it costs about %s %s.", number(s.total), currency())
	case s.Owned:
		s.say("price", Passed, []string{id}, "It is owned already.")
	default:
		s.say("price", Passed, []string{id}, "It costs about %s %s in all.", number(s.total), currency())
	}
}

func currency() string { return profiles.PriceBands().Currency }

func (s *subject) connection() float64 {
	if loads := s.demand.Loads; len(loads) == 1 && loads[0].Volts < 130 && s.Kind != inverter && s.Kind != batteryOnly {
		return 0
	}
	if s.home.Given("prices.transfer") {
		return s.home.Prices.Transfer
	}
	panel, _ := profiles.PriceBands().Transfer("manual-panel")
	return panel.Fixed.Typical + float64(len(s.demand.Loads))*panel.PerCircuit.Typical
}

// rank puts what fits first, then what fits if, then the rest; within each by price, those without one last, and at one price
// by spare runtime, a unit that has no end of it first. What does not fit keeps its order.
func rank(all []Unit) {
	order := []Verdict{Fits, FitsIf, DoesNotFit}
	slices.SortStableFunc(all, func(a, b Unit) int {
		if by := cmp.Compare(slices.Index(order, a.Verdict), slices.Index(order, b.Verdict)); by != 0 || a.Verdict == DoesNotFit {
			return by
		}
		if a.Priced != b.Priced {
			return map[bool]int{true: -1, false: 1}[a.Priced]
		}
		if by := cmp.Compare(a.Price, b.Price); by != 0 && a.Priced {
			return by
		}
		return -cmp.Compare(a.spare(), b.spare())
	})
}

func (u Unit) spare() float64 {
	if !u.Stored {
		return float64(longest)
	}
	return float64(u.Spare)
}
