package screens

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/gdamore/tcell/v2"
	"github.com/stretchr/testify/require"

	"holdover/loads/home"
	"holdover/ui/screens/draft/drafttest"
)

func TestCircuits_AddCareSaveReopen(t *testing.T) {
	path := demoFile(t)
	r := newRig(t, Options{Path: path}, 80, 24)
	before := len(r.app.draft.Home().Circuits)

	r.press("a").has("add a circuit:").press("sump half").has("Sump pump, 1/2 hp").press(tcell.KeyEnter)
	r.has("circuit 2 of").has("Sump pump, 1/2 hp").press(tcell.KeyEscape)
	require.Len(t, r.app.draft.Home().Circuits, before+1)
	require.Equal(t, "sump-pump-half-hp", r.app.draft.Home().Circuits[1].Like)
	r.has("unsaved *")

	running := r.app.draft.Result().Demand.RunningW
	r.press("  ") // keep, rotate, shed
	require.Equal(t, home.Shed, r.app.draft.Home().Circuits[1].Care)
	require.Less(t, r.app.draft.Result().Demand.RunningW, running)

	r.press("s").has("saved in").hasNot("unsaved *")
	again := newRig(t, Options{Path: path}, 80, 24)
	require.Equal(t, "sump-pump-half-hp", again.app.draft.Home().Circuits[1].Like)
	require.Equal(t, home.Shed, again.app.draft.Home().Circuits[1].Care)
	again.has("Sump pump, 1/2 hp")
}

func TestCircuits_TheVerdictFollowsEachKey(t *testing.T) {
	path := filepath.Join(t.TempDir(), "small.yaml")
	require.NoError(t, os.WriteFile(path, []byte("holdover: 1\ncircuits:\n  - {name: Lamp, running: 100 W, care: keep}\n  - {name: Kiln, running: 9 kW, volts: 240 V, care: shed}\n"), 0o644))
	r := newRig(t, Options{Path: path}, 80, 24).has("running 100 W")
	r.press("j", " ").has("running 9,100 W")
	r.press("u").has("running 100 W").press("r").has("running 9,100 W")
}

func TestCircuits_DeleteMoveUndo(t *testing.T) {
	r := newRig(t, Options{Path: demoFile(t)}, 80, 24)
	text := r.file()
	first, second := r.app.draft.Home().Circuits[0].Name, r.app.draft.Home().Circuits[1].Name
	r.press("J")
	require.Equal(t, first, r.app.draft.Home().Circuits[1].Name)
	r.press("d") // the selection moved along
	require.Equal(t, second, r.app.draft.Home().Circuits[0].Name)
	require.NotContains(t, string(r.app.draft.Text()), "name: "+first+"\n")
	r.press("uu")
	require.Equal(t, text, string(r.app.draft.Text()))
	r.press("k", tcell.NewEventKey(tcell.KeyDown, 0, tcell.ModShift))
	require.Equal(t, first, r.app.draft.Home().Circuits[1].Name)
}

func TestForm_TypeAFaultMendItLeave(t *testing.T) {
	r := newRig(t, Options{Path: demoFile(t)}, 80, 24)
	r.press(tcell.KeyEnter).has("circuit 1 of")
	for range 4 {
		r.press(tcell.KeyTab)
	}
	r.has("▸ running").press(tcell.KeyCtrlU, "2 kWh").has("! \"2 kWh\" is an energy")
	r.press(tcell.KeyEscape).has("is not accepted").press("m").has("circuit 1 of").has("2 kWh")
	r.press(tcell.KeyBackspace2).hasNot("is an energy").press(tcell.KeyEscape).has("care   name")
	require.EqualValues(t, 2000, r.app.draft.Home().Circuits[0].Running)
	require.Contains(t, string(r.app.draft.Text()), "running: 2 kW ")
}

