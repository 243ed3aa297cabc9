package planner

import (
	"fmt"

	"holdover/loads/units"
	"holdover/planner/choose"
	"holdover/planner/derive"
	"holdover/planner/effort"
)

// An Outlook is how firm a verdict stands: what would change it, and what would help where nothing carries the house.
type Outlook struct {
	RunnerUp  Kind // the cheapest open option beside the chosen one; None when there is none
	Flips     []choose.Flip
	Unsettled []choose.Unsettled // quantities in which a search for a flip ended at its budget of work
	Front     []choose.FrontPoint
	Remedies  []Remedy // what would let the house be carried, when nothing does
	AllTried  bool     // of the remedies there may be, none was left untried or undecided for want of work
}

// look works the outlook out. A home without loads has none.
func (r *Result) look(m *effort.Meter) {
	o := &r.Outlook
	o.RunnerUp, o.AllTried = r.runnerUp(), true
	if len(r.Demand.Loads) == 0 {
		return
	}
	if r.Choice == None {
		m.Part(remedyShare, func(m *effort.Meter) { o.Remedies, o.AllTried = remedies(r, m) })
		for _, remedy := range o.Remedies {
			r.Reasons = append(r.Reasons, remedy.String())
		}
	}
	m.Part(flipShare, func(m *effort.Meter) { o.Flips, o.Unsettled = r.c.Within(m).FlipPoints(r.Choice) })
	o.Front = r.c.Within(m).Front()
}

// The shares of the work left for the outlook that its parts may take, each in its turn; the front has the rest.
const (
	remedyShare = 0.4
	flipShare   = 0.5
)

func (r *Result) runnerUp() Kind {
	second, cost := None, 0.0
	for _, o := range r.Options {
		if o.Kind != r.Choice && o.Open() && (second == None || o.Cost < cost) {
			second, cost = o.Kind, o.Cost
		}
	}
	return second
}

// addFlips puts each flip point on the sheet: flip.outage.length.up and so on.
func (r *Result) addFlips() {
	for _, f := range r.Outlook.Flips {
		way := "down"
		if f.Up() {
			way = "up"
		}
		r.Sheet.Add(derive.Figure{ID: "flip." + f.Quantity + "." + way, Value: f.At, Unit: f.Unit, How: FlipText(f, r.Home.House.Units), From: []string{},
			Source: "the choice made again at other values, found by bisection"})
	}
}

// FlipText says a flip point in plain words, in the units that the home shows.
func FlipText(f choose.Flip, system units.System) string {
	beyond, name := "below", dialName(f.Quantity)
	if f.Up() {
		beyond = "above"
	}
	answer := "a " + string(f.To)
	if f.To == None {
		answer = "nothing within the limits"
	}
	text := fmt.Sprintf("%s of %s: %s it the answer is %s", name, units.InSystem(f.At, f.Unit, system), beyond, answer)
	if !f.Proven {
		text += ", or already nearer to what is planned for: the search ended at its budget of work, so the point is not proven"
	}
	return text
}

// UnsettledText says in plain words up to where it is proven that a quantity does not change the answer.
func UnsettledText(u choose.Unsettled, system units.System) string {
	what := dialName(u.Quantity)
	if u.UpTo == u.Now {
		return fmt.Sprintf("whether %s other than that planned for changes the answer is not proven: the search ended at its budget of work", what)
	}
	return fmt.Sprintf("%s of %s does not change the answer; beyond it nothing is proven: the search ended at its budget of work", what, units.InSystem(u.UpTo, u.Unit, system))
}

// dialName is a quantity that may flip, with its article.
func dialName(quantity string) string {
	return map[string]string{"outage.length": "an outage", "limits.fuel_store": "a fuel store", "prices.battery_per_kwh": "a battery price"}[quantity]
}
