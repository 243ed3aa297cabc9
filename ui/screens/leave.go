package screens

import (
	"errors"
	"fmt"
	"os"
	"os/signal"
	"slices"
	"syscall"
	"time"

	"github.com/gdamore/tcell/v2"
	"golang.org/x/term"

	"holdover/ui/mishap"
)

// This file ends the screens, or has them stand aside, when somebody other than the person at the keys asks for it: a signal, a
// terminal that goes away, or a mistake of our own. Whatever it is, the terminal is given back as it was, and the edit is kept.

// An Interruption is how screens ended that nobody quit.
type Interruption struct {
	Signal syscall.Signal // what ended them; a terminal that went away counts as a hang-up; 0 for a mishap
	Mishap *mishap.Mishap // nil for a signal
	Edits  string         // what has become of unsaved edits, as a sentence; empty where there are none
}

// Error says what ended the screens, and what has become of unsaved edits.
func (i *Interruption) Error() string {
	text := "ended by a signal: " + i.Signal.String()
	if i.Mishap != nil {
		text = i.Mishap.Error()
	}
	if i.Edits != "" {
		text += "\n" + i.Edits
	}
	return text
}

// patience is how long the loop may take to end after a signal: it may be in the midst of a long piece of work.
const patience = 3 * time.Second

// run goes on until the person quits, or something else ends the screens.
func (a *app) run() error {
	signals := make(chan os.Signal, 4)
	for _, s := range append(slices.Clone(leaving), stopping...) {
		if !signal.Ignored(s) { // as of a program under nohup
			signal.Notify(signals, s)
		}
	}
	defer signal.Stop(signals)
	ended := make(chan error, 1)
	go func() { ended <- a.runLoop() }()
	for {
		select {
		case err := <-ended:
			a.forget()
			return a.farewell(err)
		case broken := <-a.broken:
			return a.end(ended, &Interruption{Mishap: broken})
		case s := <-signals:
			if !slices.Contains(stopping, s) {
				return a.end(ended, &Interruption{Signal: s.(syscall.Signal)})
			}
			if a.ownStops.Add(-1) < 0 {
				a.ownStops.Add(1)
				a.beside(func() { a.term.QueueUpdateDraw(func() { a.term.Suspend(stopAlone) }) })
			}
		}
	}
}

// runLoop is tview's loop, which gives the terminal back before it lets a panic through.
func (a *app) runLoop() (err error) {
	defer func() {
		if p := recover(); p != nil {
			err = mishap.Of(p)
		}
	}()
	return a.term.Run()
}

// beside does work in a goroutine of its own. A panic there ends the screens as one in the loop does: every goroutine of this
// package begins here.
func (a *app) beside(work func()) {
	go func() {
		defer func() {
			if p := recover(); p != nil {
				select {
				case a.broken <- mishap.Of(p):
				default: // another one ends them already
				}
			}
		}()
		work()
	}()
}

// end ends the loop for a reason from outside it. A second signal meanwhile ends the program at once, but for a hang-up, which
// the system and a shell both send. A loop that does not end in time is left where it is.
func (a *app) end(ended <-chan error, why *Interruption) error {
	signal.Reset(impatient...)
	drawn := time.NewTicker(10 * time.Millisecond) // before the loop has drawn, it may have no screen to stop
	defer drawn.Stop()
	late := time.After(patience)
	for {
		select {
		case err := <-ended:
			a.forget()
			var broken *mishap.Mishap
			if why.Mishap == nil && !errors.As(err, &broken) {
				a.settleAll()
			}
			why.Edits = a.edits()
			a.endSession()
			return why
		case <-drawn.C:
			if a.screen.Load() != nil {
				drawn.Stop()
				a.beside(a.term.Stop)
			}
		case <-late:
			a.giveBack()
			why.Edits = "It was in the midst of a long piece of work; the edits before that are in the recovery file, which the next start offers."
			return why
		}
	}
}

// giveBack gives the terminal back without the loop, which still holds it. Where not even that can be written, its modes are put
// back at least.
func (a *app) giveBack() {
	done := make(chan struct{})
	a.beside(func() {
		if screen := a.screen.Load(); screen != nil {
			(*screen).Fini()
		}
		close(done)
	})
	for range 2 { // to put the modes back lets a writer go on that waited, and it changes them once more
		select {
		case <-done:
		case <-time.After(patience / 3):
		}
		if a.was != nil {
			_ = term.Restore(int(os.Stdin.Fd()), a.was)
		}
	}
}

// farewell says what a loop that ended by itself ended of. A terminal that cannot be read any more has hung up.
func (a *app) farewell(err error) error {
	defer a.endSession()
	var broken *mishap.Mishap
	var gone *tcell.EventError
	switch {
	case errors.As(err, &broken):
		return &Interruption{Mishap: broken, Edits: a.edits()}
	case errors.As(err, &gone):
		a.settleAll()
		return &Interruption{Signal: syscall.SIGHUP, Edits: a.edits()}
	}
	return err
}

// edits says what has become of unsaved edits: each was written to the recovery file when it was made.
func (a *app) edits() string {
	if a.draft == nil || !a.draft.Unsaved() {
		return ""
	}
	if err := a.draft.RecoveryError(); err != nil {
		return fmt.Sprintf("The unsaved edits could not be kept: %v.", err)
	}
	if _, err := os.Stat(a.draft.Recovery()); err != nil {
		return "" // a home that was begun and not edited yet
	}
	return "The unsaved edits are kept in " + a.draft.Recovery() + "; the next start offers them."
}
