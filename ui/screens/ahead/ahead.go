// Package ahead answers: what is known already of what somebody waits for?
//
// [Latest] works an answer out beside an event loop, in steps, and gives as much of it as there is. Only the latest question
// counts: another one ends the work on the one before, of which nothing is then heard any more. It knows no widget and no plan.
package ahead

import (
	"context"
	"sync"
	"time"
)

// A Loop is the event loop that shows the answers.
type Loop struct {
	// Begin does work beside the loop, and returns at once. In tests it may do the work itself, or put it off.
	Begin func(work func())
	// Wake has the loop look at the answers again. It is called beside the loop, perhaps before the loop has begun or after it
	// has ended, and must not wait for it.
	Wake func()
}

// A Step works out more of an answer than there is before it; the first one has the zero answer before it. It may leave what is
// before it shared, so it must not change it. An error, such as that of the end of ctx, ends the work without an answer.
type Step[A any] func(ctx context.Context, before A) (A, error)

// Latest is the answer to the latest question. Its methods may be called from anywhere.
type Latest[Q comparable, A any] struct {
	loop *Loop
	mu   sync.Mutex
	now  *asked[Q, A] // nil where nothing is asked
}

// asked is one question with what there is of its answer.
type asked[Q comparable, A any] struct {
	question Q
	ctx      context.Context
	cancel   context.CancelFunc
	steps    []Step[A]
	answer   A
	done     int           // steps that have answered
	first    chan struct{} // closed with the first answer
	awaited  bool          // somebody waits for first, and needs no waking
}

// New is without a question yet. What loop holds is looked up whenever it is needed.
func New[Q comparable, A any](loop *Loop) *Latest[Q, A] { return &Latest[Q, A]{loop: loop} }

// Ask begins to work out the answer to a question, unless it is the latest one already, and says whether it began. The work on
// the one before ends: its ctx is cancelled.
func (l *Latest[Q, A]) Ask(question Q, steps ...Step[A]) (began bool) {
	l.mu.Lock()
	if l.now != nil && l.now.question == question {
		l.mu.Unlock()
		return false
	}
	l.end()
	ctx, cancel := context.WithCancel(context.Background())
	k := &asked[Q, A]{question: question, ctx: ctx, cancel: cancel, steps: steps, first: make(chan struct{})}
	l.now = k
	l.mu.Unlock()
	l.work(k)
	return true
}

// work begins the next step of an answer; each that is done begins the one after it.
func (l *Latest[Q, A]) work(k *asked[Q, A]) {
	step, before := k.steps[k.done], k.answer
	l.loop.Begin(func() {
		if k.ctx.Err() != nil {
			return
		}
		answer, err := step(k.ctx, before)
		more, wakes := l.put(k, answer, err)
		if wakes {
			l.loop.Wake()
		}
		if more {
			l.work(k)
		}
	})
}

// put takes what a step has answered, if that is the question still, and says whether there is more to do and somebody to wake.
func (l *Latest[Q, A]) put(k *asked[Q, A], answer A, err error) (more, wakes bool) {
	l.mu.Lock()
	defer l.mu.Unlock()
	if l.now != k || err != nil {
		return false, false
	}
	k.answer, k.done = answer, k.done+1
	if k.done == 1 {
		close(k.first)
	}
	if more = k.done < len(k.steps); !more {
		k.cancel() // nothing is under way, so nothing is lost
	}
	return more, !k.awaited
}

// Answer is what there is of the answer to a question; ok is false where there is nothing of it yet.
func (l *Latest[Q, A]) Answer(question Q) (answer A, ok bool) {
	l.mu.Lock()
	defer l.mu.Unlock()
	if l.now == nil || l.now.question != question || l.now.done == 0 {
		return answer, false
	}
	return l.now.answer, true
}

// Await waits for the first of the answer to the latest question, but no longer than a time. What comes while it waits wakes
// nobody: the loop is expected to look at it right after.
func (l *Latest[Q, A]) Await(most time.Duration) {
	k := l.await(true)
	if k == nil {
		return
	}
	late := time.NewTimer(most)
	defer late.Stop()
	select {
	case <-k.first:
	case <-late.C:
	}
	l.await(false)
}

// await notes whether the first of the answer is awaited, and gives the question.
func (l *Latest[Q, A]) await(it bool) *asked[Q, A] {
	l.mu.Lock()
	defer l.mu.Unlock()
	if l.now != nil {
		l.now.awaited = it
	}
	return l.now
}

// Stop ends the work on the latest question and forgets it.
func (l *Latest[Q, A]) Stop() {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.end()
	l.now = nil
}

func (l *Latest[Q, A]) end() {
	if l.now != nil {
		l.now.cancel()
	}
}
