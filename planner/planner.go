// Package planner answers: what will carry these circuits through an outage of this length, here?
//
// [Plan] is the one call, and [Want] says how much of its [Result] is worked out: the verdict with its options and cautions,
// their runs, how firm it stands, what is left to chance, and a sheet on which every figure shows its working. [Result.More]
// works out more of a plan that is there. The sub-packages each hold one matter and are usable alone.
package planner

import (
	"context"

	"holdover/loads/home"
	"holdover/planner/choose"
	"holdover/planner/effort"
	"holdover/planner/sheet"
	"holdover/planner/waiting"
)

// A Want is what of a plan is to be worked out. What is not wanted takes no time. The zero Want is the demand alone.
type Want struct {
	Choice      bool // the options, which of them is chosen and why, and the cautions; all below but Derivations ask for it
	Run         bool // the run of each option, stretch by stretch
	Outlook     bool // what would change the answer, what each length of outage costs, what would help where nothing carries
	Chance      bool // how long outages last, and how many of them each option carries
	Derivations bool // the figures of all that is worked out, each with its derivation
}

// Everything is all of a plan, and Verdict what a person asks first.
func Everything() Want {
	return Want{Choice: true, Run: true, Outlook: true, Chance: true, Derivations: true}
}

// Verdict is the choice with its run and figures, without how firm it stands.
func Verdict() Want { return Want{Choice: true, Run: true, Derivations: true} }

// and adds what either asks for, and what that builds on.
func (w Want) and(more Want) Want {
	w.Run, w.Outlook, w.Chance = w.Run || more.Run, w.Outlook || more.Outlook, w.Chance || more.Chance
	w.Choice = w.Choice || more.Choice || w.Run || w.Outlook || w.Chance
	w.Derivations = w.Derivations || more.Derivations
	return w
}

// The budgets of work of one plan, in steps of some 30 ns: stretches of a run between two events. A search that comes to
// its end says that what it found is not proven. Most homes take a hundredth of them.
const (
	verdictSteps = 6_000_000
	outlookSteps = 9_000_000
)

// Plan works out as much as is wanted of the verdict on a home. It never fails on a home that [home.Read] returned but
// for the end of ctx, whose error it then gives. The same home has the same plan on every machine: work is counted, not timed.
func Plan(ctx context.Context, house *home.Home, want Want) (*Result, error) {
	d := sheet.NewDuty(house)
	r := &Result{Home: house, Demand: d.Demand, Rating: d.Rating, Legs: d.Demand.Legs, duty: d, c: choose.NewCase(d)}
	return r.More(ctx, want)
}

// More gives the plan with more of it worked out, and leaves r as it is. What r has is not worked out again.
func (r *Result) More(ctx context.Context, want Want) (*Result, error) {
	out := r.copied()
	had := r.Has
	out.Has = had.and(want)
	if out.Has.Choice && !had.Choice {
		out.work(ctx)
	}
	if out.Has.Run && !had.Run {
		out.trace()
	}
	if out.Has.Outlook && !had.Outlook {
		out.look(effort.New(ctx, outlookSteps))
	}
	if out.Has.Chance && !had.Chance {
		out.expose(ctx)
	}
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	if out.Has.Derivations {
		out.derive()
	}
	return out, nil
}

// work fills in the turns, the options, the choice and the cautions.
func (r *Result) work(ctx context.Context) {
	r.Turns = r.duty.Turns(effort.New(ctx, waiting.Looks))
	r.c.NoTurns = !r.Turns.Found
	c := r.c.Within(effort.New(ctx, verdictSteps))
	for _, kind := range kinds {
		best, _ := c.Best(kind)
		r.Options = append(r.Options, newOption(c, kind, best, r.whyNot(kind, best)))
	}
	r.choose()
	r.lieOnLegs()
	r.Cautions = cautions(r)
}

// lieOnLegs puts the circuits on the legs as the check of what is chosen has them.
func (r *Result) lieOnLegs() {
	o, _ := r.Option(r.Choice)
	for _, p := range r.Sheets(o) {
		if split, ok := r.duty.LegsOn(p.Sheet); ok && p.Part == sheet.House {
			split.Moves, split.Better = r.Demand.Legs.Moves, r.Demand.Legs.Better
			r.Legs = split
			return
		}
	}
}

// kinds are the options, in the order in which they are shown.
var kinds = []Kind{Battery, Generator, Hybrid}

// trace keeps the run of each option, stretch by stretch.
func (r *Result) trace() {
	for i := range r.Options {
		if o := &r.Options[i]; o.Outcome.Real() {
			o.Trace = r.c.Trace(o.Outcome)
		}
	}
}
