package screens

import (
	"fmt"

	"github.com/gdamore/tcell/v2"
	"github.com/rivo/tview"

	"holdover/planner"
	"holdover/ui/document"
)

// A reader is a screen that shows a document and scrolls. It asks each time it draws what the document hangs on, so that it is never
// out of date, and lays it out anew only where that or its own size has changed.
type reader struct {
	*tview.Box
	look    look
	subject subject
	hints   []hint
	onKey   func(*tcell.EventKey) bool // true when it took the key
	offset  int
	height  int                           // rows seen at the last drawing, for a page's turn
	below   int                           // rows kept below a chart
	head    func() (line string, ok bool) // a tagged line above the document; nil for none
	laid    layout
}

// A subject is what a reader shows: all that the document hangs on, which can be compared, and how to say it.
type subject func() (of any, say func() document.Document)

// A layout is a document laid out.
type layout struct {
	of            any
	width, height int
	lines         []string // tagged
}

// belowChart is the room that is kept below a chart for its rows, its axis and the words.
const belowChart = 16

func newReader(l look, of subject, onKey func(*tcell.EventKey) bool, hints ...hint) *reader {
	return &reader{Box: tview.NewBox(), look: l, subject: of, onKey: onKey, hints: hints, below: belowChart}
}

// reading is a reader with the keys that every page has, and before the last of them some of its own.
func (a *app) reading(of subject, own ...hint) *reader {
	hints := append([]hint{keyHint(tcell.KeyEscape, "Esc", "back"), keyHint(tcell.KeyDown, "arrows", "scroll")}, own...)
	return newReader(a.look, of, a.common, append(hints, letterHint('?', "all keys"))...)
}

// plan is a subject that hangs on the plan of the home alone.
func (a *app) plan(say func(r *planner.Result) document.Document) subject {
	return func() (any, func() document.Document) {
		r := a.draft.Result()
		return r, func() document.Document { return say(r) }
	}
}

// fixed is a subject that never changes.
func fixed(d document.Document) subject {
	return func() (any, func() document.Document) { return nil, func() document.Document { return d } }
}

func (r *reader) keys() []hint { return r.hints }

// Draw implements [tview.Primitive].
func (r *reader) Draw(screen tcell.Screen) {
	r.DrawForSubclass(screen, r)
	x, y, width, height := r.GetInnerRect()
	r.height = height
	if r.head != nil && height > 1 {
		if line, ok := r.head(); ok {
			printLine(screen, line, x, y, width)
			y, height = y+1, height-1
		}
	}
	lines := r.lines(width)
	r.offset = max(0, min(r.offset, len(lines)-height))
	for row := 0; row < height && r.offset+row < len(lines); row++ {
		line := lines[r.offset+row]
		if left := len(lines) - r.offset - row; row == height-1 && left > 1 {
			line = fmt.Sprintf("(%d more lines below)", left)
		}
		printLine(screen, line, x, y+row, width)
	}
}

// lines is the document at a width.
func (r *reader) lines(width int) []string {
	of, say := r.subject()
	chart := max(5, r.height-r.below)
	if r.laid.lines == nil || r.laid.of != of || r.laid.width != width || r.laid.height != chart {
		r.laid = layout{of, width, chart, r.look.lay(say(), width, chart)}
	}
	return r.laid.lines
}

// InputHandler implements [tview.Primitive].
func (r *reader) InputHandler() func(*tcell.EventKey, func(tview.Primitive)) {
	return r.WrapInputHandler(func(event *tcell.EventKey, _ func(tview.Primitive)) {
		if !r.scroll(event) {
			r.onKey(event)
		}
	})
}

func (r *reader) scroll(event *tcell.EventKey) bool {
	switch event.Key() {
	case tcell.KeyUp:
		r.offset--
	case tcell.KeyDown:
		r.offset++
	case tcell.KeyPgUp:
		r.offset -= r.height - 1
	case tcell.KeyPgDn:
		r.offset += r.height - 1
	case tcell.KeyHome:
		r.offset = 0
	case tcell.KeyEnd:
		r.offset = 1 << 30
	default:
		return false
	}
	return true
}

// MouseHandler implements [tview.Primitive].
func (r *reader) MouseHandler() func(tview.MouseAction, *tcell.EventMouse, func(tview.Primitive)) (bool, tview.Primitive) {
	return r.WrapMouseHandler(func(action tview.MouseAction, event *tcell.EventMouse, _ func(tview.Primitive)) (bool, tview.Primitive) {
		if !r.InRect(event.Position()) {
			return false, nil
		}
		r.offset += wheel(action)
		return true, nil
	})
}

// wheel is how many rows a turn of the mouse wheel scrolls.
func wheel(action tview.MouseAction) int {
	switch action {
	case tview.MouseScrollUp:
		return -3
	case tview.MouseScrollDown:
		return 3
	}
	return 0
}
