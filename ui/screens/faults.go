package screens

import (
	"fmt"

	"github.com/gdamore/tcell/v2"

	"holdover/loads/home"
	"holdover/ui/document"
)

// newFaultsPage stands in for all other screens while the home file cannot be read. The file is never written from here.
func newFaultsPage(a *app, faults home.Faults) page {
	return newReader(a.look, fixed(faultDocument(a.path, faults)),
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

// faultDocument lists every fault with its line.
func faultDocument(path string, faults home.Faults) document.Document {
	d := document.Document{
		document.Heading{Text: fmt.Sprintf("! %s cannot be read as a home file", path), Tone: document.Bad},
		document.Paragraph{Text: "Nothing was changed. Mend what follows in an editor, then press r to read it again."},
	}
	for _, f := range faults {
		head := "the file"
		if f.Line > 0 {
			head = fmt.Sprintf("line %d", f.Line)
		}
		if f.Field != "" {
			head += "  " + f.Field
		}
		d = append(d, document.Heading{Text: head, Tone: document.Strong}, document.Note(f.Message))
	}
	return d
}
