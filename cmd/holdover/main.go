// Command holdover answers on the command line: what will carry these circuits through an outage of this length, here?
//
// One file a verb: each parses its flags, calls one function and chooses a writer. What holds for all of them stands here:
// the result goes to standard output, whole or not at all; everything else goes to standard error, one thought a line, a
// hint on a line of its own; the program ends in one place.
package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"strings"
	"syscall"

	"holdover/loads"
	"holdover/loads/visible"
)

// The exit statuses, a promise to scripts.
const (
	exitDone       = 0
	exitNotCarried = 1 // the plan is printed, and nothing carries the home within its limits
	exitWrong      = 2 // the home file or the call is wrong; nothing is on standard output
)

// errNotCarried ends a plan that is printed and says none.
var errNotCarried = errors.New("nothing carries this home within its limits")

func main() {
	os.Exit(run(os.Args[1:], terminal{os.Stdin, os.Stdout, os.Stderr}))
}

// run carries out one call and gives its exit status.
func run(args []string, t terminal) int {
	root := newRoot(t)
	root.SetArgs(args)
	root.SetIn(t.in)
	root.SetOut(t.out)
	root.SetErr(t.errs)
	called, err := root.ExecuteC()
	switch {
	case err == nil, errors.Is(err, syscall.EPIPE): // whoever read has seen enough
		return exitDone
	case errors.Is(err, errNotCarried):
		return exitNotCarried
	}
	explain(t.errs, called.CommandPath(), err)
	return exitWrong
}

// explain says what is wrong. The faults of a home file name their file themselves.
func explain(w io.Writer, path string, err error) {
	var faults loads.Faults
	if errors.As(err, &faults) {
		fmt.Fprintln(w, visible.Lines(faults.Error()))
		var missing notBegun
		if errors.As(err, &missing) {
			fmt.Fprintln(w, visible.Lines(missing.hint()))
		}
		return
	}
	fmt.Fprintf(w, "holdover: %s\n", visible.Lines(strings.TrimSpace(err.Error())))
	var misuse misuse
	if errors.As(err, &misuse) {
		fmt.Fprintf(w, "See: %s --help\n", path)
	}
}
