package choose

import (
	"math"

	"holdover/loads/units"
	"holdover/planner/outage"
	"holdover/planner/risk"
)

// longOutageH is how long an outage is followed to see when a design is short, h. Fewer than one national outage in ten
// thousand lasts longer.
const longOutageH = 30 * 24

// A LongOutage is an outage that goes on, from each of the 24 clock hours.
type LongOutage []outage.Outage

// Long makes the long outages of a case, to be shared by the designs looked at.
func (c *Case) Long() LongOutage {
	out := make(LongOutage, 24)
	for h := range out {
		out[h] = c.duty.From(units.Hours(h), longOutageH)
	}
	return out
}

// Stretches lists, for each start hour, when a design is short. What is short throughout the last day is taken to stay so.
func (c *Case) Stretches(d Design, long LongOutage) [][]risk.Stretch {
	plant := c.Plant(d)
	runs := make([][]risk.Stretch, len(long))
	var steps []outage.Step
	for h := range long {
		steps = steps[:0]
		long[h].Run(&plant, &steps)
		for _, s := range steps {
			if s.ShortKW <= 1e-9 {
				continue
			}
			if n := len(runs[h]); n > 0 && runs[h][n-1].To == s.From {
				runs[h][n-1].To = s.To
				continue
			}
			runs[h] = append(runs[h], risk.Stretch{From: s.From, To: s.To})
		}
		if n := len(runs[h]); n > 0 && runs[h][n-1].To-runs[h][n-1].From >= 24 && runs[h][n-1].To >= longOutageH*(1-1e-9) {
			runs[h][n-1].To = math.Inf(1)
		}
	}
	return runs
}
