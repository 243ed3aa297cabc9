package sheet

import (
	"fmt"

	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/planner/derive"
	"holdover/profiles"
)

// checkPrice adds up what the unit costs in all: its price, unless it is owned, and what it takes to connect it. One 120 V
// circuit is taken to have a plug.
func (h *holding) checkPrice() {
	total := derive.Called("nothing, for its sheet has no price", 0)
	if h.Owned {
		total, h.hasPrice = derive.Called("nothing, for it is owned already", 0), true
	} else if h.Has("price") {
		total, h.hasPrice = h.given("price", h.Price, currency()), true
	}
	if connection := h.connection(); connection.Value > 0 {
		connection = connection.With("for transfer equipment, installed")
		total = total.Plus(h.figures.Put("fit.connection", currency(), connection, "generic price bands, typical figure, or the home file's own: an estimate, common practice, no source"))
	}
	total = h.figures.Put("fit.total_price", currency(), total, "")
	h.total = total.Value
	budget := h.home.Limits.Budget
	switch {
	case !h.hasPrice && budget.Ends():
		h.ask("price", "its price", "A budget is given.")
	case !h.hasPrice:
		h.say("price", Holds, nil, "The sheet has no price, so it ranks last.")
	case !budget.Allows(h.total):
		h.say("price", Fails, append(derive.IDs(total), "limits.budget"), "It costs about %s %s in all; the budget is %s (limits.budget).", number(h.total), currency(), number(budget.Most()))
	case h.Owned && h.total > 0:
		h.say("price", Holds, derive.IDs(total), "It is owned already; to connect it costs about %s %s.", number(h.total), currency())
	case h.Owned:
		h.say("price", Holds, derive.IDs(total), "It is owned already.")
	default:
		h.say("price", Holds, derive.IDs(total), "It costs about %s %s in all.", number(h.total), currency())
	}
}

func currency() string { return profiles.PriceBands().Currency }

// connection is what transfer equipment costs; nothing for one 120 V circuit that has a plug.
func (h *holding) connection() derive.Term {
	circuits := len(h.demand.Loads)
	if circuits == 1 && h.demand.Loads[0].Volts < 130 && !h.Wired() {
		return derive.Number(0)
	}
	fixed, each, _ := TransferPrice(h.home)
	return Priced(fixed, each, "circuit", derive.Quantity(float64(circuits), "circuits"))
}

// TransferPrice is what transfer equipment costs, installed, so much and so much for each circuit, and how many years it lasts: that
// of a manual panel, or the household's own price.
func TransferPrice(house *home.Home) (fixed, each, lifeYears float64) {
	panel, _ := profiles.PriceBands().Transfer("manual-panel")
	if house.Given("prices.transfer") {
		return house.Prices.Transfer, 0, panel.LifeYears
	}
	return panel.Fixed.Typical, panel.PerCircuit.Typical, panel.LifeYears
}

// Priced is so much, and so much for each unit of an amount.
func Priced(fixed, each float64, unit string, amount derive.Term) derive.Term {
	price := derive.Called(units.Format(fixed)+" fixed", fixed)
	if each == 0 {
		return price
	}
	return price.Plus(amount.Times(derive.Called(fmt.Sprintf("%s a %s", units.Format(each), unit), each)))
}
