package loads

import (
	"fmt"
	"slices"
	"strings"
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

// Faults is every fault of a file at once, in the order of its lines. It is an error.
type Faults []Fault

// faultsShown bounds the message of a file that is wrong from end to end.
const faultsShown = 50

// Error writes one fault a line.
func (fs Faults) Error() string {
	lines := make([]string, 0, len(fs))
	for i, f := range fs {
		if i == faultsShown {
			lines = append(lines, fmt.Sprintf("%s: and %d more faults", f.File, len(fs)-i))
			break
		}
		lines = append(lines, f.String())
	}
	return strings.Join(lines, "\n")
}

func (fs Faults) sorted() Faults {
	slices.SortStableFunc(fs, func(a, b Fault) int { return a.Line - b.Line })
	return fs
}
