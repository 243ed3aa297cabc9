package screens

import (
	"slices"

	"github.com/gdamore/tcell/v2"
	"github.com/rivo/tview"

	"holdover/planner"
	"holdover/planner/derive"
	"holdover/ui/document"
)

// A figuresPage lists every figure of the plan. Enter opens the working of one; a wide terminal shows it at once.
type figuresPage struct {
	*tview.Box
	app     *app
	grid    *grid
	working *reader // of the figure that is selected
	finder
	placed bool // the figures to begin with were put in sight
}

func newFiguresPage(a *app) *figuresPage {
	p := &figuresPage{Box: tview.NewBox(), app: a}
	p.grid = newGrid(a.look, figureColumns, func() int { return len(p.figures()) }, func(i int) gridRow {
		f := p.figures()[i]
		return gridRow{texts: []string{f.ID, document.Quantity(a.draft.Home(), f), f.How}}
	})
	p.finder = finder{grid: p.grid, name: func(i int) string { return p.figures()[i].ID }}
	p.working = a.reading(p.why)
	return p
}

// place puts the first figures of the whole house in sight, once there are some: the inputs and the circuits' own come before them
// and are many.
func (p *figuresPage) place() {
	first := slices.IndexFunc(p.figures(), func(f derive.Figure) bool { return f.ID == "load.running_w" })
	if p.placed || first < 0 {
		return
	}
	p.placed = true
	p.grid.choose(first)
	p.grid.SetOffset(first, 0)
}

func (p *figuresPage) figures() []derive.Figure { return p.app.draft.Result().Sheet.All() }

// The widths of the figures' own columns; how a figure came about takes what is left.
const (
	idWidth    = 40
	valueWidth = 14
)

func figureColumns(width int) []column {
	columns := []column{{"figure", idWidth, false}, {"value", valueWidth, true}}
	if left := width - idWidth - valueWidth - 2; left >= 8 {
		columns = append(columns, column{"how", left, false})
	}
	return columns
}

func (p *figuresPage) keys() []hint {
	return []hint{keyHint(tcell.KeyEnter, "Enter", "working"), keyHint(tcell.KeyEscape, "Esc", "back"), letterHint('/', "find"), letterHint('?', "all keys")}
}

// Draw implements [tview.Primitive].
func (p *figuresPage) Draw(screen tcell.Screen) {
	p.DrawForSubclass(screen, p)
	p.place()
	x, y, width, height := p.GetInnerRect()
	if text := figuresToCome(p.app.draft.Result()); text != "" && height > 1 {
		height--
		printLine(screen, p.app.look.quiet.on(shown(toComeText(text))), x, y+height, width)
	}
	left := width
	if width >= wide {
		left = idWidth + valueWidth + 1
		p.working.offset = 0
		p.working.SetRect(x+left+3, y, width-left-3, height)
		p.working.Draw(screen)
	}
	p.grid.SetRect(x, y, left, height)
	p.grid.Draw(screen)
}

// figuresToCome says which figures are still being worked out; empty when all are there.
func figuresToCome(r *planner.Result) string {
	switch {
	case !r.Has.Choice:
		return "figures"
	case !r.Has.Outlook || !r.Has.Chance:
		return "figures of flips and chances"
	}
	return ""
}

// why is the derivation of the figure that is selected.
func (p *figuresPage) why() (any, func() document.Document) {
	at, r := p.grid.at(), p.app.draft.Result()
	if at < 0 {
		return r, func() document.Document { return nil }
	}
	id := p.figures()[at].ID
	return [2]any{r, id}, func() document.Document { return document.Why(r.Home, r.Sheet.Get, id, true) }
}

// InputHandler implements [tview.Primitive].
func (p *figuresPage) InputHandler() func(*tcell.EventKey, func(tview.Primitive)) {
	return p.WrapInputHandler(func(event *tcell.EventKey, setFocus func(tview.Primitive)) {
		switch {
		case event.Key() == tcell.KeyEnter:
			p.open()
		case event.Rune() == '/':
			p.finder.ask(p.app)
		case event.Rune() == 'n':
			p.finder.next(p.app)
		case p.app.common(event):
		default:
			p.grid.InputHandler()(event, setFocus)
		}
	})
}

func (p *figuresPage) open() {
	if p.grid.at() >= 0 {
		p.working.offset = 0
		p.app.open(p.working)
	}
}

// MouseHandler implements [tview.Primitive].
func (p *figuresPage) MouseHandler() func(tview.MouseAction, *tcell.EventMouse, func(tview.Primitive)) (bool, tview.Primitive) {
	return p.grid.handler(p.Box, func() { p.open() })
}
