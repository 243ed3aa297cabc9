package screens

import (
	"os"
	"strings"
	"testing"
	"time"

	"github.com/gdamore/tcell/v2"
	"github.com/stretchr/testify/require"

	"holdover/planner"
	"holdover/ui/screens/ahead"
)

// These tests run the real loop on a simulated screen: what the rig goes round.

// A running is the screens with their loop in a goroutine, and its end.
type running struct {
	t      *testing.T
	app    *app
	screen tcell.SimulationScreen
	ended  chan error
}

func runOn(t *testing.T, path string) *running {
	t.Helper()
	return runOnWith(t, path, planSteps)
}

// runOnWith works plans out in steps of the test's own.
func runOnWith(t *testing.T, path string, steps func(demand *planner.Result) []ahead.Step[*planner.Result]) *running {
	t.Helper()
	t.Setenv("XDG_STATE_HOME", t.TempDir())
	r := &running{t: t, screen: tcell.NewSimulationScreen("UTF-8"), ended: make(chan error, 1)}
	a, err := start(Options{Path: path, Screen: r.screen})
	require.NoError(t, err)
	r.app, a.steps = a, steps
	go func() { r.ended <- a.run() }()
	r.shows("verdict")
	return r
}

// shows polls until the screen has a text: keys and drawing go by different ways, so there is nothing to wait on.
func (r *running) shows(text string) {
	r.t.Helper()
	require.Eventually(r.t, func() bool {
		var b strings.Builder
		r.app.term.QueueUpdate(func() {
			cells, _, _ := r.screen.GetContents()
			for _, c := range cells {
				b.WriteRune(cellRune(c))
			}
		})
		return strings.Contains(b.String(), text)
	}, 30*time.Second, 5*time.Millisecond, text)
}

func (r *running) keys(letters string) {
	for _, letter := range letters {
		r.screen.InjectKey(tcell.KeyRune, letter, tcell.ModNone)
	}
}

func (r *running) end() error {
	r.t.Helper()
	select {
	case err := <-r.ended:
		return err
	case <-time.After(5 * time.Second):
		r.t.Fatal("the screens did not end")
		return nil
	}
}

func TestRun_EditSaveQuit(t *testing.T) {
	path := demoFile(t)
	before, err := os.ReadFile(path)
	require.NoError(t, err)
	r := runOn(t, path)
	r.keys(" ")
	r.shows("unsaved *")
	r.keys("s")
	r.shows("saved in")
	r.keys("q")
	require.NoError(t, r.end())
	after, err := os.ReadFile(path)
	require.NoError(t, err)
	require.Equal(t, strings.Replace(string(before), "care: keep\n", "care: rotate\n", 1), string(after))
}
