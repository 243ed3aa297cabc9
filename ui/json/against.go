package json

import (
	"cmp"

	"holdover/loads/home"
	"holdover/planner"
	"holdover/planner/derive"
	"holdover/ui/compare"
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

// Against writes two plans and what differs between them.
func Against(first, second compare.Side) (string, error) {
	return indented(againstJSON{Version: home.Version, First: planData(first.Result), Second: planData(second.Result),
		FirstOption: cmp.Or(first.Option.Kind, planner.None), SecondOption: cmp.Or(second.Option.Kind, planner.None), Differences: each(compare.All(first, second), differenceOf)})
}

// differenceOf is in the unit of both sides; where they differ, as fuels in L and in m3, it is the first's.
func differenceOf(d compare.Differing) differenceJSON {
	return differenceJSON{d.ID, sideValue(d.First), sideValue(d.Second), cmp.Or(d.First, d.Second).Unit}
}

func sideValue(f *derive.Figure) any {
	switch {
	case f == nil:
		return nil
	case f.Word != "":
		return f.Word
	}
	return f.Value
}
