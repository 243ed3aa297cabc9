// Package planner answers: what will carry these circuits through an outage of this length, here?
//
// [Plan] is the one call. Its [Result] holds the verdict, the options worked out, the cautions, and a sheet on which
// every figure shows its working. The sub-packages each hold one matter and are usable alone.
package planner

import (
	"holdover/loads"
	"holdover/planner/choose"
	"holdover/planner/site"
	"holdover/planner/working"
)

// Plan works out the verdict on a home: what it draws, what its site does to machines, each option, the choice, the
// cautions. It never fails on a home that [loads.Read] returned.
func Plan(home *loads.Home) *Result {
	r := &Result{Home: home, Sheet: &working.Sheet{}, Demand: loads.Work(home)}
	s, d := r.Sheet, &r.Demand
	rating := site.Rate(home)
	addInputs(s, home)
	addLoad(s, home, d)
	addSite(s, home, rating)

	c := choose.NewCase(home, d, rating)
	engine, _ := c.Best(Generator)
	v := verdictInputs{home: home, demand: d, c: c,
		inverter:  addInverter(s, home, d, rating),
		modules:   addBattery(s, home, d).Modules,
		generator: addGenerator(s, home, d, rating)}
	battery, _ := c.Best(Battery)
	hybrid, _ := c.Best(Hybrid)

	turns := v.rotation()
	r.Options = []Option{
		newOption(s, c, Battery, battery, append(turns, v.battery(battery)...)),
		newOption(s, c, Generator, engine, append(turns, v.engine(engine)...)),
		newOption(s, c, Hybrid, hybrid, append(turns, v.hybrid(hybrid)...)),
	}
	r.choose()
	r.look(c)
	r.Cautions = cautions(r, c, rating)
	return r
}
