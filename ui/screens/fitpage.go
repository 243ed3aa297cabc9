package screens

import (
	"context"
	"strings"

	"github.com/gdamore/tcell/v2"

	"holdover/planner"
	"holdover/planner/sheet"
	"holdover/ui/document"
)

// gearFit is what the units of a home come to.
type gearFit struct {
	units sheet.Report
	err   error              // no unit is listed, or nothing is kept
	owned *planner.Inventory // nil where nothing is owned
}

// newFitPage lists every unit with what its spec sheet comes to, the best first, and then what the owned ones are good for. It is
// worked out once for each home, beside the loop, since it chooses anew.
func newFitPage(a *app) page {
	return newReader(a.look, func() (any, func() document.Document) {
		known, ok := a.gearFit()
		if !ok {
			return ok, func() document.Document { return toCome("whether units will do") }
		}
		r := a.draft.Result()
		return r, func() document.Document { return fitDocument(r, known) }
	}, func(event *tcell.EventKey) bool {
		switch event.Rune() {
		case 'a':
			a.addUnit()
		case 'e':
			if len(a.draft.Home().Gear) == 0 {
				a.addUnit()
			} else {
				a.open(newUnitPage(a, 0))
			}
		default:
			return a.common(event)
		}
		return true
	}, letterHint('a', "add a unit"), letterHint('e', "edit the units"), keyHint(tcell.KeyEscape, "Esc", "back"), keyHint(tcell.KeyDown, "arrows", "scroll"), letterHint('?', "all keys"))
}

// gearFit is what the units come to, once that and the verdict are there.
func (a *app) gearFit() (known gearFit, ok bool) {
	r := a.draft.Result()
	if !r.Has.Choice {
		return known, false
	}
	if a.gear.Ask(r.Home, func(ctx context.Context, _ gearFit) (gearFit, error) {
		units, err := planner.Fit(r)
		known := gearFit{units: units, err: err}
		if owned, ok := planner.Owned(ctx, r); ok {
			known.owned = &owned
		}
		return known, nil
	}) {
		a.gear.Await(a.grace)
	}
	return a.gear.Answer(r.Home)
}

func (a *app) addUnit() {
	at, err := a.draft.AddUnit()
	if err != nil {
		a.fail(err)
		return
	}
	a.open(newUnitPage(a, at))
}

func fitDocument(r *planner.Result, known gearFit) document.Document {
	if known.err != nil {
		return document.Document{document.Paragraph{Text: sentenceOf(known.err.Error()) + " Press a to add a unit from its spec sheet."}}
	}
	return append(document.Fit(r.Home, known.units), document.Owned(document.Worked{Plan: r, Owned: known.owned})...)
}

func sentenceOf(text string) string { return strings.ToUpper(text[:1]) + text[1:] + "." }
