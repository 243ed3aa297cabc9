package planner

import (
	"context"

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

// deriveChance has how long outages last and what each option leaves open put down.
func (r *Result) deriveChance() {
	if len(r.Demand.Loads) == 0 {
		return
	}
	var from []string
	if r.Home.Given("outage.lasts") {
		from = []string{"outage.lasts.half", "outage.lasts.nine_in_ten"}
	}
	r.Chance.Lasting.Derive(r.Sheet, from...)
	for i := range r.Options {
		o := &r.Options[i]
		if e, ok := r.Chance.Exposure[o.Kind]; ok {
			r.both(o, func() { e.Derive(r.Sheet, string(o.Kind)) })
		}
	}
}
