package home

import (
	"fmt"
	"slices"
	"strings"

	"holdover/loads/units"
)

// A Fault is one thing wrong with a home file, said so that the person who typed it can mend it.
type Fault struct {
	File    string // as the caller named it
	Line    int    // 1-based; 0 when no one line is at fault
	Field   string // path such as "circuits[3].running"; empty for the file as a whole
	Message string // what was found and what is accepted
}

// String writes "home.yaml:14: circuits[3].running: …".
func (f Fault) String() string {
	var b strings.Builder
	b.WriteString(f.File)
	if f.Line > 0 {
		fmt.Fprintf(&b, ":%d", f.Line)
	}
	b.WriteString(": ")
	if f.Field != "" {
		b.WriteString(f.Field + ": ")
	}
	b.WriteString(f.Message)
	return b.String()
}

// Faults is what is wrong with a file, all at once, in the order of its lines. It is an error. Of more than [mostFaults] the last
// one only says how many more there are.
type Faults []Fault

// mostFaults bounds what is kept of a file that is wrong from end to end; whatever is beyond is only counted.
const mostFaults = 100

// Error writes one fault a line.
func (fs Faults) Error() string {
	lines := make([]string, len(fs))
	for i, f := range fs {
		lines[i] = f.String()
	}
	return strings.Join(lines, "\n")
}

// count is how many faults were found so far, those that are not kept included.
func (r *reader) count() int { return len(r.faults) + r.beyond }

// found is every fault found: those kept by their lines, and how many more there are.
func (r *reader) found() Faults {
	slices.SortStableFunc(r.faults, func(a, b Fault) int { return a.Line - b.Line })
	if r.beyond == 0 {
		return r.faults
	}
	more := "and 1 more fault"
	if r.beyond > 1 {
		more = "and " + units.Format(float64(r.beyond)) + " more faults"
	}
	return append(r.faults, Fault{File: r.file, Message: more})
}
