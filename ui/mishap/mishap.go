// Package mishap answers: what does a person read when the program itself is at fault?
//
// Whoever runs code that might panic recovers and makes a [Mishap] of it: what went wrong and where, in a line, and the trace
// for whoever mends it.
package mishap

import (
	"fmt"
	"path"
	"path/filepath"
	"runtime"
	"runtime/debug"
	"strings"
)

// A Mishap is a panic that was caught. It is an error.
type Mishap struct {
	What  string // what the panic said
	Where string // file and line in our own tree, like "ui/screens/form.go:42"
	Trace string // of the goroutine that panicked
}

// Of makes a mishap of what recover gave. It is to be called by the deferred function that recovered.
func Of(recovered any) *Mishap {
	return &Mishap{What: fmt.Sprint(recovered), Where: where(), Trace: string(debug.Stack())}
}

// Error says what went wrong and where, in one line.
func (m *Mishap) Error() string {
	return fmt.Sprintf("a mistake in this program ended it, at %s: %s", m.Where, m.What)
}

// where is the place that panicked first: the first frame that is not the runtime's under the last panic on the stack, since
// whoever recovers and panics again stands above.
func where() string {
	callers := make([]uintptr, 256)
	frames := runtime.CallersFrames(callers[:runtime.Callers(2, callers)])
	place, looking := "an unknown place", false
	for {
		frame, more := frames.Next()
		switch {
		case frame.Function == "runtime.gopanic":
			looking = true
		case looking && !strings.HasPrefix(frame.Function, "runtime."):
			place, looking = placeOf(frame), false
		}
		if !more {
			return place
		}
	}
}

// placeOf names a frame by its package and file: the path on the machine that built the program says nothing to others.
func placeOf(frame runtime.Frame) string {
	folder, rest := path.Split(frame.Function)
	name, _, _ := strings.Cut(rest, ".")
	folder = strings.TrimPrefix(folder+name, "holdover/")
	if folder == "main" {
		folder = "cmd/holdover"
	}
	return fmt.Sprintf("%s/%s:%d", folder, filepath.Base(frame.File), frame.Line)
}
