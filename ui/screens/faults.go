package screens

import (
	"fmt"

	"github.com/gdamore/tcell/v2"

	"holdover/loads/home"
)

// newFaultsPage stands in for all other screens while the home file cannot be read. The file is never written from here.
func newFaultsPage(a *app, faults home.Faults) page {
	return newReader(func(width int) []string { return faultLines(a.look, a.path, faults, width) },
		func(event *tcell.EventKey) bool {
			if event.Rune() == 'r' {
				if a.reopen(a.path); a.draft == nil {
					a.say("read again; not yet without fault")
				}
				return true
			}
			return a.common(event)
		},
		letterHint('r', "read again"), letterHint('q', "quit"), keyHint(tcell.KeyDown, "arrows", "scroll"))
}

// faultLines lists every fault with its line.
func faultLines(l look, path string, faults home.Faults, width int) []string {
	lines := []string{l.bad.on(shown(fmt.Sprintf("! %s cannot be read as a home file", path))), ""}
	lines = append(lines, wrap("Nothing was changed. Mend what follows in an editor, then press r to read it again.", width, "")...)
	lines = append(lines, "")
	for _, f := range faults {
		head := "the file"
		if f.Line > 0 {
			head = fmt.Sprintf("line %d", f.Line)
		}
		if f.Field != "" {
			head += "  " + f.Field
		}
		lines = append(lines, l.strong.on(shown(head)))
		lines = append(lines, wrap(f.Message, width, "  ")...)
	}
	return lines
}
