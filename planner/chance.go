package planner

import (
	"context"
	"fmt"

	"holdover/planner/derive"
	"holdover/planner/risk"
)

// Chance is how long outages last, and what each option that has a design leaves open.
type Chance struct {
	Lasting  risk.Lasting
	Exposure map[Kind]risk.Exposure
}

// expose follows each option through a long outage from every clock hour, until ctx ends.
func (r *Result) expose(ctx context.Context) {
	r.Chance = Chance{risk.Of(r.Home), map[Kind]risk.Exposure{}}
	if len(r.Demand.Loads) == 0 || r.c.Overbooked() {
		return
	}
	long := r.c.Long()
	for i := range r.Options {
		if o := &r.Options[i]; o.Outcome.Real() && ctx.Err() == nil {
			r.Chance.Exposure[o.Kind] = risk.Expose(r.Chance.Lasting, r.Home.Outage.PerYear, r.c.Stretches(o.Outcome.Design, long))
		}
	}
}

// addChance puts on the sheets how long outages last and what each option leaves open.
func (r *Result) addChance() {
	if len(r.Demand.Loads) == 0 {
		return
	}
	r.addLasting()
	for i := range r.Options {
		if e, ok := r.Chance.Exposure[r.Options[i].Kind]; ok {
			r.addExposure(&r.Options[i], e)
		}
	}
}

func (r *Result) addLasting() {
	l := r.Chance.Lasting
	from := []string{}
	if r.Home.Given("outage.lasts") {
		from = []string{"outage.lasts.half", "outage.lasts.nine_in_ten"}
	}
	r.Sheet.Add(derive.Figure{ID: "risk.mean_outage_h", Value: l.Mean(), Unit: "h", From: from,
		How: fmt.Sprintf("mean of the lognormal with μ = %.3f and σ = %.3f", l.Mu, l.Sigma), Source: l.Source})
	for _, q := range []struct {
		id    string
		share float64
	}{{"risk.half_within_h", 0.5}, {"risk.nine_in_ten_within_h", 0.9}} {
		r.Sheet.Add(derive.Figure{ID: q.id, Value: l.Quantile(q.share), Unit: "h", From: from,
			How: fmt.Sprintf("%.0f %% of outages end within, by the same lognormal", 100*q.share), Source: l.Source})
	}
}

func (r *Result) addExposure(o *Option, e risk.Exposure) {
	from := []string{"risk.mean_outage_h", "outage.per_year"}
	r.addTo(o, derive.Figure{ID: "carried_share", Value: e.Carried, From: from[:1], How: "share of outages carried throughout, averaged over the 24 start hours", Source: "closed form of the lognormal; " + runSource})
	r.addTo(o, derive.Figure{ID: "short_h_per_year", Value: e.ShortPerYear, Unit: "h", From: from, How: "hours a year in which something kept is without supply, averaged over the 24 start hours", Source: "closed form of the lognormal; " + runSource})
}
