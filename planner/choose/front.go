package choose

import (
	"holdover/loads/units"
)

// A FrontPoint is the cheapest design that carries an outage of a length. Nothing cheaper endures as long, so the points
// are the front of cost against endurance.
type FrontPoint struct {
	LengthH float64
	Kind    Kind // None where nothing carries so long an outage
	Outcome Outcome
}

// frontLengths are the lengths shown, h: an evening to ten days.
var frontLengths = []float64{2, 4, 8, 12, 24, 48, 72, 120, 240}

// Front finds the cheapest design for each of a ladder of lengths, the length planned for among them.
func (c *Case) Front() []FrontPoint {
	var points []FrontPoint
	planned := float64(c.home.Outage.Length)
	for i, length := range frontLengths {
		if planned < length && (i == 0 || planned > frontLengths[i-1]) {
			points = append(points, c.frontPoint(planned))
		}
		points = append(points, c.frontPoint(length))
	}
	if planned > frontLengths[len(frontLengths)-1] {
		points = append(points, c.frontPoint(planned))
	}
	return points
}

func (c *Case) frontPoint(lengthH float64) FrontPoint {
	kind, best := c.WithLength(units.Hours(lengthH)).Choose()
	return FrontPoint{lengthH, kind, best}
}
