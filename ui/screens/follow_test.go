package screens

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/gdamore/tcell/v2"
	"github.com/stretchr/testify/require"
)

// What each screen shows of an edited home before there is a verdict, before there is an outlook, and when all is there: the
// same as where nothing waits.
func TestGolden_WhatIsBeingWorkedOut(t *testing.T) {
	for _, c := range []struct {
		name string
		key  string
		size [2]int
	}{{"circuits", "", [2]int{80, 24}}, {"outlook", "i", [2]int{80, 24}}, {"figures", "f", [2]int{120, 40}}} {
		t.Run(c.name, func(t *testing.T) {
			t.Setenv("XDG_STATE_HOME", t.TempDir())
			r := newSlowRig(t, Options{}, c.size[0], c.size[1]).comes().comes().press(" ", c.key)
			compare(t, c.name+"-before-the-verdict", r.picture())
			compare(t, c.name+"-before-the-outlook", r.comes().picture())
			r.comes()
			r.app.draft.Discard() // so that the other rig finds nothing of this one
			require.Equal(t, newRig(t, Options{}, c.size[0], c.size[1]).press(" ", c.key).picture(), r.picture())
		})
	}
}

// No screen shows anything of a verdict that is not there, and each shows it when it comes.
func TestScreens_SayWhatIsBeingWorkedOut(t *testing.T) {
	for key, want := range map[string]struct{ before, verdict, all string }{
		"":  {"WORKING OUT", "carry this home", "carry this home"},
		"w": {"WORKING OUT", "carry this home", "carry this home"},
		"o": {"options side by side, and why: being worked out", "Open to choose", "Open to choose"},
		"p": {"picture of the run: being worked out", "from 18:00", "from 18:00"},
		"i": {"costs by length, chances: being worked out", "costs by length, chances: being worked out", "What each length of outage costs"},
		"f": {"figures: being worked out", "figures of flips and chances: being worked out", "load.running_w"},
		"c": {"cautions: being worked out", "DANGER", "DANGER"},
		"T": {"transfer scope: being worked out", "job sheet", "job sheet"},
		"g": {"whether units will do: being worked out", "", "DOES NOT FIT"},
		"t": {"turns, and how long each can wait: being worked out", "", "Card for the panel"},
		"h": {"Mean draw", "Mean draw", "Mean draw"},
	} {
		r := newSlowRig(t, Options{Path: demoFile(t)}, 80, 24).press(key).has(want.before)
		if key != "" && key != "w" {
			r.hasNot("carry this home").hasNot("DANGER").hasNot("USD")
		}
		r.comes().has(want.verdict)
		for len(r.waiting) > 0 {
			r.comes()
		}
		r.has(want.all).hasNot("being worked out")
	}
}

// The circuits show an edit before its verdict is there, and the file is kept safe and saved without it.
func TestFollow_AnEditWaitsForNoPlan(t *testing.T) {
	path := filepath.Join(t.TempDir(), "small.yaml")
	require.NoError(t, os.WriteFile(path, []byte("holdover: 1\ncircuits:\n  - {name: Lamp, running: 100 W, care: keep}\n  - {name: Kiln, running: 9 kW, volts: 240 V, care: shed}\n"), 0o644))
	r := newSlowRig(t, Options{Path: path}, 80, 24).has("running 100 W").has("WORKING OUT")
	r.press("j ").has("keep   Kiln").has("running 9,100 W").has("WORKING OUT")
	require.FileExists(t, r.app.draft.Recovery())
	r.press("s").has("saved in")
	require.Contains(t, r.file(), "volts: 240 V, care: keep")
	r.press("q")
	require.True(t, r.stopped)
}

// A verdict of the home before an edit is not shown after it, even where its work ends only then.
func TestFollow_WhatComesTooLateIsNotShown(t *testing.T) {
	r := newSlowRig(t, Options{Path: demoFile(t)}, 80, 24).press(" ")
	require.Len(t, r.waiting, 2, "of the home as it was, and as it is")
	r.comes().has("rotate Gas furnace").has("WORKING OUT")
	r.comes().hasNot("WORKING OUT").has("together carry")
	require.Same(t, r.app.draft.Home(), r.app.draft.Result().Home)

	r.press("u").has("keep   Gas furnace").has("WORKING OUT")
	r.comes().has("WORKING OUT") // the outlook of the edit that is undone
	r.comes().hasNot("WORKING OUT")
}

// An edit ends the turns and the units under way too, also where nobody looks at their page any more.
func TestFollow_AnEditEndsWhatOtherPagesAskedFor(t *testing.T) {
	r := newSlowRig(t, Options{Path: demoFile(t)}, 80, 24).comes().press("t", tcell.KeyEscape, "g", tcell.KeyEscape)
	old := r.app.draft.Home()
	r.press(" ")
	for len(r.waiting) > 0 {
		r.comes()
	}
	_, turns := r.app.turns.Answer(old)
	_, gear := r.app.foresight.gear.Answer(old)
	require.False(t, turns || gear)
}

// The row that is pointed at stays so while figures are away.
func TestFigures_TheRowStaysWhileTheyAreWorkedOut(t *testing.T) {
	r := newSlowRig(t, Options{Path: demoFile(t)}, 80, 24).comes().comes().press(" f").comes().press("jjj", tcell.KeyEnter, tcell.KeyEscape)
	at := r.app.top().(*figuresPage).grid.at()
	require.Positive(t, at)
	r.press("u", tcell.KeyEnter, "/", "kw", tcell.KeyEnter, "n", tcell.KeyDown, tcell.KeyUp).has("figures: being worked out")
	for len(r.waiting) > 0 {
		r.comes()
	}
	require.Equal(t, at, r.app.top().(*figuresPage).grid.at())
}
