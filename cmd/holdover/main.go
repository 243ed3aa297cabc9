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
	"os/signal"
	"strings"
	"syscall"
	"time"

	"holdover/loads/home"
	"holdover/loads/visible"
	"holdover/ui/disk"
	"holdover/ui/mishap"
	"holdover/ui/screens"
)

// The exit statuses, a promise to scripts.
const (
	exitDone       = 0
	exitNotCarried = 1   // the plan is printed, and nothing carries the home within its limits
	exitWrong      = 2   // the home file or the call is wrong; nothing is on standard output
	exitUnwritten  = 3   // the result could not be written to standard output, or into the folder asked for
	exitMishap     = 70  // a mistake of this program (EX_SOFTWARE of BSD's sysexits.h)
	exitSignal     = 128 // and the signal's number, as shells count it
)

// errNotCarried ends a plan that is printed and says none.
var errNotCarried = errors.New("nothing carries this home within its limits")

func main() {
	signal.Ignore(syscall.SIGPIPE) // a reader that has seen enough is an error of the write, and no failure
	stopQuitting := catchQuit()
	status := run(os.Args[1:], terminal{os.Stdin, os.Stdout, os.Stderr})
	stopQuitting()
	if status > exitSignal {
		dieBy(syscall.Signal(status - exitSignal))
	}
	os.Exit(status)
}

// run carries out one call and gives its exit status.
func run(args []string, t terminal) (status int) {
	defer func() {
		if p := recover(); p != nil {
			status = explainMishap(t.errs, mishap.Of(p), "")
		}
	}()
	out := &output{to: t.out}
	t.out = out
	root := newRoot(t)
	root.SetArgs(args)
	root.SetIn(t.in)
	root.SetOut(t.out)
	root.SetErr(t.errs)
	called, err := root.ExecuteC()
	if failed := out.finish(); failed != nil {
		return explainUnwritten(t.errs, failed)
	}
	return conclude(t.errs, called.CommandPath(), err)
}

// conclude says on standard error what there is to say of a call's end, and gives its exit status.
func conclude(errs io.Writer, path string, err error) int {
	var ended *screens.Interruption
	switch {
	case err == nil:
		return exitDone
	case errors.Is(err, errNotCarried):
		return exitNotCarried
	case errors.As(err, &ended) && ended.Mishap != nil:
		return explainMishap(errs, ended.Mishap, ended.Edits)
	case ended != nil:
		inTime(func() { fmt.Fprintf(errs, "holdover: %s\n", visible.Lines(ended.Error())) })
		return exitSignal + int(ended.Signal)
	}
	explain(errs, path, err)
	if _, ok := err.(unwritten); ok {
		return exitUnwritten
	}
	return exitWrong
}

// inTime waits for something to be said, but not for ever: the terminal may take nothing more.
func inTime(say func()) {
	said := make(chan struct{})
	go func() { say(); close(said) }()
	select {
	case <-said:
	case <-time.After(time.Second):
	}
}

// explainUnwritten says why the result is not where it should be. Whoever read and has seen enough is no reason.
func explainUnwritten(errs io.Writer, err error) int {
	if errors.Is(err, syscall.EPIPE) {
		return exitDone
	}
	fmt.Fprintf(errs, "holdover: standard output: %v\n", disk.Cause(err))
	return exitUnwritten
}

// explainMishap says what a person can do with a mistake of ours, before what only its mender can read.
func explainMishap(errs io.Writer, m *mishap.Mishap, edits string) int {
	fmt.Fprintf(errs, "holdover: %s\n", visible.Lines(m.Error()))
	if edits != "" {
		fmt.Fprintln(errs, visible.Lines(edits))
	}
	fmt.Fprintf(errs, "Whoever mends it will want to see what follows.\n\n%s", visible.Lines(strings.ReplaceAll(m.Trace, "\t", "    ")))
	return exitMishap
}

// explain says what is wrong. The faults of a home file name their file themselves.
func explain(w io.Writer, path string, err error) {
	var faults home.Faults
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
