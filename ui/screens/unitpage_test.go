package screens

import (
	"path/filepath"
	"testing"

	"github.com/gdamore/tcell/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// strokes presses keys and counts them.
type strokes struct {
	*rig
	count int
}

func (s *strokes) strike(keys ...any) *rig {
	for _, key := range keys {
		if text, ok := key.(string); ok {
			s.count += len([]rune(text))
		} else {
			s.count++
		}
	}
	return s.press(keys...)
}

// slowTypist is how many keys somebody who looks for each one strikes in a minute (common practice, no source).
const slowTypist = 150

// A newcomer asks about one appliance: from the first screen to the verdict in less than a minute of typing, by what the screen
// itself says.
func TestNew_OneApplianceInAMinute(t *testing.T) {
	s := &strokes{rig: newRig(t, Options{}, 80, 24)}
	s.has("N new")
	s.strike("N").has("one appliance: will a unit run it")
	s.strike("o").has("which appliance?")
	s.strike("gas water instant", tcell.KeyEnter).has("unit 1 of 1").has("FITS IF").has("ask the maker for its wave")
	// What a shop page says, field by field: length, name and kind stay; price, watts, VA, wave, volts, hertz, neutral.
	s.strike(tcell.KeyTab, tcell.KeyTab, tcell.KeyTab, "640", tcell.KeyTab, "900 W", tcell.KeyTab, "1000", tcell.KeyTab, "s", tcell.KeyTab, "120", tcell.KeyTab, "60", tcell.KeyTab, "p", tcell.KeyTab)
	// No transfer time and no surge on the page; runtimes, chemistry and recharge.
	s.strike(tcell.KeyTab, tcell.KeyTab, tcell.KeyTab, tcell.KeyTab, "5% 400 min, 100% 13 min", tcell.KeyTab, "a", tcell.KeyTab, "8 h", tcell.KeyTab)
	s.has("Unit 1 (ups): FITS, 640 USD in all")
	assert.LessOrEqual(t, s.count, slowTypist)

	path := filepath.Join(t.TempDir(), "heater.yaml")
	s.press(tcell.KeyEscape, "s").has("save as").press(path, tcell.KeyEnter).has("saved in")
	again := newRig(t, Options{Path: path}, 80, 24)
	again.press("g").has("Unit 1 (ups): FITS,").has("sine")
}

// The verdict follows each field, a fault is said beside the field, and another unit can be added.
func TestUnit_TheVerdictFollows(t *testing.T) {
	r := newRig(t, Options{}, 80, 24).press("N", "o", "kettle", tcell.KeyEnter)
	r.has("Unit 1 (ups): FITS IF")
	for range 4 {
		r.press(tcell.KeyTab)
	}
	r.has("▸ watts").press("10 lm").has("! ").press(tcell.KeyCtrlU, "1000 W", tcell.KeyTab).has("Unit 1 (ups): DOES NOT FIT").has("It gives 1,000 W here")
	r.press(tcell.KeyCtrlN).has("unit 2 of 2: Unit 2").has("Unit 2 (ups): FITS IF")
	r.press(tcell.KeyCtrlP).has("unit 1 of 2").press(tcell.KeyCtrlP).has("unit 1 of 2")
	r.press(tcell.KeyEscape, "g").has("Unit 1 (ups): DOES NOT FIT").press("a").has("unit 3 of 3")
}

// A whole house is the other choice, and edits of the home that is open are not lost without a question.
func TestNew_AWholeHouse(t *testing.T) {
	r := newRig(t, Options{Path: demoFile(t)}, 80, 24).press(" ", "N").has("There are unsaved edits").press("b").has("care   name")
	r.press("N", "x", "w").has("My house").has("Refrigerator").has("new home, no file yet")
	require.Len(t, r.app.draft.Home().Circuits, 3)
	r.press("q").has("There are unsaved edits")
}

// Turns: the chart, the card and the limits, in both sets of characters.
func TestTurns_ShowsChartAndCard(t *testing.T) {
	r := newRig(t, Options{Path: "../../testdata/homes/fit-owned.yaml"}, 100, 40).press("t")
	r.has("no timetable in slots of 15 min takes less").has("Card for the panel").has("ON Refrigerator").has("Chest freezer")
	r.press(tcell.KeyEnd).has("Water heater").has("about 3 showers")
}

// What is owned is said below the units.
func TestFitPage_SaysWhatIsOwned(t *testing.T) {
	r := newRig(t, Options{Path: "../../testdata/homes/fit-owned.yaml"}, 100, 30).press("g", tcell.KeyEnd)
	r.has("What is owned already").has("The cheapest thing to add for the rest")
}

func TestFitPage_OfTheDemo(t *testing.T) {
	newRig(t, Options{Path: demoFile(t)}, 80, 24).press("g").has("Small desk unit (ups): DOES NOT FIT").has("need a sine wave")
}
