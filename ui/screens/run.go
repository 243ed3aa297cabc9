// Package screens answers: how does a person look at a home, change it and see the verdict follow, on a terminal?
//
// [Run] is the one thing to call. What is edited lives in [holdover/ui/screens/draft], which knows no widget; what is
// shown comes from the plan that follows from it. Each screen is a page: a tview primitive that draws from the draft
// every time it is drawn, so that nothing here can be out of date.
//
// A key's own handler changes the draft and no more. What takes a while, such as the plan, is worked out beside the loop by
// package [holdover/ui/screens/ahead]: the verdict first, the outlook when it comes, and the next edit ends what is under
// way. A page shows what there is of the plan of the home as it is now, and says in words what is still being worked out;
// what belongs to an earlier home is never shown. See follow.go. The loop has a
// goroutine of its own, beside the one that waits for its end or a signal; see leave.go.
//
// People who use a screen reader are better served by the plan verb and an editor: the same figures, as plain text.
package screens

import (
	"fmt"

	"github.com/gdamore/tcell/v2"

	"holdover/profiles"
	"holdover/ui/screens/draft"
)

// Options say how to run the screens.
type Options struct {
	Path    string       // home file, begun where there is none; empty for the demo home, which asks for a name when it is saved
	NoColor bool         // styles without colour
	ASCII   bool         // lines and bars in ASCII
	Mouse   bool         // take the mouse, which stops the terminal's own text selection; a key toggles it
	Screen  tcell.Screen // for tests; nil for the terminal
}

// Run shows the screens until the person quits. The error is an [Interruption] when something else ended them, and says else
// what went wrong with the terminal.
func Run(opts Options) error {
	a, err := start(opts)
	if err != nil {
		return err
	}
	return a.run()
}

// Begins says whether [Run] begins a new home at path: nothing is there, and its folder is. Nothing is written before it is
// saved.
func Begins(path string) bool { return draft.Free(path) }

// start makes the application with its first screen.
func start(opts Options) (*app, error) {
	a := newApp(opts)
	if opts.Path == "" {
		d, err := draft.New(profiles.Demo())
		if err != nil {
			return nil, fmt.Errorf("the demo home: %w", err)
		}
		a.begin(d)
		return a, nil
	}
	if Begins(opts.Path) {
		a.beginAt(opts.Path)
		return a, nil
	}
	a.reopen(opts.Path)
	return a, nil
}
