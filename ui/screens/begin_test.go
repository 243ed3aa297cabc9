package screens

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/gdamore/tcell/v2"
	"github.com/stretchr/testify/require"
)

// newPath is a file name in a folder of its own, where nothing is yet.
func newPath(t *testing.T) string {
	t.Helper()
	return filepath.Join(t.TempDir(), "first.yaml")
}

func TestBegin_AFileThatIsNotThere(t *testing.T) {
	path := newPath(t)
	r := newRig(t, Options{Path: path}, 80, 24).has("first.yaml, not saved yet").has("first.yaml is not there yet").has("one appliance").has("a whole house")
	r.press("w").has("My house · first.yaml, not saved yet").press(" ")
	require.NoFileExists(t, path)
	r.press("s").has("saved in first.yaml").has("My house · first.yaml ").hasNot("not saved yet")
	require.Equal(t, string(r.app.draft.Text()), r.file())
	newRig(t, Options{Path: path}, 80, 24).has("rotate Refrigerator")
}

func TestBegin_OneAppliance(t *testing.T) {
	path := newPath(t)
	r := newRig(t, Options{Path: path}, 80, 24).press("o").has("which appliance?").press(tcell.KeyEscape).has("is not there yet")
	r.press("o", "kettle", tcell.KeyEnter).has("unit 1 of 1").has("first.yaml, not saved yet")
	require.NoFileExists(t, path)
	r.press(tcell.KeyCtrlS).has("saved in first.yaml")
	require.Contains(t, r.file(), "like: kettle")
}

func TestBegin_QuittingWritesNothing(t *testing.T) {
	for _, keys := range [][]any{{"q"}, {tcell.KeyEscape}, {tcell.KeyCtrlC}, {"o", tcell.KeyCtrlC}, {"w", "q", "x"}, {"w", " ", "q", "x"}} {
		path := newPath(t)
		r := newRig(t, Options{Path: path}, 80, 24).press(keys...)
		require.True(t, r.stopped, keys)
		entries, err := os.ReadDir(filepath.Dir(path))
		require.NoError(t, err)
		require.Empty(t, entries, keys)
	}
}

// The edits of a run that was killed before its first save are what the person looks for, so they come before any choice.
func TestBegin_OffersWhatAnEarlierRunLeft(t *testing.T) {
	path := newPath(t)
	edited := died(t, path, "w", " ")
	r := newRig(t, Options{Path: path}, 80, 24).has("of an earlier run").press("r")
	require.Equal(t, edited, string(r.app.draft.Text()))
	r.press("s")
	require.Equal(t, edited, r.file())
}

func TestBegin_AFileWrittenMeanwhileIsAskedAbout(t *testing.T) {
	path := newPath(t)
	r := newRig(t, Options{Path: path}, 80, 24).press("w")
	require.NoError(t, os.WriteFile(path, []byte("precious"), 0o644))
	r.press("s")
	require.Contains(t, r.squeezed(), "was written by something else since")
	r.press("b")
	require.Equal(t, "precious", r.file())
}

func TestBegin_AtEverySize(t *testing.T) {
	for _, size := range [][2]int{{1, 1}, {20, 5}, {79, 24}, {80, 24}, {200, 60}} {
		newRig(t, Options{Path: newPath(t)}, size[0], size[1]).press(tcell.KeyDown, tcell.KeyUp, "o", tcell.KeyEscape, "w")
	}
}

func TestSaveAs_OffersANameAndAddsTheEnding(t *testing.T) {
	t.Chdir(t.TempDir())
	r := newRig(t, Options{}, 80, 24).press("S").has("(alder-row-12.yaml)").press(tcell.KeyEnter).has("saved in alder-row-12.yaml")
	require.FileExists(t, "alder-row-12.yaml")
	r.press("S", tcell.KeyCtrlU, "first", tcell.KeyEnter).has("saved in first.yaml")
	require.NoFileExists(t, "first")
	r.press("S", tcell.KeyCtrlU, "first", tcell.KeyEnter).has("already").has("first.yaml")
}

// What Enter would take stands in the footer, whichever row is chosen.
func TestQuestion_TheFooterFollowsTheRow(t *testing.T) {
	r := newRig(t, Options{}, 80, 24).press("N").has("Enter one appliance  arrows choose  Esc back")
	r.press(tcell.KeyDown).has("Enter a whole house  arrows choose").press(tcell.KeyDown).has("Enter back  arrows")
	r.press(tcell.KeyDown).has("Enter one appliance")
}

// A newcomer's keys are in sight on the smallest terminal: for the demo, an edited home, a file as saved and one just begun.
func TestFooter_HasANewcomersKeysInEveryState(t *testing.T) {
	const keys = "space care  e edit  a add  o options  c cautions  s save  ? keys"
	newRig(t, Options{}, 80, 24).has(keys).has("N new").press(" ").has(keys)
	newRig(t, Options{Path: demoFile(t)}, 80, 24).has(keys).press(" ").has(keys).press("s").has(keys)
	newRig(t, Options{Path: newPath(t)}, 80, 24).press("w").has(keys)
}
