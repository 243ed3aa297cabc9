// Package compare answers: in what do two plans differ?
package compare

import (
	"holdover/planner"
	"holdover/planner/derive"
)

// A Side is one of two plans set side by side, and the option of it that is looked at.
type Side struct {
	Result *planner.Result
	Option planner.Option // without a kind where no option has a design
}

// Chosen looks at the chosen option, or where there is none at the nearest.
func Chosen(r *planner.Result) Side {
	o, _ := r.Nearest()
	return Side{r, o}
}

// A Differing is one thing that differs between two sides. A side that has it not is nil.
type Differing struct {
	ID            string
	First, Second *derive.Figure
}

// All is what differs: the choice, every figure, the circuits, and the figures of the two options looked at under option.cost and
// so on. Two options of one plan differ in the last alone.
func All(first, second Side) (all []Differing) {
	if a, b := first.Result, second.Result; a != b {
		choice := func(r *planner.Result) []derive.Figure {
			return []derive.Figure{{ID: "choice", Word: string(r.Choice)}}
		}
		all = append(figures(choice(a), choice(b)), figures(a.Sheet.All(), b.Sheet.All())...)
		all = append(all, circuits(a.Home, b.Home)...)
	}
	return append(all, figures(first.figures(), second.figures())...)
}

// figures are those of the option under ids without its kind, so that two kinds can be compared.
func (s Side) figures() (out []derive.Figure) {
	if s.Option.Sheet == nil {
		return nil
	}
	for _, f := range s.Option.Sheet.All() {
		f.ID = "option" + f.ID[len(s.Option.Kind):]
		out = append(out, f)
	}
	return out
}

// figures compares two lists by id, in the order of the first and then of the second.
func figures(first, second []derive.Figure) (out []Differing) {
	other := map[string]*derive.Figure{}
	for i := range second {
		other[second[i].ID] = &second[i]
	}
	for i := range first {
		a := &first[i]
		b := other[a.ID]
		if b == nil || a.Value != b.Value || a.Word != b.Word {
			out = append(out, Differing{a.ID, a, b})
		}
		delete(other, a.ID)
	}
	for i := range second {
		if b := &second[i]; other[b.ID] != nil {
			out = append(out, Differing{b.ID, nil, b})
		}
	}
	return out
}
