package screens

import (
	"fmt"

	"github.com/gdamore/tcell/v2"
	"github.com/rivo/tview"

	"holdover/ui/document"
	"holdover/ui/screens/draft"
	"holdover/ui/screens/session"
)

// A mergePage sets unsaved edits of an earlier run beside a home that has changed since: each difference is taken only if it
// is ticked.
type mergePage struct {
	*tview.Box
	app         *app
	left        session.Left
	differences []draft.Difference
	ticked      []bool
	grid        *grid
}

func newMergePage(a *app, left session.Left, differences []draft.Difference) *mergePage {
	p := &mergePage{Box: tview.NewBox(), app: a, left: left, differences: differences, ticked: make([]bool, len(differences))}
	p.grid = newGrid(a.look, p.columns, func() int { return len(p.differences) }, p.row)
	return p
}

// here is what the left column is called: the file, or what has become of it in the draft already.
func (p *mergePage) here() string {
	if p.app.draft.HasFile() && !p.app.draft.Unsaved() {
		return "file"
	}
	return "here"
}

func (p *mergePage) columns(width int) []column {
	const tick, gaps = 3, 3
	value := max(8, (width-tick-gaps)/4)
	return []column{{"", tick, false}, {"difference", max(8, width-tick-gaps-2*value), false}, {p.here(), value, false}, {"unsaved", value, false}}
}

func (p *mergePage) row(i int) gridRow {
	d := p.differences[i]
	row := gridRow{texts: []string{"[ ]", differenceName(d), absent(d.Here), absent(d.There)}}
	if p.ticked[i] {
		row.texts[0], row.mark = "[x]", p.app.look.strong
	}
	return row
}

// differenceName is the field, and whose it is.
func differenceName(d draft.Difference) string {
	if d.Of == "" {
		return d.Field
	}
	return d.Field + ", " + d.Of
}

func absent(value string) string {
	if value == "" {
		return "not there"
	}
	return value
}

func (p *mergePage) keys() []hint {
	return []hint{letterHint(' ', "tick").named("space"), keyHint(tcell.KeyEnter, "Enter", "merge ticked"), letterHint('t', "take all"),
		letterHint('k', "keep aside"), letterHint('x', "discard"), keyHint(tcell.KeyEscape, "Esc", "later")}
}

// intro says what the page is about, in plain text.
func (p *mergePage) intro() string {
	what := fmt.Sprintf("%s was changed after unsaved edits of an earlier run were begun.", p.app.draft.Name())
	if p.app.draft.IsBase(p.left) {
		what = "These are more unsaved edits of an earlier run, older than those here."
	}
	if len(p.differences) == 0 {
		return what + " They differ in comments, blank lines or the order of keys only."
	}
	return what + " Tick what to take from them; the rest stays as it is here."
}

// Draw implements [tview.Primitive]. The values of the chosen row stand in full below the table.
func (p *mergePage) Draw(screen tcell.Screen) {
	p.DrawForSubclass(screen, p)
	x, y, width, height := p.GetInnerRect()
	head := p.app.look.say(document.Plain, p.intro(), width)
	foot := p.full(width)
	for row, line := range head {
		printLine(screen, line, x, y+row, width)
	}
	p.grid.SetRect(x, y+len(head)+1, width, max(0, height-len(head)-len(foot)-2))
	p.grid.Draw(screen)
	for row, line := range foot {
		printLine(screen, line, x, y+height-len(foot)+row, width)
	}
}

// fullLines bounds one value in full, in lines.
const fullLines = 3

func (p *mergePage) full(width int) []string {
	at := p.grid.at()
	if at < 0 {
		return nil
	}
	d := p.differences[at]
	var lines []string
	for _, text := range []string{p.here() + ": " + absent(d.Here), "unsaved: " + absent(d.There)} {
		wrapped := p.app.look.say(document.Quiet, text, width)
		lines = append(lines, wrapped[:min(fullLines, len(wrapped))]...)
	}
	return lines
}

// InputHandler implements [tview.Primitive]. The keys of other screens do not count here: something is to be decided first.
func (p *mergePage) InputHandler() func(*tcell.EventKey, func(tview.Primitive)) {
	return p.WrapInputHandler(func(event *tcell.EventKey, setFocus func(tview.Primitive)) {
		switch {
		case event.Key() == tcell.KeyEnter:
			p.merge()
		case event.Key() == tcell.KeyEscape:
			p.app.back()
			p.app.say("offered again at the next start; until then the edits stay in %s", p.left.Path)
			p.app.offer()
		case event.Key() != tcell.KeyRune || !p.letter(event.Rune()):
			p.grid.InputHandler()(event, setFocus)
		}
	})
}

func (p *mergePage) letter(r rune) bool {
	switch r {
	case ' ':
		p.tick()
	case 't':
		p.app.back()
		p.app.recover(p.left)
	case 'k':
		p.app.back()
		p.app.setAside(p.left)
	case 'x':
		p.app.ask("Discard the earlier edits for good?",
			choice{'x', "discard them", func() { p.app.back(); p.app.discard(p.left) }},
			choice{'b', "back", nil})
	case 'q':
		p.app.quit()
	default:
		return false
	}
	return true
}

func (p *mergePage) tick() {
	if at := p.grid.at(); at >= 0 {
		p.ticked[at] = !p.ticked[at]
	}
}

// merge takes what is ticked. What is left unticked is put aside rather than lost.
func (p *mergePage) merge() {
	var taken []draft.Difference
	for i, d := range p.differences {
		if p.ticked[i] {
			taken = append(taken, d)
		}
	}
	if len(taken) == 0 {
		p.app.say("nothing is ticked; space ticks a row, t takes all of it, Esc decides later")
		return
	}
	if err := p.app.draft.Merge(p.left.Text, taken); err != nil {
		p.app.fail(err)
		return
	}
	p.app.back()
	where, err := p.left.SetAside()
	if err != nil {
		p.app.fail(err)
	} else {
		p.app.say("merged %d of %d; u undoes it; the earlier edits are kept in %s", len(taken), len(p.differences), where)
	}
	p.app.offer()
}

// MouseHandler implements [tview.Primitive].
func (p *mergePage) MouseHandler() func(tview.MouseAction, *tcell.EventMouse, func(tview.Primitive)) (bool, tview.Primitive) {
	return p.grid.handler(p.Box, p.tick)
}
