package screens

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/gdamore/tcell/v2"
	"github.com/stretchr/testify/require"

	"holdover/profiles"
	"holdover/ui/screens/ahead"
)

// A rig drives the screens without their loop: keys go where the loop would send them, and the picture is drawn when it
// is asked for. There is no goroutine, so nothing here waits or flickers: what the screens work out beside their loop is done at
// once, or put off until the test says so.
type rig struct {
	t       *testing.T
	app     *app
	screen  tcell.SimulationScreen
	stopped bool
	slow    bool     // work is put off
	waiting []func() // what is put off
}

// before is the rig made last. A process has one home open at a time, so the next one begins with its end.
var before *rig

func newRig(t *testing.T, opts Options, width, height int) *rig {
	t.Helper()
	return openRig(t, &rig{t: t}, opts, width, height)
}

// newSlowRig is a rig on which nothing is worked out but when the test says so.
func newSlowRig(t *testing.T, opts Options, width, height int) *rig {
	t.Helper()
	return openRig(t, &rig{t: t, slow: true}, opts, width, height)
}

func openRig(t *testing.T, r *rig, opts Options, width, height int) *rig {
	t.Helper()
	if before != nil {
		before.app.endSession()
	}
	if os.Getenv("XDG_STATE_HOME") == "" || !strings.HasPrefix(os.Getenv("XDG_STATE_HOME"), os.TempDir()) {
		t.Setenv("XDG_STATE_HOME", t.TempDir())
	}
	a, err := start(opts)
	require.NoError(t, err)
	r.app, r.screen = a, tcell.NewSimulationScreen("UTF-8")
	before = r
	a.foresight.loop, a.grace = ahead.Loop{Begin: r.begin, Wake: func() {}}, 0
	a.stop = func() { r.stopped = true }
	require.NoError(t, r.screen.Init())
	t.Cleanup(r.screen.Fini)
	r.screen.SetSize(width, height)
	r.draw()
	return r
}

func (r *rig) begin(work func()) {
	if r.slow {
		r.waiting = append(r.waiting, work)
	} else {
		work()
	}
}

// comes does the work that has waited longest, and draws what has come of it.
func (r *rig) comes() *rig {
	r.t.Helper()
	require.NotEmpty(r.t, r.waiting, "nothing is being worked out")
	work := r.waiting[0]
	r.waiting = r.waiting[1:]
	work()
	r.draw()
	return r
}

// demoFile writes the demo home to a file of its own.
func demoFile(t *testing.T) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "alder.yaml")
	require.NoError(t, os.WriteFile(path, profiles.Demo(), 0o644))
	return path
}

// press sends keys: tcell.Key values, and strings of which each letter is a key.
func (r *rig) press(keys ...any) *rig {
	for _, key := range keys {
		switch key := key.(type) {
		case tcell.Key:
			r.send(tcell.NewEventKey(key, 0, tcell.ModNone))
		case string:
			for _, letter := range key {
				r.send(tcell.NewEventKey(tcell.KeyRune, letter, tcell.ModNone))
			}
		case *tcell.EventKey:
			r.send(key)
		default:
			r.t.Fatalf("no key: %v", key)
		}
	}
	return r
}

func (r *rig) send(event *tcell.EventKey) {
	r.app.press(event)
	r.draw()
}

// draw does what the loop does after each event.
func (r *rig) draw() {
	r.screen.Clear()
	width, height := r.screen.Size()
	r.app.root.SetRect(0, 0, width, height)
	if !r.app.beforeDraw(r.screen) {
		r.app.root.Draw(r.screen)
	}
	r.screen.Show()
}

// text is the screen's letters, a line a row, without trailing blanks.
func (r *rig) text() string { return r.grid(func(c tcell.SimCell) rune { return cellRune(c) }) }

// styles is the screen's attributes, one letter a cell: r reverse, u underline, b bold, d dim, c coloured, several in
// this order of weight.
func (r *rig) styles() string {
	return r.grid(func(c tcell.SimCell) rune {
		fg, bg, attr := c.Style.Decompose()
		switch {
		case attr&tcell.AttrReverse != 0:
			return 'r'
		case attr&tcell.AttrUnderline != 0:
			return 'u'
		case attr&tcell.AttrBold != 0:
			return 'b'
		case attr&tcell.AttrDim != 0:
			return 'd'
		case fg != tcell.ColorDefault || bg != tcell.ColorDefault:
			return 'c'
		}
		return ' '
	})
}

// picture is all that is on the screen, letters first.
func (r *rig) picture() string { return r.text() + "-- styles\n" + r.styles() }

func cellRune(c tcell.SimCell) rune {
	if len(c.Runes) == 0 {
		return ' '
	}
	return c.Runes[0]
}

func (r *rig) grid(letter func(tcell.SimCell) rune) string {
	cells, width, height := r.screen.GetContents()
	var lines []string
	for y := range height {
		row := make([]rune, width)
		for x := range width {
			row[x] = letter(cells[y*width+x])
		}
		lines = append(lines, strings.TrimRight(string(row), " "))
	}
	return strings.Join(lines, "\n") + "\n"
}

// has says that the screen shows a text.
func (r *rig) has(text string) *rig {
	r.t.Helper()
	require.Contains(r.t, r.text(), text)
	return r
}

// hasNot says that it does not.
func (r *rig) hasNot(text string) *rig {
	r.t.Helper()
	require.NotContains(r.t, r.text(), text)
	return r
}

func (r *rig) file() string {
	r.t.Helper()
	text, err := os.ReadFile(r.app.draft.Path())
	require.NoError(r.t, err)
	return string(text)
}
