package screens

import (
	"github.com/gdamore/tcell/v2"

	"holdover/planner"
	"holdover/ui/report"
)

func newOutlookPage(a *app) page {
	return newReader(func(width int) []string { return outlookLines(a.look, a.draft.Result(), width) }, a.common,
		keyHint(tcell.KeyEscape, "Esc", "back"), keyHint(tcell.KeyDown, "arrows", "scroll"), letterHint('o', "options"), letterHint('p', "run"), letterHint('?', "all keys"))
}

// outlookLines says how firm the verdict stands: what would change it, what each length of outage costs, what is left to
// chance, and where nothing carries the house what would.
func outlookLines(l look, r *planner.Result, width int) []string {
	lines := []string{l.choiceMark(r).on(shown(choiceWords(r)))}
	if !r.Has.Outlook || !r.Has.Chance {
		return append(lines, "", l.isToCome("what would change it, costs by length, chances"))
	}
	for _, section := range report.Outlook(r) {
		lines = append(lines, "", l.heading.on(shown(lower(section.Heading))))
		for _, line := range section.Lines(width) {
			lines = append(lines, shown(line))
		}
	}
	return lines
}
