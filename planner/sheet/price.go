package sheet

import (
	"holdover/loads/home"
	"holdover/profiles"
)

// checkPrice adds up what the unit costs in all: its price, unless it is owned, and what it takes to connect it. One 120 V
// circuit is taken to have a plug.
func (h *holding) checkPrice() {
	var from []string
	how := "asking price"
	if h.Owned {
		how, h.hasPrice = "owned already", true
	} else if h.Has("price") {
		h.total, h.hasPrice = h.Price, true
		from = append(from, h.given("price", h.Price, currency()))
	}
	if connection := h.connection(); connection > 0 {
		h.total += connection
		how += " + transfer equipment"
		from = append(from, h.figure("fit.connection", connection, currency(), "transfer equipment: a manual panel and so much a circuit, or the home file's own price", "generic price bands, typical figure: an estimate, common practice, no source"))
	}
	id := h.figure("fit.total_price", h.total, currency(), how, "", from...)
	budget := h.home.Limits.Budget
	switch {
	case !h.hasPrice && budget.Ends():
		h.ask("price", "its price", "A budget is given.")
	case !h.hasPrice:
		h.say("price", Holds, nil, "The sheet has no price, so it ranks last.")
	case !budget.Allows(h.total):
		h.say("price", Fails, []string{id, h.assumed("limits.budget", budget.Most(), currency())}, "It costs about %s %s in all; the budget is %s (limits.budget).", number(h.total), currency(), number(budget.Most()))
	case h.Owned && h.total > 0:
		h.say("price", Holds, []string{id}, "It is owned already; to connect it costs about %s %s.", number(h.total), currency())
	case h.Owned:
		h.say("price", Holds, []string{id}, "It is owned already.")
	default:
		h.say("price", Holds, []string{id}, "It costs about %s %s in all.", number(h.total), currency())
	}
}

func currency() string { return profiles.PriceBands().Currency }

func (h *holding) connection() float64 {
	if loads := h.demand.Loads; len(loads) == 1 && loads[0].Volts < 130 && !h.Wired() {
		return 0
	}
	price, _ := TransferPrice(h.home, len(h.demand.Loads))
	return price
}

// TransferPrice is what the transfer equipment for so many circuits costs, installed, and how many years it lasts: that of a manual
// panel, or the household's own price.
func TransferPrice(house *home.Home, circuits int) (purchase, lifeYears float64) {
	panel, _ := profiles.PriceBands().Transfer("manual-panel")
	if house.Given("prices.transfer") {
		return house.Prices.Transfer, panel.LifeYears
	}
	return panel.Fixed.Typical + float64(circuits)*panel.PerCircuit.Typical, panel.LifeYears
}
