package report

import (
	"holdover/loads/home"
	"holdover/planner"
	"holdover/planner/working"
)

// Two plans set side by side, for a machine. The differences are those of the inputs, of every figure, of the choice, and of the
// figures of the two options looked at, as option.cost and so on. What a side has not is left out.
type (
	againstJSON struct {
		Version      int              `json:"holdover"`
		First        planJSON         `json:"first"`
		Second       planJSON         `json:"second"`
		FirstOption  planner.Kind     `json:"first_option"` // looked at: the choice, or the nearest to one; none without a design
		SecondOption planner.Kind     `json:"second_option"`
		Differences  []differenceJSON `json:"differences"`
	}
	differenceJSON struct {
		ID     string `json:"id"`
		First  any    `json:"first,omitempty"`
		Second any    `json:"second,omitempty"`
		Unit   string `json:"unit"`
	}
)

// AgainstJSON writes two plans and what differs between them.
func AgainstJSON(first, second Side) (string, error) {
	out := againstJSON{Version: home.Version, First: planData(first.Result), Second: planData(second.Result),
		FirstOption: kindOrNone(first.Option), SecondOption: kindOrNone(second.Option), Differences: []differenceJSON{}}
	for _, d := range allDifferences(first, second) {
		out.Differences = append(out.Differences, differenceJSON{d.id, sideValue(d.first), sideValue(d.second), unitOf(d)})
	}
	return indented(out)
}

func allDifferences(first, second Side) []differing {
	var all []differing
	if first.Result != second.Result {
		a, b := first.Result, second.Result
		choice := func(r *planner.Result) []working.Figure {
			return []working.Figure{{ID: "choice", Word: string(r.Choice)}}
		}
		all = append(differences(choice(a), choice(b)), differences(a.Sheet.Figures(), b.Sheet.Figures())...)
		all = append(all, circuitDifferences(a.Home, b.Home)...)
	}
	return append(all, differences(optionFigures(first.Option), optionFigures(second.Option))...)
}

// optionFigures are the figures of an option under ids without its kind, so that two kinds can be compared.
func optionFigures(o planner.Option) (out []working.Figure) {
	if o.Sheet == nil {
		return nil
	}
	for _, f := range o.Sheet.Figures() {
		f.ID = "option" + f.ID[len(o.Kind):]
		out = append(out, f)
	}
	return out
}

func sideValue(f *working.Figure) any {
	switch {
	case f == nil:
		return nil
	case f.Word != "":
		return f.Word
	}
	return f.Value
}

// unitOf is the unit of both sides; where they differ, as fuels in L and in m3, it is the first's.
func unitOf(d differing) string {
	if d.first == nil {
		return d.second.Unit
	}
	return d.first.Unit
}

func kindOrNone(o planner.Option) planner.Kind {
	if o.Kind == "" {
		return planner.None
	}
	return o.Kind
}
