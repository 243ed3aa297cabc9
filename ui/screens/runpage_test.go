package screens

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/gdamore/tcell/v2"
	"github.com/stretchr/testify/require"
)

func TestRunPage_TheArrowsSwitchTheOption(t *testing.T) {
	r := newRig(t, Options{Path: demoFile(t)}, 80, 24)
	r.press("p").has("a hybrid carries the house through 24 h from 18:00").has("generator starts")
	r.press(tcell.KeyRight).has("a battery would carry the house").hasNot("generator starts").has("17.7 kWh│")
	r.press(tcell.KeyRight).has("no design of this kind").has("too long for Breathing device")
	r.press(tcell.KeyRight).has("a hybrid carries the house").press(tcell.KeyLeft).has("no design of this kind")
	r.press("i").has("What would change the answer").press(tcell.KeyEscape).has("care   name")
}

// The page keeps the option that was looked at while the draft changes under it.
func TestRunPage_FollowsTheDraft(t *testing.T) {
	r := newRig(t, Options{Path: demoFile(t)}, 80, 24)
	for range 5 { // to a circuit whose turns leave hours enough for the others
		r.press(tcell.KeyDown)
	}
	r.press(" ", "p").has("from 18:00").press(tcell.KeyRight)
	before := r.text()
	r.press("u")
	require.NotEqual(t, before, r.text())
	r.has("a battery would carry the house")
}

// shortHome is carried by nothing, and one option falls short in its run.
const shortHome = `holdover: 1
home: {name: Hut, service: 120 V, units: si}
outage: {length: 30 h, start: "18:00", season: mild}
circuits:
  - {name: Pump, care: keep, running: 900 W, start: none, use: {duty: 1}}
limits: {fuels: [gasoline], fuel_store: 3 L, battery_place: none}
`

func TestRunPage_AShortfallStandsOut(t *testing.T) {
	path := filepath.Join(t.TempDir(), "hut.yaml")
	require.NoError(t, os.WriteFile(path, []byte(shortHome), 0o644))
	r := newRig(t, Options{Path: path}, 80, 24).press("p")
	r.has("a generator falls short through 30 h").has("fuel gone, generator stops").has("short of 0.9 kW")
	x, y := r.place("short ·")
	require.Equal(t, "b", r.styles()[x+lineStart(r.styles(), y):][:1])
	r.press("i").has("What would let the house be carried").has("Keep more fuel")
}

// lineStart is where line n of a text begins. Styles are one byte a cell.
func lineStart(text string, n int) int {
	return len(strings.Join(strings.SplitAfter(text, "\n")[:n], ""))
}

func TestRunPage_OfAHomeThatNeedsNothing(t *testing.T) {
	path := filepath.Join(t.TempDir(), "hut.yaml")
	require.NoError(t, os.WriteFile(path, []byte("holdover: 1\ncircuits:\n  - {name: Pump, running: 1 W, care: shed}\n"), 0o644))
	r := newRig(t, Options{Path: path}, 80, 24).press("p").has("NOTHING NEEDED").press(tcell.KeyRight).hasNot("kW")
	r.press("i").has("NOTHING NEEDED").hasNot("What would change")
}

func TestReader_SaysHowMuchIsBelow(t *testing.T) {
	r := newRig(t, Options{Path: demoFile(t)}, 80, 24).press("i").has(" more lines below")
	r.press(tcell.KeyEnd).hasNot(" more lines below")
}
