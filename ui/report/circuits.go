package report

import (
	"fmt"
	"strings"

	"holdover/loads"
	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/planner"
)

// addCircuits shows every kept and rotated circuit with what it draws.
func addCircuits(p *page, r *planner.Result) {
	p.heading("Circuits")
	t := table{heads: []string{"circuit", "care", "running W", "starting VA", "energy Wh", "leg"},
		right: []bool{false, false, true, true, true, false}}
	for i := range r.Demand.Loads {
		l := &r.Demand.Loads[i]
		starting := "-"
		if l.Starts {
			starting = units.Format(float64(l.Starting.VA()))
		}
		energy := loads.EnergyOver(l.Hourly, r.Demand.Start, r.Home.Outage.Length)
		t.add(named(l.Circuit), string(l.Care), units.Format(float64(l.Running.W())), starting, units.Format(float64(energy)), r.Legs.Of[i])
	}
	t.write(p)
}

// named is a circuit's name, with how many of it there are.
func named(c *home.Circuit) string {
	if c.Count > 1 {
		return fmt.Sprintf("%s, %d of them", c.Name, c.Count)
	}
	return c.Name
}

// addShed names what is left off.
func addShed(p *page, r *planner.Result) {
	var names []string
	for i := range r.Home.Circuits {
		if c := &r.Home.Circuits[i]; c.Care == home.Shed {
			names = append(names, named(c))
		}
	}
	if len(names) > 0 {
		p.heading("Left off")
		p.item(strings.Join(names, "; "))
	}
}

// addLegs says how the running total lies on the two legs.
func addLegs(p *page, r *planner.Result) {
	legs := r.Legs
	p.heading("Legs")
	if r.Home.House.Service != home.SplitPhase {
		p.item(fmt.Sprintf("One leg of %s carries everything: %s.", r.Home.House.Service, amount(float64(legs.A.VA()), "VA")))
		return
	}
	p.item(fmt.Sprintf("Leg A carries %s, leg B %s; the neutral %s.",
		amount(float64(legs.A.VA()), "VA"), amount(float64(legs.B.VA()), "VA"), amount(float64(legs.Neutral), "A")))
	p.item(fmt.Sprintf("The heavier leg at any turn of the rotated circuits: %s.", amount(float64(legs.Heaviest), "VA")))
	if len(legs.Moves) > 0 {
		p.item(fmt.Sprintf("To make the heavier leg as light as can be (%s), move to the other leg: %s.",
			amount(float64(legs.Better), "VA"), strings.Join(legs.Moves, "; ")))
	}
	if !legs.Proven {
		p.item(fmt.Sprintf("The split is within %s of the best there can be.", amount(float64(legs.Heaviest)-legs.Bound, "VA")))
	}
}
