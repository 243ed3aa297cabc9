package report

import (
	"holdover/planner"
	"holdover/planner/choose"
)

// machine is the generator of an option's design.
type machine = choose.Machine

// figureCell shows a figure of the option, by its name without the kind.
func figureCell(name string) func(*planner.Result, planner.Option) string {
	return func(r *planner.Result, o planner.Option) string {
		f, ok := o.Sheet.Get(string(o.Kind) + "." + name)
		if !ok {
			return ""
		}
		return quantity(r.Home, f)
	}
}

// shareCell shows a share of the option as a percentage.
func shareCell(name string) func(*planner.Result, planner.Option) string {
	return func(_ *planner.Result, o planner.Option) string {
		f, ok := o.Sheet.Get(string(o.Kind) + "." + name)
		if !ok {
			return ""
		}
		return amount(100*f.Value, "%")
	}
}

// costCell shows a price of the option, rounded as an estimate.
func costCell(name string) func(*planner.Result, planner.Option) string {
	return func(_ *planner.Result, o planner.Option) string {
		f, ok := o.Sheet.Get(string(o.Kind) + "." + name)
		if !ok {
			return ""
		}
		return estimate(f.Value)
	}
}

func machineCell(of func(machine) string) func(*planner.Result, planner.Option) string {
	return func(_ *planner.Result, o planner.Option) string {
		if o.Outcome.Machine == nil {
			return ""
		}
		return of(*o.Outcome.Machine)
	}
}
