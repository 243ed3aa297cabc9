package screens

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/gdamore/tcell/v2"
	"github.com/rivo/tview"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"holdover/loads/home"
	"holdover/profiles"
)

// someKeys are pressed at random. S is left out: it would write files of any name.
var someKeys = []tcell.Key{
	tcell.KeyEnter, tcell.KeyEscape, tcell.KeyTab, tcell.KeyBacktab, tcell.KeyUp, tcell.KeyDown, tcell.KeyLeft, tcell.KeyRight,
	tcell.KeyPgUp, tcell.KeyPgDn, tcell.KeyHome, tcell.KeyEnd, tcell.KeyBackspace2, tcell.KeyDelete, tcell.KeyCtrlU, tcell.KeyCtrlK,
	tcell.KeyCtrlN, tcell.KeyCtrlP, tcell.KeyCtrlC, tcell.KeyCtrlS, tcell.KeyF1,
}

const someLetters = "aedjkJKusrofhclwmqxbtnpigT?/ 0123456789.{}[]:,-#\"'é☃"

// Whatever is pressed, clicked or resized, and whenever what is worked out comes, nothing panics, and the draft stays a home file without fault that differs from
// nothing but by what was typed.
func TestRandomKeys_NeverPanic(t *testing.T) {
	t.Setenv("XDG_STATE_HOME", t.TempDir())
	rapid.Check(t, func(rt *rapid.T) {
		path := filepath.Join(t.TempDir(), "house.yaml")
		require.NoError(t, os.WriteFile(path, profiles.Demo(), 0o644))
		size := func(most int, name string) int { return rapid.IntRange(1, most).Draw(rt, name) }
		r := openRig(t, &rig{t: t, slow: rapid.Bool().Draw(rt, "slow")}, Options{Path: path}, size(130, "width"), size(45, "height"))
		for range rapid.IntRange(1, 40).Draw(rt, "steps") {
			if len(r.waiting) > 0 && rapid.Bool().Draw(rt, "comes") {
				r.comes()
			}
			switch rapid.IntRange(0, 9).Draw(rt, "kind") {
			case 0:
				r.screen.SetSize(size(130, "width"), size(45, "height"))
				r.draw()
			case 1:
				click(r, rapid.IntRange(-1, 130).Draw(rt, "x"), rapid.IntRange(-1, 45).Draw(rt, "y"), rapid.IntRange(0, 13).Draw(rt, "action"))
			case 2, 3, 4:
				r.press(rapid.SampledFrom(someKeys).Draw(rt, "key"))
			default:
				r.press(string(rapid.SampledFrom([]rune(someLetters)).Draw(rt, "letter")))
			}
		}
		_, err := home.Read(r.app.draft.Text(), path)
		require.NoError(t, err)
	})
}

func click(r *rig, x, y, action int) {
	event := tcell.NewEventMouse(x, y, tcell.Button1, tcell.ModNone)
	r.app.root.MouseHandler()(tview.MouseAction(action), event, func(p tview.Primitive) { r.app.term.SetFocus(p) })
	r.draw()
}

func TestEverySize_FromOneCellUp(t *testing.T) {
	r := newRig(t, Options{Path: demoFile(t)}, 80, 24)
	for _, keys := range []string{"", "e", "a", "o", "p", "i", "f", "h", "c", "l", "?", " q"} {
		r.screen.SetSize(80, 24)
		r.draw()
		r.press(tcell.KeyEscape, tcell.KeyEscape, keys)
		for width := 1; width <= 140; width += 23 {
			for height := 1; height <= 50; height += 11 {
				r.screen.SetSize(width, height)
				r.draw()
			}
		}
	}
}
