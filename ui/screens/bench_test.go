package screens

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/gdamore/tcell/v2"

	"holdover/loads/home"
	"holdover/planner"
	"holdover/profiles"
	"holdover/ui/screens/ahead"
)

// How long it takes from a key to its verdict on the screen, with the loop and the work beside it, while the outlook of the home
// before is under way: one that never ends by itself and works at full load.

func BenchmarkKeyToVerdictDemo(b *testing.B) { benchmarkKeys(b, profiles.Demo()) }

func BenchmarkKeyToVerdict300Circuits(b *testing.B) { benchmarkKeys(b, manyCircuits(300, "60 W")) }

// Nothing carries this one.
func BenchmarkKeyToVerdict300CircuitsTooMany(b *testing.B) {
	benchmarkKeys(b, manyCircuits(300, "1200 W"))
}

// manyCircuits is a home of circuits of all kinds, of which a third takes turns.
func manyCircuits(n int, running string) []byte {
	var text strings.Builder
	text.WriteString("holdover: 1\ncircuits:\n")
	all := profiles.Circuits()
	for i := range n {
		care := []string{"keep", "shed", "rotate"}[i%3]
		fmt.Fprintf(&text, "  - name: Circuit %d\n    like: %s\n    care: %s\n    running: %s\n    start: none\n    use: {duty: 0.02}\n    needs: {can_wait: 12 h}\n", i+1, all[i%len(all)].Name, care, running)
	}
	return []byte(text.String())
}

// unending are the steps of a plan whose outlook is worked out again and again.
func unending(demand *planner.Result) []ahead.Step[*planner.Result] {
	return []ahead.Step[*planner.Result]{planSteps(demand)[0], func(ctx context.Context, verdict *planner.Result) (*planner.Result, error) {
		for ctx.Err() == nil {
			_, _ = verdict.More(ctx, planner.Everything())
		}
		return nil, ctx.Err()
	}}
}

// A watched screen tells of each picture that is whole.
type watched struct {
	tcell.SimulationScreen
	shown func()
}

func (w *watched) Show() {
	w.SimulationScreen.Show()
	w.shown()
}

// benchmarkKeys presses space, which gives the first circuit another care, and reports the median, and what one in twenty
// stays below and above.
func benchmarkKeys(b *testing.B, text []byte) {
	b.Setenv("XDG_STATE_HOME", b.TempDir())
	path := filepath.Join(b.TempDir(), "home.yaml")
	if err := os.WriteFile(path, text, 0o644); err != nil {
		b.Fatal(err)
	}
	screen := &watched{SimulationScreen: tcell.NewSimulationScreen("UTF-8")}
	a, err := start(Options{Path: path, Screen: screen})
	if err != nil {
		b.Fatal(err)
	}
	a.steps = unending
	drawn := make(chan struct{}, 1)
	var last *home.Home
	screen.shown = func() {
		if r := a.draft.Result(); r.Has.Choice && r.Home != last {
			last = r.Home
			drawn <- struct{}{}
		}
	}
	ended := make(chan error, 1)
	go func() { ended <- a.run() }()
	<-drawn
	var took []time.Duration
	for b.Loop() {
		began := time.Now()
		screen.InjectKey(tcell.KeyRune, ' ', tcell.ModNone)
		<-drawn
		took = append(took, time.Since(began))
	}
	slices.Sort(took)
	ms := func(share float64) float64 { return took[int(share*float64(len(took)-1))].Seconds() * 1000 }
	b.ReportMetric(ms(0.05), "5%-ms")
	b.ReportMetric(ms(0.5), "median-ms")
	b.ReportMetric(ms(0.95), "95%-ms")
	screen.InjectKey(tcell.KeyRune, 'q', tcell.ModNone)
	screen.InjectKey(tcell.KeyRune, 'x', tcell.ModNone)
	if err := <-ended; err != nil {
		b.Fatal(err)
	}
}