func TestForm_AChoiceAndWhatItInherits(t *testing.T) {
	r := newRig(t, Options{Path: demoFile(t)}, 80, 24)
	r.press("w", tcell.KeyTab).has("▸ service").press(tcell.KeyRight).has("! ")
	require.Equal(t, home.SplitPhase, r.app.draft.Home().House.Service, "the house has 240 V circuits")
	r.press(tcell.KeyDelete).has("(120/240 V)").hasNot("! ")
	require.False(t, r.app.draft.Home().Given("home.service"))
	for range placeFields() {
		if !strings.Contains(r.text(), "▸ units") {
			r.press(tcell.KeyTab)
		}
	}
	r.has("▸ units").press(" ")
	require.EqualValues(t, "si", r.app.draft.Home().House.Units)
	r.press("u").press(tcell.KeyEscape).press("u")
	require.EqualValues(t, "si", r.app.draft.Home().House.Units, "choosing by letter and undoing are two steps")
}

func TestForm_HasEveryFieldOnce(t *testing.T) {
	for _, c := range []struct {
		sections []string
		fields   int
		got      int
	}{
		{[]string{"circuits", "needs", "heater"}, -2, len(circuitFields(0))}, // needs and heater are headings
		{[]string{"home", "site", "outage"}, 0, len(placeFields())},
		{[]string{"limits", "assume"}, 0, len(termsFields())},
	} {
		want := c.fields
		for _, section := range c.sections {
			want += len(home.FieldsOf(section))
		}
		require.Equal(t, want, c.got, c.sections)
	}
	seen := map[string]bool{}
	for _, f := range circuitFields(0) {
		key := f.Group + " " + f.Key
		require.False(t, seen[key], key)
		seen[key] = true
	}
}

func TestForm_NextCircuitKeepsTheField(t *testing.T) {
	r := newRig(t, Options{Path: demoFile(t)}, 80, 24)
	r.press("e", tcell.KeyTab, tcell.KeyTab, tcell.KeyCtrlN).has("circuit 2 of").has("▸ care")
	r.press(tcell.KeyCtrlP).has("circuit 1 of").press(tcell.KeyCtrlP).has("circuit 1 of")
}

func TestUserText_IsShownLiterally(t *testing.T) {
	path := filepath.Join(t.TempDir(), "house.yaml")
	text := "holdover: 1\nhome: {name: \"[red]House[-]\"}\ncircuits:\n  - {name: \"[red]Lamp[::b] [x]\", running: 100 W}\n  - {name: Fan, running: 1 W}\n"
	require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
	r := newRig(t, Options{Path: path}, 80, 24)
	r.has("[red]House[-]").has("[red]Lamp[::b] [x]")
	r.press(tcell.KeyEnter).has("[red]Lamp[::b] [x]").press(tcell.KeyTab).has("[[red]Lamp[::b] [x]")
	r.press(tcell.KeyEscape, "d").has("deleted [red]Lamp[::b] [x]").press("u")
	r.screen.SetSize(140, 40)
	r.draw()
	require.Equal(t, 2, strings.Count(r.text(), "[red]Lamp[::b] [x]"), "in the table and in the pane")
	r.press("h").has("[red]Lamp[::b] [x]").press(tcell.KeyEscape, "f", "/", "circuit.", tcell.KeyEnter, tcell.KeyEnter).has("circuit.")
}

func TestQuit_AsksWhenSomethingWouldBeLost(t *testing.T) {
	path := demoFile(t)
	r := newRig(t, Options{Path: path}, 80, 24)
	r.press("q")
	require.True(t, r.stopped, "nothing to lose")

	r = newRig(t, Options{Path: path}, 80, 24)
	before := r.file()
	r.press(" q").has("There are unsaved edits").press("b")
	require.False(t, r.stopped)
	r.press(tcell.KeyCtrlC).has("There are unsaved edits").press(tcell.KeyCtrlC).hasNot("There are unsaved edits")
	require.False(t, r.stopped)
	require.FileExists(t, r.app.draft.Recovery())
	r.press("q", "x")
	require.True(t, r.stopped)
	require.Equal(t, before, r.file())
	require.NoFileExists(t, r.app.draft.Recovery())

	r = newRig(t, Options{Path: path}, 80, 24)
	r.press(" q", "s")
	require.True(t, r.stopped)
	require.NotEqual(t, before, r.file())
}

