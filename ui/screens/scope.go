package screens

import (
	"strings"

	"github.com/gdamore/tcell/v2"

	"holdover/planner"
	"holdover/planner/install"
	"holdover/ui/report"
)

func newScopePage(a *app) page {
	var of *planner.Result // what the scope below was worked out for
	var scope *install.Scope
	return newReader(func(width int) []string {
		r := a.draft.Result()
		if !r.Has.Choice {
			return []string{a.look.isToCome("transfer scope")}
		}
		if r != of {
			of, scope = r, planner.Scope(r)
		}
		return scopeLines(a.look, report.Scope(of, scope, width))
	}, a.common, keyHint(tcell.KeyEscape, "Esc", "back"), keyHint(tcell.KeyDown, "arrows", "scroll"), letterHint('c', "cautions"), letterHint('?', "all keys"))
}

// scopeLines shows the job sheet, its headings marked: they begin at the left edge, after an empty line.
func scopeLines(l look, text string) []string {
	lines := strings.Split(strings.TrimSuffix(text, "\n"), "\n")
	for i, line := range lines {
		isHeading := line != "" && !strings.HasPrefix(line, " ") && (i == 0 || lines[i-1] == "") && i < len(lines)-2
		lines[i] = shown(line)
		if isHeading {
			lines[i] = l.heading.on(lines[i])
		}
	}
	return lines
}
