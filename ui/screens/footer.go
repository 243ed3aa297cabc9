package screens

import (
	"github.com/gdamore/tcell/v2"
	"github.com/rivo/tview"

	"holdover/ui/text"
)

// A hint is one key of the footer. A click on it is the same as the key.
type hint struct {
	event *tcell.EventKey
	show  string // how the key is called
	label string
}

func letterHint(letter rune, label string) hint {
	return hint{tcell.NewEventKey(tcell.KeyRune, letter, tcell.ModNone), string(letter), label}
}

func keyHint(key tcell.Key, show, label string) hint {
	return hint{tcell.NewEventKey(key, 0, tcell.ModNone), show, label}
}

// A footer is the last line: the keys that matter now.
type footer struct {
	*tview.Box
	app  *app
	ends []int // where each hint ends on the line, for clicks
}

func newFooter(a *app) *footer { return &footer{Box: tview.NewBox(), app: a} }

// Draw implements [tview.Primitive]. Hints that do not fit are left out: help has them all.
func (f *footer) Draw(screen tcell.Screen) {
	f.DrawForSubclass(screen, f)
	x, y, width, _ := f.GetInnerRect()
	f.ends = f.ends[:0]
	at := 0
	for _, h := range f.app.top().keys() {
		size := text.Cells(h.show) + 1 + text.Cells(h.label)
		if at+size > width {
			break
		}
		printLine(screen, f.app.look.strong.on(shown(h.show))+" "+shown(h.label), x+at, y, width-at)
		at += size + 2
		f.ends = append(f.ends, x+at)
	}
}

// MouseHandler implements [tview.Primitive].
func (f *footer) MouseHandler() func(tview.MouseAction, *tcell.EventMouse, func(tview.Primitive)) (bool, tview.Primitive) {
	return f.WrapMouseHandler(func(action tview.MouseAction, event *tcell.EventMouse, setFocus func(tview.Primitive)) (bool, tview.Primitive) {
		x, y := event.Position()
		if action != tview.MouseLeftClick || !f.InRect(x, y) {
			return false, nil
		}
		for i, end := range f.ends {
			if x < end {
				f.app.press(f.app.top().keys()[i].event)
				return true, nil
			}
		}
		return true, nil
	})
}

// press does what a key does.
func (a *app) press(event *tcell.EventKey) {
	if event = a.capture(event); event != nil {
		a.root.InputHandler()(event, func(p tview.Primitive) { a.term.SetFocus(p) })
	}
}

// named gives a hint's key another name on the line.
func (h hint) named(show string) hint {
	h.show = show
	return h
}
