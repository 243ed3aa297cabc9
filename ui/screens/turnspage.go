package screens

import (
	"context"
	"fmt"
	"strings"

	"github.com/gdamore/tcell/v2"

	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/planner"
	"holdover/planner/waiting"
	"holdover/ui/report"
)

// newTurnsPage shows the timetable of the circuits that take turns, and how long everything can wait. It is worked out once for
// each home, beside the loop, since the search can take a moment.
func newTurnsPage(a *app) page {
	return newReader(func(width int) []string {
		r := a.draft.Result()
		if a.turns.Ask(r.Home, func(ctx context.Context, _ waiting.Plan) (waiting.Plan, error) { return planner.Wait(ctx, r), nil }) {
			a.turns.Await(a.grace)
		}
		plan, ok := a.turns.Answer(r.Home)
		if !ok {
			return []string{a.look.isToCome("turns, and how long each can wait")}
		}
		return turnLines(a.look, r, plan, width)
	}, a.common, keyHint(tcell.KeyEscape, "Esc", "back"), keyHint(tcell.KeyDown, "arrows", "scroll"), letterHint('?', "all keys"))
}

func turnLines(l look, r *planner.Result, w waiting.Plan, width int) []string {
	lines := []string{l.heading.on("turns of the circuits set to rotate")}
	lines = append(lines, wrap(w.Turns.Says(), width, "")...)
	for _, text := range report.WithoutTurns(w.Turns) {
		lines = append(lines, wrap(text, width, "")...)
	}
	if len(w.Turns.Turns) > 0 {
		lines = append(lines, "")
		for _, row := range report.Chart(w.Turns, width) {
			lines = append(lines, shown(row))
		}
		lines = append(lines, "", l.heading.on("card for the panel"))
		for _, row := range report.Card(w.Turns) {
			lines = append(lines, shown(row[0])+"  "+shown(row[1]))
		}
		if more := report.CardEnds(w.Turns); more != "" {
			lines = append(lines, wrap(more, width, "")...)
		}
	}
	lines = append(lines, "", l.heading.on("how long each can be without supply"))
	for _, limit := range w.Limits {
		if limit.Care != home.Shed {
			lines = append(lines, l.glyphs.fit(limit.Circuit, 30)+" "+l.glyphs.right(report.WaitText(limit, " h"), 8)+"  "+l.quiet.on(l.glyphs.fit(limit.Why, width-41)))
		}
	}
	return append(append(lines, ""), warmLines(l, r, w, width)...)
}

// warmLines say how the house cools and what its water heaters need.
func warmLines(l look, r *planner.Result, w waiting.Plan, width int) []string {
	lines := []string{l.heading.on("the house without heat, and hot water")}
	for _, level := range w.Levels {
		text := report.Degrees(r.Home, level.At) + ": never in this weather"
		if level.Falls {
			text = fmt.Sprintf("%s after %s h: %s", report.Degrees(r.Home, level.At), units.Format(float64(level.After)), level.Means)
		}
		lines = append(lines, wrap(text, width, "")...)
	}
	if len(w.Missing) > 0 {
		lines = append(lines, wrap("how fast it cools can be said with "+strings.Join(w.Missing, " and "), width, "")...)
	}
	for _, n := range planner.Heaters(r) {
		lines = append(lines, "", l.strong.on(shown(n.Circuit)))
		lines = append(lines, wrap(strings.Join(n.Says, " "), width, "  ")...)
	}
	return lines
}
