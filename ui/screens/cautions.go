package screens

import (
	"github.com/gdamore/tcell/v2"

	"holdover/planner"
)

func newCautionsPage(a *app) page {
	return newReader(func(width int) []string { return cautionLines(a.look, a.draft.Result(), width) }, a.common,
		keyHint(tcell.KeyEscape, "Esc", "back"), keyHint(tcell.KeyDown, "arrows", "scroll"), letterHint('?', "all keys"))
}

// cautionLines writes the cautions, the gravest word first.
func cautionLines(l look, r *planner.Result, width int) []string {
	switch {
	case !r.Has.Choice:
		return []string{l.isToCome("cautions")}
	case len(r.Cautions) == 0:
		return []string{"No caution belongs to this home."}
	}
	var lines []string
	for _, word := range signalWords {
		for _, c := range r.Cautions {
			if c.Word != word {
				continue
			}
			lines = append(lines, l.wordMark(word).on(" "+word+" ")+" "+l.quiet.on(shown(c.ID)))
			lines = append(lines, wrap(c.Text, width, "  ")...)
			lines = append(lines, quietLines(l, wrap("source: "+c.Source, width, "  "))...)
			lines = append(lines, "")
		}
	}
	return lines
}
