package ahead

import (
	"context"
	"errors"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// later is a loop whose work is done when the test says so, in no goroutine.
type later struct {
	Loop
	waiting []func()
	wakes   int
}

func newLater() *later {
	l := &later{}
	l.Begin = func(work func()) { l.waiting = append(l.waiting, work) }
	l.Wake = func() { l.wakes++ }
	return l
}

// step does the work that has waited longest.
func (l *later) step() {
	work := l.waiting[0]
	l.waiting = l.waiting[1:]
	work()
}

func add(n int) Step[int] {
	return func(ctx context.Context, before int) (int, error) { return before + n, ctx.Err() }
}

func TestLatest_AnswersStepByStep(t *testing.T) {
	loop := newLater()
	l := New[string, int](&loop.Loop)
	_, ok := l.Answer("a")
	require.False(t, ok, "nothing is asked")
	require.True(t, l.Ask("a", add(1), add(10)))
	require.False(t, l.Ask("a", add(100)), "it is asked already")
	_, ok = l.Answer("a")
	require.False(t, ok)

	loop.step()
	answer, ok := l.Answer("a")
	require.True(t, ok)
	require.Equal(t, 1, answer)
	require.Equal(t, 1, loop.wakes)
	loop.step()
	answer, _ = l.Answer("a")
	require.Equal(t, 11, answer)
	require.Equal(t, 2, loop.wakes)
	require.Empty(t, loop.waiting)
}

// Whatever is under way when another question comes, nothing of it is heard any more.
func TestLatest_AnotherQuestionEndsTheWork(t *testing.T) {
	for done := range 2 {
		loop := newLater()
		l := New[string, int](&loop.Loop)
		began := false
		l.Ask("a", add(1), func(context.Context, int) (int, error) { began = true; return 0, nil })
		for range done {
			loop.step()
		}
		l.Ask("b", add(2))
		_, ok := l.Answer("a")
		require.False(t, ok, "an answer to a question that is not the latest")
		for len(loop.waiting) > 0 {
			loop.step()
		}
		answer, ok := l.Answer("b")
		require.True(t, ok)
		require.Equal(t, 2, answer)
		require.Equal(t, done+1, loop.wakes)
		require.False(t, began, "a step of a question that nobody asks any more")
	}
}

// A step that does not look at its ctx answers in vain.
func TestLatest_ALateAnswerIsDropped(t *testing.T) {
	loop := newLater()
	l := New[string, int](&loop.Loop)
	l.Ask("a", func(context.Context, int) (int, error) { l.Ask("b", add(2)); return 1, nil }, add(10))
	loop.step()
	_, ok := l.Answer("b")
	require.False(t, ok)
	require.Zero(t, loop.wakes)
	require.Len(t, loop.waiting, 1, "that of b")
}

func TestLatest_AnErrorIsNoAnswer(t *testing.T) {
	loop := newLater()
	l := New[string, int](&loop.Loop)
	l.Ask("a", func(context.Context, int) (int, error) { return 1, errors.New("no") }, add(10))
	loop.step()
	_, ok := l.Answer("a")
	require.False(t, ok)
	require.Empty(t, loop.waiting)
}

func TestLatest_StopForgetsTheQuestion(t *testing.T) {
	loop := newLater()
	l := New[string, int](&loop.Loop)
	l.Stop()
	l.Ask("a", add(1), add(10))
	loop.step()
	l.Stop()
	_, ok := l.Answer("a")
	require.False(t, ok)
	loop.step()
	require.Equal(t, 1, loop.wakes)
	require.True(t, l.Ask("a", add(1)), "it may be asked again")
}

// beside does work in goroutines, and waits for them in the end.
func beside(t *testing.T) *Loop {
	var all sync.WaitGroup
	t.Cleanup(all.Wait)
	return &Loop{Begin: func(work func()) { all.Go(work) }, Wake: func() {}}
}

// endless is a step that somebody has to end.
func endless(started, ended *atomic.Int32) Step[int] {
	return func(ctx context.Context, before int) (int, error) {
		started.Add(1)
		<-ctx.Done()
		ended.Add(1)
		return before, ctx.Err()
	}
}

func TestLatest_CancelsWhatIsUnderWay(t *testing.T) {
	var started, ended atomic.Int32
	l := New[int, int](beside(t))
	for q := range 10 {
		l.Ask(q, add(q), endless(&started, &ended))
		require.Eventually(t, func() bool { return started.Load() == int32(q+1) }, 5*time.Second, time.Millisecond)
		require.Eventually(t, func() bool { return ended.Load() == int32(q) }, 5*time.Second, time.Millisecond)
		answer, ok := l.Answer(q)
		require.True(t, ok)
		require.Equal(t, q, answer)
	}
	l.Stop()
	require.Eventually(t, func() bool { return ended.Load() == 10 }, 5*time.Second, time.Millisecond)
}

func TestLatest_AwaitsTheFirstAnswer(t *testing.T) {
	var started, ended atomic.Int32
	l := New[string, int](beside(t))
	l.Await(time.Hour) // nothing is asked, so there is nothing to wait for
	l.Ask("a", add(1), endless(&started, &ended))
	l.Await(time.Hour)
	_, ok := l.Answer("a")
	require.True(t, ok)
	l.Ask("b", endless(&started, &ended))
	l.Await(time.Millisecond)
	_, ok = l.Answer("b")
	require.False(t, ok)
	l.Stop()
}

// What comes while somebody waits for it needs no waking; what comes later does.
func TestLatest_WakesNobodyWhoWaits(t *testing.T) {
	var wakes atomic.Int32
	loop := beside(t)
	loop.Wake = func() { wakes.Add(1) }
	l := New[string, int](loop)
	second := make(chan struct{})
	awaited := func(context.Context, int) (int, error) {
		require.Eventually(t, func() bool { l.mu.Lock(); defer l.mu.Unlock(); return l.now.awaited }, 5*time.Second, time.Millisecond)
		return 1, nil
	}
	l.Ask("a", awaited, func(ctx context.Context, before int) (int, error) { <-second; return before + 1, nil })
	l.Await(time.Hour)
	require.Zero(t, wakes.Load())
	close(second)
	require.Eventually(t, func() bool { return wakes.Load() == 1 }, 5*time.Second, time.Millisecond)
}

// The last of many questions is the one that is answered, whoever asks.
func TestLatest_TheLastOfManyIsAnswered(t *testing.T) {
	l := New[int, int](beside(t))
	for q := range 1000 {
		l.Ask(q, add(q), add(1000))
	}
	require.Eventually(t, func() bool { answer, ok := l.Answer(999); return ok && answer == 1999 }, 5*time.Second, time.Millisecond)
}
