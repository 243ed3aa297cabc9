package screens

import (
	"context"
	"strings"

	"github.com/gdamore/tcell/v2"

	"holdover/loads/units"
	"holdover/planner"
	"holdover/planner/sheet"
	"holdover/profiles"
	"holdover/ui/report"
)

// gearFit is what the units of a home come to.
type gearFit struct {
	units sheet.Report
	err   error    // no unit is listed, or nothing is kept
	owned []string // what those in the house are good for
}

// newFitPage lists every unit with what its spec sheet comes to, the best first, and then what the owned ones are good for. It is
// worked out once for each home, beside the loop, since it chooses anew.
func newFitPage(a *app) page {
	return newReader(func(width int) []string {
		known, ok := a.gearFit()
		if !ok {
			return []string{a.look.isToCome("whether units will do")}
		}
		return append(fitLines(a.look, known, width), ownedLines(a.look, known.owned, width)...)
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
		return gearFit{units, err, report.Owned(ctx, r)}, nil
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

func fitLines(l look, known gearFit, width int) []string {
	result := known.units
	if known.err != nil {
		return wrap(sentenceOf(known.err.Error())+" Press a to add a unit from its spec sheet.", width, "")
	}
	lines := []string{l.heading.on(shown("units for " + strings.Join(result.Circuits, ", "))), ""}
	for _, u := range result.Units {
		lines = append(lines, verdictMark(l, u.Verdict).on(l.glyphs.fit(unitHead(u), width)))
		lines = append(append(lines, checkLines(l, u.Checks, width)...), "")
	}
	for _, p := range result.Pairs {
		lines = append(lines, verdictMark(l, p.Verdict).on(l.glyphs.fit(p.UPS+" behind "+p.Generator+": "+strings.ToUpper(string(p.Verdict)), width)))
		lines = append(append(lines, checkLines(l, p.Checks, width)...), "")
	}
	return lines
}

// ownedLines say what the units in the house are good for.
func ownedLines(l look, says []string, width int) (lines []string) {
	for i, text := range says {
		if i == 0 {
			lines = append(lines, l.heading.on("what is owned already"))
		}
		lines = append(lines, bulleted(text, width)...)
	}
	return lines
}

func sentenceOf(text string) string { return strings.ToUpper(text[:1]) + text[1:] + "." }

func verdictMark(l look, v sheet.Verdict) mark {
	switch v {
	case sheet.Fits:
		return l.good
	case sheet.FitsIf:
		return l.warn
	}
	return l.bad
}

// unitHead is a unit with its verdict in one line.
func unitHead(u sheet.Unit) string {
	text := strings.ToUpper(string(u.Verdict)) + ": " + u.Gear.Name
	if u.Priced && !u.Gear.Owned {
		text += ", " + units.Format(u.Price) + " " + profiles.PriceBands().Currency + " in all"
	}
	if u.Stored {
		text += ", lasts " + units.Format(float64(u.Runtime)) + " h"
	}
	return text
}

// checkWords come before a check; the words differ, so that no colour is needed to tell them apart.
var checkWords = []struct {
	outcome sheet.Outcome
	word    string
}{{sheet.Fails, "no "}, {sheet.HoldsIf, "if "}, {sheet.NotOnSheet, "ask"}, {sheet.Holds, "ok "}}

// checkLines writes checks, what fails first.
func checkLines(l look, checks []sheet.Finding, width int) (lines []string) {
	for _, w := range checkWords {
		for _, c := range checks {
			if c.Outcome != w.outcome {
				continue
			}
			m := map[sheet.Outcome]mark{sheet.Fails: l.bad, sheet.HoldsIf: l.warn, sheet.NotOnSheet: l.warn, sheet.Holds: l.good}[c.Outcome]
			text := wrap(c.Says, width, "      ")
			text[0] = "  " + m.on(w.word) + " " + text[0][6:]
			lines = append(lines, text...)
		}
	}
	return lines
}
