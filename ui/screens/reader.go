package screens

import (
	"fmt"

	"github.com/gdamore/tcell/v2"
	"github.com/rivo/tview"
)

// A reader is a screen of text that scrolls. It asks for its lines each time it draws, so it is never out of date.
type reader struct {
	*tview.Box
	lines  func(width int) []string // tagged
	hints  []hint
	onKey  func(*tcell.EventKey) bool // true when it took the key
	offset int
	height int // rows seen at the last drawing, for a page's turn
}

func newReader(lines func(width int) []string, onKey func(*tcell.EventKey) bool, hints ...hint) *reader {
	return &reader{Box: tview.NewBox(), lines: lines, onKey: onKey, hints: hints}
}

func (r *reader) keys() []hint { return r.hints }

// Draw implements [tview.Primitive].
func (r *reader) Draw(screen tcell.Screen) {
	r.DrawForSubclass(screen, r)
	x, y, width, height := r.GetInnerRect()
	r.height = height
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
