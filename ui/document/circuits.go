package document

import (
	"fmt"
	"strings"

	"holdover/loads"
	"holdover/loads/home"
	"holdover/loads/units"
)

// Circuits shows every kept and rotated circuit with what it draws.
func Circuits(w Worked) Document {
	if !w.needs() {
		return nil
	}
	d := &w.Plan.Demand
	t := Table{Name: "circuits", Columns: []Column{{Head: "circuit"}, {Head: "care"}, {Head: "running W", Kind: Number}, {Head: "starting VA", Kind: Number}, {Head: "energy Wh", Kind: Number}, {Head: "leg"}}}
	for i := range d.Loads {
		l := &d.Loads[i]
		starting := Text("-")
		if l.Starts {
			starting = Exactly(float64(l.Starting.VA()))
		}
		energy := loads.EnergyOver(l.Hourly, d.Start, w.home().Outage.Length)
		t.AddCells(Text(named(l.Circuit)), Text(string(l.Care)), Exactly(float64(l.Running.W())), starting, Exactly(float64(energy)), Text(w.Plan.Legs.Of[i]))
	}
	return under("Circuits", t)
}

// named is a circuit's name, with how many of it there are.
func named(c *home.Circuit) string {
	if c.Count > 1 {
		return fmt.Sprintf("%s, %d of them", c.Name, c.Count)
	}
	return c.Name
}

// LeftOff names the circuits that get nothing.
func LeftOff(w Worked) Document {
	var names []string
	for i := range w.home().Circuits {
		if c := &w.home().Circuits[i]; c.Care == home.Shed {
			names = append(names, named(c))
		}
	}
	if len(names) == 0 {
		return nil
	}
	return under("Left off", List{strings.Join(names, "; ")})
}

// Legs says how the running total lies on the two legs.
func Legs(w Worked) Document {
	if !w.needs() {
		return nil
	}
	legs := w.Plan.Legs
	va := func(v units.VoltAmps) string { return units.Quantity(float64(v), "VA") }
	if w.home().House.Service != home.SplitPhase {
		return under("Legs", List{fmt.Sprintf("One leg of %s carries everything: %s.", w.home().House.Service, va(legs.A.VA()))})
	}
	says := List{
		fmt.Sprintf("Leg A carries %s, leg B %s; the neutral %s.", va(legs.A.VA()), va(legs.B.VA()), units.Quantity(float64(legs.Neutral), "A")),
		fmt.Sprintf("The heavier leg at any turn of the rotated circuits: %s.", va(legs.Heaviest)),
	}
	if len(legs.Moves) > 0 {
		says = append(says, fmt.Sprintf("To make the heavier leg as light as can be (%s), move to the other leg: %s.", va(legs.Better), strings.Join(legs.Moves, "; ")))
	}
	if !legs.Proven {
		says = append(says, "That no other assignment asks less of the legs is not proven.")
	}
	return under("Legs", says)
}