func TestQuit_FromAFormPutsTheTypedFieldIn(t *testing.T) {
	r := newRig(t, Options{Path: demoFile(t)}, 80, 24)
	r.press("e", tcell.KeyCtrlU, "Furnace of old", tcell.KeyCtrlC).has("There are unsaved edits").press("s")
	require.True(t, r.stopped)
	require.Contains(t, r.file(), "name: Furnace of old")
}

func TestQuit_SaysThatWhatIsNotAcceptedWouldBeLost(t *testing.T) {
	r := newRig(t, Options{Path: demoFile(t)}, 80, 24)
	r.press("e", tcell.KeyTab, tcell.KeyTab, tcell.KeyTab, "x", tcell.KeyCtrlC).has("in a field marked !")
	require.False(t, r.stopped)
}

func TestSave_TheDemoAsksForAName(t *testing.T) {
	r := newRig(t, Options{}, 80, 24)
	r.has("demo home, no file yet").press(" s").has("save as")
	path := filepath.Join(t.TempDir(), "mine.yaml")
	r.press(path, tcell.KeyEnter).has("saved in").has("mine.yaml")
	require.Equal(t, string(r.app.draft.Text()), r.file())
	r.press("S", tcell.KeyCtrlU, path, tcell.KeyEnter).has("already").press("b")
}

func TestSave_AFileChangedOnDiskIsAskedAbout(t *testing.T) {
	r := newRig(t, Options{Path: demoFile(t)}, 80, 24)
	r.press(" ")
	theirs := r.file() + "# theirs\n"
	require.NoError(t, os.WriteFile(r.app.draft.Path(), []byte(theirs), 0o644))
	r.press("s").has("was changed by something else").press("b")
	require.Equal(t, theirs, r.file())
	r.press("s", "o")
	require.Equal(t, string(r.app.draft.Text()), r.file())
}

func TestSave_AFailureSaysWhyAndLosesNothing(t *testing.T) {
	r := newRig(t, Options{Path: demoFile(t)}, 80, 24)
	before := r.file()
	require.NoError(t, os.Chmod(r.app.draft.Path(), 0o444))
	r.press(" s").has("read-only").has("your edits are still here").press("b")
	require.Equal(t, before, r.file())
	require.True(t, r.app.draft.Unsaved())
}

// died leaves what an edit leaves when the process dies after it, and gives the edited text.
func died(t *testing.T, path string, keys ...any) string {
	t.Helper()
	r := newRig(t, Options{Path: path}, 80, 24).press(keys...)
	edited := string(r.app.draft.Text())
	drafttest.Die(t, r.app.draft)
	return edited
}

func TestRecovery_IsOfferedAtTheStart(t *testing.T) {
	path := demoFile(t)
	edited := died(t, path, " ")
	r := newRig(t, Options{Path: path}, 80, 24).has("of an earlier run").press("k").has("kept")
	require.NotEqual(t, edited, string(r.app.draft.Text()))
	aside, err := filepath.Glob(filepath.Join(filepath.Dir(path), ".*.unsaved-*.aside"))
	require.NoError(t, err)
	require.Len(t, aside, 1)

	died(t, path, " ")
	r = newRig(t, Options{Path: path}, 80, 24).has("of an earlier run").press("r")
	require.Equal(t, edited, string(r.app.draft.Text()))
	r.press("u")
	require.Equal(t, r.file(), string(r.app.draft.Text()))

	died(t, path, " ")
	newRig(t, Options{Path: path}, 80, 24).has("of an earlier run").press("x").hasNot("of an earlier run")
	newRig(t, Options{Path: path}, 80, 24).hasNot("of an earlier run")
}

