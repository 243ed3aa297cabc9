package planner

import (
	"fmt"
	"math"

	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/planner/choose"
	"holdover/planner/derive"
)

// newOption is one option with its outcome.
func newOption(c *choose.Case, kind Kind, o choose.Outcome, whyNot []string) Option {
	option := Option{Kind: kind, Carried: o.Carried() && o.Real() && !c.Overbooked(), WhyNot: whyNot, Sheet: &derive.Figures{}, Outcome: o}
	if !o.Real() {
		return option
	}
	option.Cost, option.BatteryKWh = o.Cost.Total(), float64(o.Modules)*c.Battery.ModuleKWh
	if at := o.Run.ShortAt; !o.Carried() && !math.IsInf(at, 1) {
		option.FellShortAt = &at
	}
	return option
}

// both has figures put down on the plan's, and the same on an option's own.
func (r *Result) both(o *Option, derive func()) {
	before := len(r.Sheet.All())
	derive()
	for _, f := range r.Sheet.All()[before:] {
		o.Sheet.Add(f)
	}
}

// ClockAt writes hours after the start as a clock time, and the day where it is not the first.
func ClockAt(start units.Hours, after float64) string {
	day := int(math.Floor((float64(start)+after)/24 + 1e-9))
	text := home.Clock(start + units.Hours(after))
	if day > 0 {
		text += fmt.Sprintf(" on day %d", day+1)
	}
	return text
}
