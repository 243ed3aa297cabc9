package screens

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/gdamore/tcell/v2"
	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "write the golden pictures anew")

// Each picture is the demo home: first the letters, then the styles of the same cells.
func TestGolden(t *testing.T) {
	for _, c := range []struct {
		name          string
		width, height int
		opts          Options
		keys          []any
	}{
		{"circuits", 80, 24, Options{}, nil},
		{"circuits", 100, 30, Options{}, nil},
		{"circuits", 40, 10, Options{}, nil},
		{"circuits", 200, 60, Options{}, nil},
		{"circuits-ascii-mono", 80, 24, Options{ASCII: true, NoColor: true}, []any{"jj"}},
		{"form", 80, 24, Options{}, []any{"jj", tcell.KeyEnter, tcell.KeyTab, tcell.KeyTab, tcell.KeyTab, "x"}},
		{"form-fault-elsewhere", 80, 24, Options{}, []any{"jj", tcell.KeyEnter, tcell.KeyTab, tcell.KeyTab, tcell.KeyTab, tcell.KeyTab, "2 lm", tcell.KeyDown, tcell.KeyDown, tcell.KeyDown}},
		{"form-mono", 80, 24, Options{NoColor: true}, []any{"w", tcell.KeyTab}},
		{"picker", 80, 24, Options{}, []any{"a", "heat pump"}},
		{"options", 80, 24, Options{}, []any{"o"}},
		{"run", 80, 24, Options{}, []any{"p"}},
		{"run", 120, 40, Options{}, []any{"p"}},
		{"run-battery-ascii-mono", 80, 24, Options{ASCII: true, NoColor: true}, []any{"p", tcell.KeyRight}},
		{"outlook", 80, 24, Options{}, []any{"i"}},
		{"hours", 80, 24, Options{}, []any{"h"}},
		{"hours-ascii", 80, 24, Options{ASCII: true}, []any{"h"}},
		{"figures", 120, 40, Options{}, []any{"f"}},
		{"quit", 80, 24, Options{}, []any{" q"}},
		{"begin", 80, 24, Options{Path: "first.yaml"}, []any{tcell.KeyDown}},
		{"save-as", 80, 24, Options{}, []any{"S"}},
	} {
		name := fmt.Sprintf("%s-%dx%d", c.name, c.width, c.height)
		t.Run(name, func(t *testing.T) {
			t.Setenv("XDG_STATE_HOME", t.TempDir())
			r := newRig(t, c.opts, c.width, c.height).press(c.keys...)
			compare(t, name, r.picture())
		})
	}
}

// compare holds a picture to the one on file.
func compare(t *testing.T, name, got string) {
	t.Helper()
	path := filepath.Join("testdata", name+".golden")
	if *update {
		require.NoError(t, os.MkdirAll("testdata", 0o755))
		require.NoError(t, os.WriteFile(path, []byte(got), 0o644))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err, "run with -update to write it")
	require.Equal(t, string(want), got, "run with -update if this is meant")
}

// Without colour no cell may have one, and the selection, the active field and the question must still stand out.
func TestNoColour_StylesAloneSayEverything(t *testing.T) {
	path := demoFile(t)
	for name, keys := range map[string][]any{
		"circuits": nil, "form": {"w", tcell.KeyTab}, "question": {" q"}, "options": {"o"}, "run": {"p"}, "outlook": {"i"}, "cautions": {"c"}, "hours": {"h"},
	} {
		r := newRig(t, Options{Path: path, NoColor: true}, 80, 24).press(keys...)
		r.app.draft.Discard()
		cells, _, _ := r.screen.GetContents()
		for _, cell := range cells {
			fg, bg, _ := cell.Style.Decompose()
			require.Equal(t, tcell.ColorDefault, fg, name)
			require.Equal(t, tcell.ColorDefault, bg, name)
		}
		if name != "options" && name != "outlook" && name != "cautions" { // where nothing is selected
			require.Contains(t, r.styles(), "rr", name)
		}
	}
}

// In ASCII mode the frame, rules and bars are ASCII; what the file or the plan says may not be.
func TestASCII_TheFrameIs(t *testing.T) {
	path := filepath.Join(t.TempDir(), "plain.yaml")
	require.NoError(t, os.WriteFile(path, []byte("holdover: 1\ncircuits:\n  - {name: Lamp with a name far too long for the column that it stands in, running: 100 W}\n"), 0o644))
	r := newRig(t, Options{Path: path, ASCII: true}, 80, 24)
	for _, keys := range []string{"", "e", "h", "p", "i"} {
		r.press(tcell.KeyEscape, keys)
		for _, letter := range r.text() {
			require.LessOrEqual(t, letter, '°', "screen %q has %q", keys, letter)
		}
	}
}

// The README shows the first screen and the run as they are.
func TestREADME_ShowsThePicturesOnFile(t *testing.T) {
	readme, err := os.ReadFile("../../README.md")
	require.NoError(t, err)
	shown := strings.Split(string(readme), "```text\n")[1:]
	require.Len(t, shown, 2)
	for i, name := range []string{"circuits-80x24", "run-80x24"} {
		golden, err := os.ReadFile(filepath.Join("testdata", name+".golden"))
		require.NoError(t, err)
		picture, _, _ := strings.Cut(shown[i], "```")
		require.Contains(t, string(golden), picture, name)
	}
}
