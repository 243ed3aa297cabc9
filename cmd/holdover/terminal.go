package main

import (
	"io"
	"os"

	"golang.org/x/term"
)

// A terminal is the three streams of a call.
type terminal struct {
	in        io.Reader
	out, errs io.Writer
}

// interactive says whether a person sits at both ends. A dumb terminal cannot be drawn on.
func (t terminal) interactive() bool {
	return isTerminal(t.in) && isTerminal(t.out) && os.Getenv("TERM") != "dumb"
}

func isTerminal(stream any) bool {
	if out, ok := stream.(*output); ok {
		stream = out.to
	}
	f, ok := stream.(*os.File)
	return ok && term.IsTerminal(int(f.Fd()))
}

// noColor follows the convention of the NO_COLOR variable: set to anything but nothing.
func noColor() bool { return os.Getenv("NO_COLOR") != "" }
