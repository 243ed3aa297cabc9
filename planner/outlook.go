package planner

import (
	"fmt"

	"holdover/loads/units"
	"holdover/planner/choose"
	"holdover/planner/risk"
	"holdover/planner/working"
)

// An Outlook is how firm a verdict stands: what it leaves open, and what would change it.
type Outlook struct {
	RunnerUp Kind // the cheapest open option beside the chosen one; None when there is none
	Flips    []choose.Flip
	Front    []choose.FrontPoint
	Lasting  risk.Lasting
	Exposure map[Kind]risk.Exposure // of every option that has a design
	Remedies []Remedy               // what would let the house be carried, when nothing does
}

// look works the outlook out and writes its figures on the sheet.
func (r *Result) look(c *choose.Case) {
	o := &r.Outlook
	o.RunnerUp = r.runnerUp()
	o.Lasting = risk.Of(r.Home)
	o.Exposure = map[Kind]risk.Exposure{}
	if len(r.Demand.Loads) == 0 {
		return
	}
	o.Flips, o.Front = c.FlipPoints(), c.Front()
	r.addLasting()
	long := c.Long()
	for i := range r.Options {
		if option := &r.Options[i]; option.Outcome.Real() && !c.Overbooked() {
			e := risk.Expose(o.Lasting, r.Home.Outage.PerYear, c.Stretches(option.Outcome.Design, long))
			o.Exposure[option.Kind] = e
			r.addExposure(option, e)
		}
	}
	r.addFlips()
	if r.Choice == None {
		o.Remedies = remedies(r)
		for _, remedy := range o.Remedies {
			r.Reasons = append(r.Reasons, remedy.String())
		}
	}
}

func (r *Result) runnerUp() Kind {
	second, cost := None, 0.0
	for _, o := range r.Options {
		if o.Kind != r.Choice && o.Open() && (second == None || o.Cost < cost) {
			second, cost = o.Kind, o.Cost
		}
	}
	return second
}

func (r *Result) addLasting() {
	l := r.Outlook.Lasting
	from := []string{}
	if r.Home.Given("outage.lasts") {
		from = []string{"outage.lasts.half", "outage.lasts.nine_in_ten"}
	}
	r.Sheet.Add(working.Figure{ID: "risk.mean_outage_h", Value: l.Mean(), Unit: "h", From: from,
		How: fmt.Sprintf("mean of the lognormal with μ = %.3f and σ = %.3f", l.Mu, l.Sigma), Source: l.Source})
	for _, q := range []struct {
		id    string
		share float64
	}{{"risk.half_within_h", 0.5}, {"risk.nine_in_ten_within_h", 0.9}} {
		r.Sheet.Add(working.Figure{ID: q.id, Value: l.Quantile(q.share), Unit: "h", From: from,
			How: fmt.Sprintf("%.0f %% of outages end within, by the same lognormal", 100*q.share), Source: l.Source})
	}
}

func (r *Result) addExposure(o *Option, e risk.Exposure) {
	from := []string{"risk.mean_outage_h", "outage.per_year"}
	for _, f := range []working.Figure{
		{ID: "carried_share", Value: e.Carried, From: from[:1], How: "share of outages carried throughout, averaged over the 24 start hours", Source: "closed form of the lognormal; " + runSource},
		{ID: "short_h_per_year", Value: e.ShortPerYear, Unit: "h", From: from, How: "hours a year in which something kept is without supply, averaged over the 24 start hours", Source: "closed form of the lognormal; " + runSource},
	} {
		f.ID = string(o.Kind) + "." + f.ID
		o.Sheet.Add(f)
		r.Sheet.Add(f)
	}
}

// addFlips puts each flip point on the sheet: flip.outage.length.up and so on.
func (r *Result) addFlips() {
	for _, f := range r.Outlook.Flips {
		way := "down"
		if f.Up() {
			way = "up"
		}
		r.Sheet.Add(working.Figure{ID: "flip." + f.Quantity + "." + way, Value: f.At, Unit: f.Unit, How: FlipText(f, r.Home.House.Units), From: []string{},
			Source: "the choice made again at other values, found by bisection"})
	}
}

// FlipText says a flip point in plain words, in the units (us or si) that the home shows.
func FlipText(f choose.Flip, system string) string {
	beyond, name := "below", map[string]string{"outage.length": "an outage", "limits.fuel_store": "a fuel store", "prices.battery_per_kwh": "a battery price"}[f.Quantity]
	if f.Up() {
		beyond = "above"
	}
	answer := "a " + string(f.To)
	if f.To == None {
		answer = "nothing within the limits"
	}
	at, unit := f.At, f.Unit
	if unit == "L" && system == "us" {
		at, unit = units.Volume.In(at, "gal"), "gal"
	}
	return fmt.Sprintf("%s of %s %s: %s it the answer is %s", name, units.Format(at), unit, beyond, answer)
}
