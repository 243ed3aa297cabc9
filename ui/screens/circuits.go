package screens

import (
	"fmt"

	"github.com/gdamore/tcell/v2"
	"github.com/rivo/tview"

	"holdover/ui/document"
)

// A circuitsPage is the first screen: the circuits above, the verdict below, and on a wide terminal the selected circuit
// beside them.
type circuitsPage struct {
	*tview.Box
	app  *app
	grid *grid
	pane *reader
	finder
}

// wide is the width from which a pane stands beside the table.
const (
	wide      = 120
	paneWidth = 40
)

func newCircuitsPage(a *app) *circuitsPage {
	p := &circuitsPage{Box: tview.NewBox(), app: a}
	p.grid = newGrid(a.look, circuitColumns, func() int { return len(a.draft.Home().Circuits) }, func(i int) gridRow {
		return circuitRow(a.look, a.draft.Result(), i)
	})
	p.finder = finder{grid: p.grid, name: func(i int) string { return a.draft.Home().Circuits[i].Name }}
	p.pane = newReader(a.look, func() (any, func() document.Document) {
		at := p.grid.at()
		return [2]any{a.draft.Result(), at}, func() document.Document { return circuitPane(a.draft, at) }
	}, nil)
	p.pane.below = leastHeight * 2 // so that the picture of the day is as low as can be
	return p
}

// keys begin with those that a newcomer needs most, whatever the state: the footer shows no more than fit.
func (p *circuitsPage) keys() []hint {
	hints := []hint{letterHint(' ', "care").named("space"), letterHint('e', "edit"), letterHint('a', "add"), letterHint('o', "options"),
		letterHint('c', "cautions"), letterHint('s', "save"), letterHint('?', "keys")}
	if p.app.draft.Path() == "" { // the demo home: this is how one's own begins
		hints = append(hints, letterHint('N', "new"))
	}
	return append(hints,
		letterHint('q', "quit"), letterHint('p', "run"), letterHint('i', "outlook"), letterHint('d', "delete"), letterHint('f', "figures"),
		letterHint('h', "hours"), letterHint('t', "turns"), letterHint('g', "gear"), letterHint('w', "where and when"), letterHint('l', "limits"), letterHint('u', "undo"),
	)
}

// Draw implements [tview.Primitive].
func (p *circuitsPage) Draw(screen tcell.Screen) {
	p.DrawForSubclass(screen, p)
	x, y, width, height := p.GetInnerRect()
	left := width
	if width >= wide {
		left = width - paneWidth - 3
		p.pane.SetRect(x+left+3, y, paneWidth, max(0, height-verdictHeight))
		p.pane.Draw(screen)
	}
	p.grid.SetRect(x, y, left, max(0, height-verdictHeight))
	p.grid.Draw(screen)
	for row, line := range verdictStrip(p.app.look, p.app.draft.Result(), width) {
		if at := height - verdictHeight + row; at >= 0 {
			printLine(screen, line, x, y+at, width)
		}
	}
}

// InputHandler implements [tview.Primitive].
func (p *circuitsPage) InputHandler() func(*tcell.EventKey, func(tview.Primitive)) {
	return p.WrapInputHandler(func(event *tcell.EventKey, setFocus func(tview.Primitive)) {
		if !p.act(event) && !p.app.common(event) {
			p.grid.InputHandler()(event, setFocus)
		}
	})
}

// act does what a key means on this screen alone.
func (p *circuitsPage) act(event *tcell.EventKey) bool {
	shift := event.Modifiers()&tcell.ModShift != 0
	switch {
	case event.Key() == tcell.KeyEnter:
		p.edit()
	case event.Key() == tcell.KeyUp && shift:
		p.move(-1)
	case event.Key() == tcell.KeyDown && shift:
		p.move(1)
	case event.Key() == tcell.KeyDelete:
		p.remove()
	case event.Key() == tcell.KeyRune:
		return p.letter(event.Rune())
	default:
		return false
	}
	return true
}

func (p *circuitsPage) letter(r rune) bool {
	switch r {
	case 'e':
		p.edit()
	case 'a':
		p.app.open(newPicker(p.app, p))
	case 'd':
		p.remove()
	case ' ':
		p.did(p.app.draft.NextCare(p.grid.at()), "")
	case 'J':
		p.move(1)
	case 'K':
		p.move(-1)
	case '/':
		p.finder.ask(p.app)
	case 'n':
		p.finder.next(p.app)
	default:
		return false
	}
	return true
}

// did notes what became of a change.
func (p *circuitsPage) did(err error, done string) {
	if err != nil {
		p.app.fail(err)
	} else if done != "" {
		p.app.say("%s", done)
	}
}

func (p *circuitsPage) edit() {
	p.app.open(newCircuitForm(p.app, p.grid.at(), p.grid))
}

func (p *circuitsPage) remove() {
	name := p.app.draft.Home().Circuits[p.grid.at()].Name
	p.did(p.app.draft.Remove(p.grid.at()), fmt.Sprintf("deleted %s; u brings it back", name))
}

func (p *circuitsPage) move(by int) {
	at := p.grid.at()
	err := p.app.draft.Move(at, at+by)
	p.did(err, "")
	if err == nil {
		p.grid.choose(at + by)
	}
}

// MouseHandler implements [tview.Primitive].
func (p *circuitsPage) MouseHandler() func(tview.MouseAction, *tcell.EventMouse, func(tview.Primitive)) (bool, tview.Primitive) {
	return p.grid.handler(p.Box, func() { p.edit() })
}
