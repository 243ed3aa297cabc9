package screens

import (
	"strings"
	"testing"

	"github.com/gdamore/tcell/v2"
	"github.com/rivo/tview"
	"github.com/stretchr/testify/require"
)

// find gives the place of a text on the screen.
func (r *rig) place(text string) (x, y int) {
	r.t.Helper()
	for y, line := range strings.Split(r.text(), "\n") {
		if at := strings.Index(line, text); at >= 0 {
			return len([]rune(line[:at])), y
		}
	}
	r.t.Fatalf("not on the screen: %s", text)
	return 0, 0
}

func (r *rig) click(text string) *rig {
	r.t.Helper()
	x, y := r.place(text)
	for _, action := range []tview.MouseAction{tview.MouseLeftDown, tview.MouseLeftUp, tview.MouseLeftClick} {
		click(r, x, y, int(action))
	}
	return r
}

func TestMouse_SelectsRowsFieldsAndFooterKeys(t *testing.T) {
	r := newRig(t, Options{Path: demoFile(t), Mouse: true}, 80, 24)
	r.click("Home office").click("e edit").has("circuit 9 of")
	r.click("running amps").press("1 A").click("breaker").press("20 A").click("Esc done").has("care   name")
	require.EqualValues(t, 1, r.app.draft.Home().Circuits[8].RunningAmps)
	require.EqualValues(t, 20, r.app.draft.Home().Circuits[8].Breaker)
}

func TestMouse_WheelAndDoubleClick(t *testing.T) {
	r := newRig(t, Options{Path: demoFile(t), Mouse: true}, 80, 24)
	x, y := r.place("Kitchen refrigerator")
	for range 5 {
		click(r, x, y, int(tview.MouseScrollDown))
	}
	r.hasNot("Gas furnace").has("Television")
	for range 5 {
		click(r, x, y, int(tview.MouseScrollUp))
	}
	x, y = r.place("Kitchen refrigerator")
	click(r, x, y, int(tview.MouseLeftClick))
	click(r, x, y, int(tview.MouseLeftDoubleClick))
	r.has("circuit 3 of")
}

func TestMouse_AnswersAQuestion(t *testing.T) {
	r := newRig(t, Options{Path: demoFile(t), Mouse: true}, 80, 24)
	r.press(" q").click("There are unsaved").has("There are unsaved").click("b  back").hasNot("There are unsaved")
	require.False(t, r.stopped)
}

func TestMouse_TheKeyTogglesIt(t *testing.T) {
	r := newRig(t, Options{Path: demoFile(t)}, 80, 24)
	r.press("m").has("mouse on")
	require.True(t, r.app.mouse)
	r.press("m").has("the terminal selects text")
	require.False(t, r.app.mouse)
}

func TestPaste_GoesIntoTheField(t *testing.T) {
	r := newRig(t, Options{Path: demoFile(t)}, 80, 24)
	r.press("e", tcell.KeyCtrlU)
	r.app.root.PasteHandler()("Pasted\nname", nil)
	r.draw()
	r.press(tcell.KeyEscape)
	require.Equal(t, "Pasted name", r.app.draft.Home().Circuits[0].Name)
	r.has("Pasted name")
}
