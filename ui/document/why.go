package document

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"holdover/loads/home"
	"holdover/planner"
	"holdover/planner/derive"
)

// A Find looks a figure up by its id.
type Find func(id string) (derive.Figure, bool)

// FigureOf looks for a figure on the plan's sheet, then on those of its options, then among what is worked out beside the plan.
func FigureOf(r *planner.Result) Find {
	return func(id string) (derive.Figure, bool) {
		if f, ok := r.Sheet.Get(id); ok {
			return f, true
		}
		for _, o := range r.Options {
			if f, ok := o.Sheet.Get(id); ok {
				return f, true
			}
		}
		return planner.Aside(r, id)
	}
}

// Why is the derivation of one figure, down to the inputs. A figure met again is not opened again. Of many circuits the largest
// are shown, unless all is set.
func Why(house *home.Home, find Find, id string, all bool) Document {
	t := tree{home: house, find: find, all: all, shown: map[string]bool{}}
	return Document{t.derivation(id)}
}

type tree struct {
	home  *home.Home
	find  Find
	all   bool
	shown map[string]bool
}

func (t tree) derivation(id string) Derivation {
	f, ok := t.find(id)
	if !ok {
		return Derivation{ID: id}
	}
	d := Derivation{ID: id, Value: InBoth(t.home, f)}
	if d.Again = t.shown[id]; d.Again {
		return d
	}
	t.shown[id] = true
	d.How, d.Source = f.How, f.Source
	from, left := t.cut(f.From)
	for _, id := range from {
		d.From = append(d.From, t.derivation(id))
	}
	if left > 0 {
		d.From = append(d.From, Derivation{ID: fmt.Sprintf("and %d smaller ones (--all shows them)", left)})
	}
	return d
}

// A sum over so many circuits is cut to the largest few, which are what a reader can act on.
const (
	manyCircuits  = 24
	shownCircuits = 10
)

// cut keeps every figure that is no circuit's, and of many circuits the largest, in their order.
func (t tree) cut(from []string) (kept []string, left int) {
	circuits := slices.DeleteFunc(slices.Clone(from), func(id string) bool { return !strings.HasPrefix(id, "circuit.") })
	if t.all || len(circuits) <= manyCircuits {
		return from, 0
	}
	value := func(id string) float64 {
		f, _ := t.find(id)
		return f.Value
	}
	slices.SortStableFunc(circuits, func(a, b string) int { return cmp.Compare(value(b), value(a)) })
	dropped := map[string]bool{}
	for _, id := range circuits[shownCircuits:] {
		dropped[id] = true
	}
	return slices.DeleteFunc(slices.Clone(from), func(id string) bool { return dropped[id] }), len(dropped)
}
