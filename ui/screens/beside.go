package screens

import (
	"fmt"
	"runtime/debug"
)

// beside does work in a goroutine of its own. A panic there ends the screens as one in the loop does, with the terminal as it
// was: every goroutine that works something out begins here.
func (a *app) beside(work func()) {
	go func() {
		defer func() {
			if p := recover(); p != nil {
				where := fmt.Sprintf("%v\n\n%s", p, debug.Stack())
				if a.broken.CompareAndSwap(nil, &where) {
					a.term.Stop()
				}
			}
		}()
		work()
	}()
}

// breakAgain lets a panic of work beside the loop go on once the loop has given the terminal back.
func (a *app) breakAgain() {
	if where := a.broken.Load(); where != nil {
		panic(*where)
	}
}
