package screens

import (
	"fmt"

	"github.com/gdamore/tcell/v2"
	"github.com/rivo/tview"

	"holdover/profiles"
	"holdover/ui/document"
	"holdover/ui/screens/draft"
)

// A picker finds a profile to add: type to filter on the left, what the profile says on the right.
type picker struct {
	*tview.Box
	app   *app
	home  *circuitsPage
	field *tview.InputField
	grid  *grid
	found []profiles.Circuit
	label string
	take  func(profiles.Circuit) // what to do with the one chosen, in place of adding it to the home
}

// newPicker adds under the circuit selected on the home page. The first row is always a blank circuit.
func newPicker(a *app, home *circuitsPage) *picker {
	p := &picker{Box: tview.NewBox(), app: a, home: home, field: newField(a.look), label: "add a circuit: "}
	p.field.SetPlaceholder("type to filter, such as pump or heat")
	p.grid = newGrid(a.look, pickerColumns, func() int { return len(p.found) + 1 }, p.row)
	p.found = profiles.Circuits()
	p.field.SetChangedFunc(func(text string) {
		p.found = matchProfiles(profiles.Circuits(), text)
		p.grid.choose(min(1, len(p.found)))
	})
	p.grid.choose(1)
	return p
}

func pickerColumns(width int) []column {
	return []column{{"group", 13, false}, {"profile", max(8, width-14), false}}
}

func (p *picker) row(i int) gridRow {
	if i == 0 {
		return gridRow{[]string{"", "blank circuit"}, p.app.look.strong}
	}
	return gridRow{texts: []string{p.found[i-1].Group, p.found[i-1].Title}}
}

func (p *picker) keys() []hint {
	return []hint{keyHint(tcell.KeyEnter, "Enter", "add it"), keyHint(tcell.KeyDown, "up/down", "choose").named("arrows"),
		keyHint(tcell.KeyEscape, "Esc", "back")}
}

// Draw implements [tview.Primitive].
func (p *picker) Draw(screen tcell.Screen) {
	p.DrawForSubclass(screen, p)
	x, y, width, height := p.GetInnerRect()
	label := p.label
	printLine(screen, p.app.look.strong.on(label), x, y, width)
	if p.HasFocus() {
		p.field.Focus(nil)
	} else {
		p.field.Blur()
	}
	count := fmt.Sprintf(" %d found", len(p.found))
	p.field.SetRect(x+len(label), y, max(1, width-len(label)-len(count)), 1)
	p.field.Draw(seenScreen{screen})
	printLine(screen, count, x+width-len(count), y, len(count))
	left := (width - 3) / 2
	p.grid.SetRect(x, y+2, left, max(0, height-2))
	p.grid.Draw(screen)
	for row, line := range p.app.look.lay(p.preview(), width-left-3, 0) {
		if row < height-2 {
			printLine(screen, line, x+left+3, y+2+row, width-left-3)
		}
	}
}

// preview says all that the profile says.
func (p *picker) preview() document.Document {
	if p.grid.at() <= 0 {
		return document.Document{document.Heading{Text: "blank circuit"}, document.Paragraph{Text: "Has a name and draws 0 W until you fill in its form."}}
	}
	profile := p.found[p.grid.at()-1]
	d := document.Document{document.Heading{Text: profile.Title}, document.Paragraph{Text: profile.Name, Tone: document.Quiet}}
	for i := 0; i+1 < len(profile.Fields.Content); i += 2 {
		d = append(d, document.Paragraph{Text: profile.Fields.Content[i].Value + " " + draft.OneLine(profile.Fields.Content[i+1])})
	}
	if profile.Note != "" {
		d = append(d, document.Heading{Text: "note", Tone: document.Strong}, document.Paragraph{Text: profile.Note})
	}
	return append(d, document.Heading{Text: "source", Tone: document.Strong}, document.Paragraph{Text: profile.Source})
}

// InputHandler implements [tview.Primitive].
func (p *picker) InputHandler() func(*tcell.EventKey, func(tview.Primitive)) {
	return p.WrapInputHandler(func(event *tcell.EventKey, setFocus func(tview.Primitive)) {
		switch event.Key() {
		case tcell.KeyEscape:
			p.app.back()
		case tcell.KeyEnter:
			p.add()
		case tcell.KeyUp, tcell.KeyDown, tcell.KeyPgUp, tcell.KeyPgDn:
			p.grid.InputHandler()(event, setFocus)
		default:
			p.field.InputHandler()(event, setFocus)
		}
	})
}

// add puts the chosen circuit in under the selected one and opens its form.
func (p *picker) add() {
	if p.take != nil {
		if i := p.grid.at(); i > 0 {
			p.take(p.found[i-1])
		}
		return
	}
	place := p.home.grid.at() + 1
	var err error
	if i := p.grid.at(); i <= 0 {
		err = p.app.draft.AddBlank(place)
	} else {
		err = p.app.draft.AddLike(p.found[i-1], place)
	}
	p.app.back()
	if err != nil {
		p.app.fail(err)
		return
	}
	p.home.grid.choose(place)
	p.home.edit()
	p.app.say("added %s", p.app.draft.Home().Circuits[place].Name)
}

// PasteHandler implements [tview.Primitive].
func (p *picker) PasteHandler() func(string, func(tview.Primitive)) { return p.field.PasteHandler() }

// MouseHandler implements [tview.Primitive].
func (p *picker) MouseHandler() func(tview.MouseAction, *tcell.EventMouse, func(tview.Primitive)) (bool, tview.Primitive) {
	return p.grid.handler(p.Box, func() { p.add() })
}