func TestFaultyFile_IsShownAndNeverWritten(t *testing.T) {
	path := filepath.Join(t.TempDir(), "bad.yaml")
	const bad = "holdover: 1\ncircuits:\n  - {nam: Lamp, running: 100 W}\n"
	require.NoError(t, os.WriteFile(path, []byte(bad), 0o644))
	r := newRig(t, Options{Path: path}, 80, 24).has("line 3").has("unknown key \"nam\"")
	for _, letter := range "aedsSurofhclwpi ?m" {
		r.press(string(letter))
	}
	r.press(tcell.KeyCtrlS)
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	require.Equal(t, bad, string(text))

	require.NoError(t, os.WriteFile(path, []byte(strings.Replace(bad, "nam:", "name:", 1)), 0o644))
	r.press(tcell.KeyEscape, "r").has("Lamp").has("verdict")
	r.press("q")
	require.True(t, r.stopped)
}

func TestSmallTerminal_SavesAndQuits(t *testing.T) {
	r := newRig(t, Options{Path: demoFile(t)}, 80, 24).press(" ")
	r.screen.SetSize(40, 10)
	r.draw()
	r.has("80x24 needed, 40x10 here").press("d") // does nothing here
	require.Equal(t, 19, len(r.app.draft.Home().Circuits))
	r.press("q").has("unsaved").press("b").press("s")
	require.Equal(t, string(r.app.draft.Text()), r.file())
	r.press("q")
	require.True(t, r.stopped)
}

// A window that shrinks under somebody who types must not take the text for keys.
func TestSmallTerminal_LettersTypedIntoAFieldDoNotQuit(t *testing.T) {
	for _, open := range []string{"e", "a"} {
		r := newRig(t, Options{Path: demoFile(t)}, 80, 24).press(" ", open)
		before := r.file()
		r.screen.SetSize(60, 20)
		r.draw()
		r.press("sq").has("Ctrl-S save, Ctrl-C quit")
		require.False(t, r.stopped)
		require.Equal(t, before, r.file())
		r.press(tcell.KeyCtrlS)
		require.NotEqual(t, before, r.file())
		r.press(tcell.KeyCtrlC)
		require.True(t, r.stopped)
	}
}

func TestScreens_EachOpensByItsKeyAndEscGoesBack(t *testing.T) {
	r := newRig(t, Options{Path: demoFile(t)}, 80, 24)
	for key, want := range map[string]string{
		"o": "Open to choose", "p": "carries the house through 24 h from 18:00", "i": "what each length of outage costs", "f": "load.running_w", "h": "mean draw", "c": "source:", "w": "where and when",
		"l": "limits and assumptions", "?": "every screen but forms",
	} {
		r.press(key).has(want).press(tcell.KeyEscape).has("care   name")
	}
	r.press("f", tcell.KeyEnter).has("circuit.gas-furnace.running_w = 600 W").press(tcell.KeyEscape).has("load.running_w")
	r.press(tcell.KeyEscape, "h").press("c").has("source:").press(tcell.KeyEscape).has("care   name")
}

func TestFind_GoesRound(t *testing.T) {
	r := newRig(t, Options{Path: demoFile(t)}, 80, 24)
	r.press("/", "pump", tcell.KeyEnter, tcell.KeyEnter).has("Sump pump").press(tcell.KeyEscape)
	r.press("n", tcell.KeyEnter).has(": Well pump").press(tcell.KeyEscape)
	r.press("n", tcell.KeyEnter).has(": Sump pump").press(tcell.KeyEscape)
	r.press("/", tcell.KeyCtrlU, "zzz", tcell.KeyEnter).has("nothing here has \"zzz\"")
}
