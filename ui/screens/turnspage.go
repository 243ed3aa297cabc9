package screens

import (
	"context"
	"slices"

	"holdover/planner"
	"holdover/planner/waiting"
	"holdover/ui/document"
)

// newTurnsPage shows the timetable of the circuits that take turns, and how long everything can wait. It is worked out once for
// each home, beside the loop, since the search can take a moment.
func newTurnsPage(a *app) page {
	return a.reading(func() (any, func() document.Document) {
		r := a.draft.Result()
		if a.turns.Ask(r.Home, func(ctx context.Context, _ waiting.Plan) (waiting.Plan, error) { return planner.Wait(ctx, r), nil }) {
			a.turns.Await(a.grace)
		}
		plan, ok := a.turns.Answer(r.Home)
		if !ok {
			return ok, func() document.Document { return toCome("turns, and how long each can wait") }
		}
		return r, func() document.Document {
			warmth := planner.Warmth(r)
			return turns(document.Worked{Plan: r, Wait: &plan, Warmth: &warmth, Water: planner.Heaters(r)})
		}
	})
}

func turns(w document.Worked) document.Document {
	d := document.Turns(w)
	if len(d) == 0 {
		d = document.Document{document.Paragraph{Text: w.Wait.Turns.Says()}}
	}
	return slices.Concat(d, document.Card(w), document.Waiting(w), document.Warmth(w), document.Water(w))
}
