package screens

import (
	"context"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"github.com/gdamore/tcell/v2"
	"github.com/stretchr/testify/require"

	"holdover/loads/home"
	"holdover/planner"
	"holdover/ui/screens/ahead"
)

// These tests run the loop with work really beside it; they are for the race detector too.

// An endless outlook is one that only the end of its ctx ends.
type endless struct{ begun, ended atomic.Int32 }

func (e *endless) steps(demand *planner.Result) []ahead.Step[*planner.Result] {
	return []ahead.Step[*planner.Result]{planSteps(demand)[0], func(ctx context.Context, _ *planner.Result) (*planner.Result, error) {
		e.begun.Add(1)
		<-ctx.Done()
		e.ended.Add(1)
		return nil, ctx.Err()
	}}
}

// reaches polls a counter: what it counts happens in other goroutines.
func reaches(t *testing.T, counter *atomic.Int32, n int32) {
	t.Helper()
	require.Eventually(t, func() bool { return counter.Load() == n }, time.Minute, time.Millisecond)
}

// ours is how many goroutines there are of the screens, their loop included.
func ours() (n int) {
	stacks := make([]byte, 1<<20)
	for _, stack := range strings.Split(string(stacks[:runtime.Stack(stacks, true)]), "\n\n") {
		if strings.Contains(stack, "screens.(*app).") || strings.Contains(stack, "tview.(*Application)") {
			n++
		}
	}
	return n
}

// inLoop reads what belongs to the loop.
func (r *running) inLoop(read func()) { r.app.term.QueueUpdate(read) }

func TestFollow_AnEditCancelsTheOutlookUnderWay(t *testing.T) {
	var outlook endless
	r := runOnWith(t, demoFile(t), outlook.steps)
	for n := range int32(5) {
		reaches(t, &outlook.begun, n+1)
		require.Equal(t, n, outlook.ended.Load(), "an outlook that nothing has cancelled")
		r.keys(" ")
		reaches(t, &outlook.ended, n+1)
	}
	reaches(t, &outlook.begun, 6)
	r.keys("i")
	r.shows("costs by length, chances: being worked out")
	require.EqualValues(t, 5, outlook.ended.Load(), "looking at another page is no edit")
	r.keys("qx")
	require.NoError(t, r.end())
	reaches(t, &outlook.ended, 6)
}

// However fast the edits come, what is shown in the end is the whole plan of the last.
func TestFollow_TheLastOfManyEditsIsShown(t *testing.T) {
	path := filepath.Join(t.TempDir(), "small.yaml")
	require.NoError(t, os.WriteFile(path, []byte("holdover: 1\ncircuits:\n  - {name: Lamp, running: 100 W}\n  - {name: Fan, running: 50 W}\n  - {name: Pump, running: 1 kW}\n"), 0o644))
	r := runOn(t, path)
	for range 100 {
		r.keys(" ")
	}
	r.keys("i")
	r.shows("What each length of outage costs")
	var text []byte
	var shown *planner.Result
	r.inLoop(func() { text, shown = r.app.draft.Text(), r.app.draft.Result() })
	house, err := home.Read(text, "small.yaml")
	require.NoError(t, err)
	want, err := planner.Plan(context.Background(), house, planner.Everything())
	require.NoError(t, err)
	require.Contains(t, string(text), "{name: Lamp, running: 100 W, care: rotate}", "of three kinds of care the second, a hundred keys after the first")
	require.Equal(t, want.Has, shown.Has)
	require.Equal(t, want.Reasons, shown.Reasons)
	require.Equal(t, want.Sheet.All(), shown.Sheet.All())
	r.keys("qx")
	require.NoError(t, r.end())
}

// Quitting waits for nothing that is under way, and nothing of it stays behind.
func TestFollow_QuittingEndsWhatIsUnderWay(t *testing.T) {
	before := ours() // a test of a loop that is left where it is may have left one
	var outlook endless
	r := runOnWith(t, demoFile(t), outlook.steps)
	reaches(t, &outlook.begun, 1)
	require.Greater(t, ours(), before)
	r.keys("q")
	require.NoError(t, r.end())
	reaches(t, &outlook.ended, 1)
	require.Eventually(t, func() bool { return ours() <= before }, 10*time.Second, time.Millisecond)
}

// Work that does not notice that nobody waits for it ends all the same when it is done, though there is no loop any more.
func TestFollow_WhatComesAfterTheEndHangsNowhere(t *testing.T) {
	before := ours()
	begun, done := make(chan struct{}), make(chan struct{})
	r := runOnWith(t, demoFile(t), func(demand *planner.Result) []ahead.Step[*planner.Result] {
		return []ahead.Step[*planner.Result]{planSteps(demand)[0], func(_ context.Context, verdict *planner.Result) (*planner.Result, error) {
			close(begun)
			<-done
			return verdict, nil
		}}
	})
	<-begun
	r.keys("q")
	require.NoError(t, r.end())
	close(done)
	require.Eventually(t, func() bool { return ours() <= before }, 10*time.Second, time.Millisecond)
	r.app.woken.Store(false)
	r.app.wake() // as of an answer at the very moment of the end
}

// A verdict that takes long keeps no key waiting: the circuits show the edit, and the verdict comes by itself.
func TestFollow_ASlowVerdictComesByItself(t *testing.T) {
	let := make(chan struct{})
	r := runOnWith(t, demoFile(t), func(demand *planner.Result) []ahead.Step[*planner.Result] {
		steps := planSteps(demand)
		return append([]ahead.Step[*planner.Result]{func(ctx context.Context, before *planner.Result) (*planner.Result, error) {
			select {
			case <-let:
			case <-ctx.Done():
			}
			return steps[0](ctx, before)
		}}, steps[1:]...)
	})
	r.keys(" ")
	r.shows("rotate Gas furnace")
	r.shows("WORKING OUT")
	r.screen.InjectKey(tcell.KeyEnter, 0, tcell.ModNone)
	r.shows("circuit 1 of")
	r.screen.InjectKey(tcell.KeyEscape, 0, tcell.ModNone)
	close(let)
	r.shows("together carry")
	r.keys("qx")
	require.NoError(t, r.end())
}
