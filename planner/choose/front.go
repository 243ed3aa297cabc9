package choose

import (
	"slices"

	"holdover/loads/units"
	"holdover/planner/effort"
)

// A FrontPoint is the cheapest design that carries an outage of a length. Nothing cheaper endures as long, so the points
// are the front of cost against endurance.
type FrontPoint struct {
	LengthH float64
	Kind    Kind // None where nothing was found that carries so long an outage
	Outcome Outcome
}

// frontLengths are the lengths shown, h: an evening to ten days.
var frontLengths = []float64{2, 4, 8, 12, 24, 48, 72, 120, 240}

// Front finds the cheapest design for each of a ladder of lengths, the length planned for among them.
func (c *Case) Front() []FrontPoint {
	lengths := append([]float64{float64(c.duty.Home.Outage.Length)}, frontLengths...)
	slices.Sort(lengths)
	lengths = slices.Compact(lengths)
	points := make([]FrontPoint, len(lengths))
	for i, length := range lengths {
		c.meter.Part(1/float64(len(lengths)-i), func(m *effort.Meter) {
			kind, best := c.WithLength(units.Hours(length)).Within(m).Choose()
			points[i] = FrontPoint{length, kind, best}
		})
	}
	return points
}
