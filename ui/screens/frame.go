package screens

import (
	"errors"
	"fmt"
	"path/filepath"

	"github.com/gdamore/tcell/v2"
	"github.com/rivo/tview"

	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/ui/document"
	"holdover/ui/text"
)

// The smallest terminal on which every screen is whole.
const (
	leastWidth  = 80
	leastHeight = 24
)

// A bar is one line that is made anew each time it is drawn.
type bar struct {
	*tview.Box
	line func(width int) string
}

func newBar(line func(width int) string) *bar { return &bar{Box: tview.NewBox(), line: line} }

// Draw implements [tview.Primitive].
func (b *bar) Draw(screen tcell.Screen) {
	b.DrawForSubclass(screen, b)
	x, y, width, _ := b.GetInnerRect()
	printLine(screen, b.line(width), x, y, width)
}

// notSaved follows the name of a file that is begun here and not on the disk yet.
const notSaved = ", not saved yet"

// head is the first line: whose home, which file, saved or not, and the outage.
func (a *app) head(width int) string {
	g := a.look.glyphs
	if a.draft == nil {
		file := a.path
		if _, begins := a.stack[0].(*question); begins {
			file = filepath.Base(file) + notSaved
		}
		return a.look.heading.on(g.fit(file, width))
	}
	house := a.draft.Home()
	right := fmt.Sprintf("%s from %s, %s", units.Quantity(float64(house.Outage.Length), "h"), house.Outage.Start, house.Outage.Season)
	name := house.House.Name
	if name == "" {
		name = "Home"
	}
	file := a.draft.Name() + ", no file yet"
	path := a.draft.Path()
	if path != "" {
		file = filepath.Base(path)
	}
	switch {
	case path != "" && !a.draft.HasFile():
		file += notSaved
	case a.draft.Unsaved():
		file += g.dots + "unsaved *"
	}
	room := max(0, width-text.Cells(right)-2)
	name = g.Cut(name, room)
	file = g.fit(g.dots+file, room-text.Cells(name))
	return a.look.heading.on(tview.Escape(name)) + file + "  " + a.look.quiet.on(shown(right))
}

// noteLine is the line above the keys: what just happened, or what keeps going wrong.
func (a *app) noteLine(width int) string {
	g := a.look.glyphs
	switch {
	case a.note != "" && a.wrong:
		return a.look.bad.on(g.fit("! "+a.note, width))
	case a.note != "":
		return g.fit(a.note, width)
	case a.draft != nil && a.draft.RecoveryError() != nil:
		return a.look.bad.on(g.fit("! unsaved edits cannot be kept safe: "+a.draft.RecoveryError().Error(), width))
	}
	return ""
}

// drawSmall takes the place of all screens when the terminal is too small for them.
func (a *app) drawSmall(screen tcell.Screen) bool {
	a.screen.Store(&screen)
	width, height := screen.Size()
	a.small = width < leastWidth || height < leastHeight
	if !a.small {
		return false
	}
	keys := "s save, q quit"
	if a.typing() {
		keys = "Ctrl-S save, Ctrl-C quit"
	}
	says := fmt.Sprintf("%dx%d needed, %dx%d here; %s", leastWidth, leastHeight, width, height, keys)
	if over, ok := a.top().(overlay); ok {
		says = over.small()
	} else if a.note != "" {
		says = a.note
	}
	for y, line := range a.look.say(document.Plain, says, width) {
		printLine(screen, line, 0, y, width)
	}
	return true
}

// plainFault says an error in one line: of many faults the first, without the file's name.
func plainFault(err error) string {
	var faults home.Faults
	if !errors.As(err, &faults) || len(faults) == 0 {
		return err.Error()
	}
	first := faults[0]
	if first.Field == "" {
		return first.Message
	}
	return first.Field + ": " + first.Message
}
