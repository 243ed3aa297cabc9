package report

import (
	"holdover/planner"
	"holdover/planner/choose"
	"holdover/planner/working"
)

// machine is the generator of an option's design.
type machine = choose.Machine

// figureOf is a figure of the option, by its name without the kind.
func figureOf(o planner.Option, name string) (working.Figure, bool) {
	if o.Sheet == nil {
		return working.Figure{}, false
	}
	return o.Sheet.Get(string(o.Kind) + "." + name)
}

// figureRow shows a figure of the option in the home's units.
func figureRow(label, name string) optionRow {
	return shownRow(label, name, func(r *planner.Result, f working.Figure) string { return Quantity(r.Home, f) })
}

// costRow shows a price of the option, rounded as an estimate, with its currency.
func costRow(label, name string) optionRow {
	return shownRow(label, name, func(_ *planner.Result, f working.Figure) string { return planner.Estimate(f.Value) + " " + f.Unit })
}

func shownRow(label, name string, show func(*planner.Result, working.Figure) string) optionRow {
	return optionRow{label: label, figure: name, cell: func(r *planner.Result, o planner.Option) string {
		f, ok := figureOf(o, name)
		if !ok {
			return ""
		}
		return show(r, f)
	}}
}

func machineCell(of func(machine) string) func(*planner.Result, planner.Option) string {
	return func(_ *planner.Result, o planner.Option) string {
		if o.Outcome.Machine == nil {
			return ""
		}
		return of(*o.Outcome.Machine)
	}
}
