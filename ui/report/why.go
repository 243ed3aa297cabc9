package report

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"holdover/planner"
)

// Why writes the working of one figure: its value, its formula and source, and under it, further in, each figure that it
// was worked out from, down to the inputs. A figure met again is not opened again. Of many circuits the largest are shown,
// unless all is set. ok is false when there is no figure of that id.
func Why(r *planner.Result, id string, width int, all bool) (text string, ok bool) {
	if _, ok := find(r, id); !ok {
		return "", false
	}
	t := &tree{result: r, page: page{width: max(width, MinWidth)}, all: all, shown: map[string]bool{}}
	t.add(id, "", "")
	return t.page.String(), true
}

type tree struct {
	result *planner.Result
	page   page
	all    bool
	shown  map[string]bool
}

// add writes one figure behind lead, and what belongs to it behind under.
func (t *tree) add(id, lead, under string) {
	f, ok := find(t.result, id)
	if !ok {
		t.page.paragraph(id, lead)
		return
	}
	head := id + ": " + BothSystems(t.result.Home, f)
	if t.shown[id] {
		t.page.paragraph(head+" (see above)", lead)
		return
	}
	t.shown[id] = true
	t.page.paragraph(head, lead)
	if f.How != "" {
		t.page.hang("how: "+f.How, under+"  ", under+"    ")
	}
	if f.Source != "" {
		t.page.hang("source: "+f.Source, under+"  ", under+"    ")
	}
	if len(f.From) == 0 {
		return
	}
	from, left := t.cut(f.From)
	t.page.line(under + "  from:")
	for _, id := range from {
		t.add(id, under+"    ", under+"    ")
	}
	if left > 0 {
		t.page.paragraph(fmt.Sprintf("and %d smaller ones (--all shows them)", left), under+"    ")
	}
}

// A sum over so many circuits is cut to the largest few, which are what a reader can act on.
const (
	manyCircuits  = 24
	shownCircuits = 10
)

// cut keeps every figure that is no circuit's, and of many circuits the largest, in their order.
func (t *tree) cut(from []string) (kept []string, left int) {
	circuits := slices.DeleteFunc(slices.Clone(from), func(id string) bool { return !strings.HasPrefix(id, "circuit.") })
	if t.all || len(circuits) <= manyCircuits {
		return from, 0
	}
	slices.SortStableFunc(circuits, func(a, b string) int { return cmp.Compare(t.value(b), t.value(a)) })
	dropped := map[string]bool{}
	for _, id := range circuits[shownCircuits:] {
		dropped[id] = true
	}
	return slices.DeleteFunc(slices.Clone(from), func(id string) bool { return dropped[id] }), len(dropped)
}

func (t *tree) value(id string) float64 {
	f, _ := find(t.result, id)
	return f.Value
}
