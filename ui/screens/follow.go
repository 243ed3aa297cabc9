package screens

import (
	"context"
	"sync/atomic"
	"time"

	"github.com/gdamore/tcell/v2"

	"holdover/loads/home"
	"holdover/planner"
	"holdover/planner/waiting"
	"holdover/ui/screens/ahead"
)

// This file has worked out beside the loop what takes a while. Every drawing first looks whether the home is another than at the
// last one, whatever changed it: then all that is under way for the old one ends, and the new one's plan is begun, the verdict
// first. What comes later has the loop draw again. No key waits for any of it, nor does saving or quitting. The demand alone is
// worked out in the loop: every picture shows it, and its work is bounded (see the splitter of package loads).

// grace is how long the first drawing of a changed home waits for its verdict: most come sooner, and then there is one picture
// and not two, with the time of a frame still kept.
const grace = 10 * time.Millisecond

// A foresight is what is worked out beside the loop for the home as it is.
type foresight struct {
	loop  ahead.Loop
	plans *ahead.Latest[*home.Home, *planner.Result]
	turns *ahead.Latest[*home.Home, waiting.Plan]
	gear  *ahead.Latest[*home.Home, gearFit]
	home  *home.Home // that they are about
	steps func(demand *planner.Result) []ahead.Step[*planner.Result]
	grace time.Duration
	woken atomic.Bool // the loop will draw again
}

// foresee makes the foresight of the screens.
func (a *app) foresee() {
	f := &a.foresight
	f.loop = ahead.Loop{Begin: a.beside, Wake: a.wake}
	f.plans = ahead.New[*home.Home, *planner.Result](&f.loop)
	f.turns = ahead.New[*home.Home, waiting.Plan](&f.loop)
	f.gear = ahead.New[*home.Home, gearFit](&f.loop)
	f.steps, f.grace = planSteps, grace
}

// planSteps are the parts of a plan after the demand, in the order in which a person asks for them.
func planSteps(demand *planner.Result) []ahead.Step[*planner.Result] {
	return []ahead.Step[*planner.Result]{
		func(ctx context.Context, _ *planner.Result) (*planner.Result, error) {
			return demand.More(ctx, planner.Verdict())
		},
		func(ctx context.Context, verdict *planner.Result) (*planner.Result, error) {
			return verdict.More(ctx, planner.Everything())
		},
	}
}

// beforeDraw comes before every drawing. It says whether it has drawn all there is to draw.
func (a *app) beforeDraw(screen tcell.Screen) bool {
	a.follow()
	return a.drawSmall(screen)
}

// follow has the plan of the home as it is now worked out, and takes what there is of it.
func (a *app) follow() {
	a.woken.Store(false)
	if a.draft == nil {
		return
	}
	if house := a.draft.Home(); house != a.home {
		a.forget()
		a.home = house
		a.plans.Ask(house, a.steps(a.draft.Result())...)
		a.plans.Await(a.grace)
	}
	if r, ok := a.plans.Answer(a.home); ok {
		a.draft.Take(r)
	}
}

// wake has the loop draw again, from outside it. tview's own way to do so from outside, QueueUpdateDraw, waits for the loop, for
// ever where that has ended meanwhile; an event does not wait, and of all events a resize is the one that means drawing and
// nothing else. There is never more than one of ours on its way, so its queue does not fill.
func (a *app) wake() {
	if a.woken.CompareAndSwap(false, true) {
		a.term.QueueEvent(tcell.NewEventResize(0, 0))
	}
}

// forget ends what is under way.
func (a *app) forget() {
	a.plans.Stop()
	a.turns.Stop()
	a.gear.Stop()
}
