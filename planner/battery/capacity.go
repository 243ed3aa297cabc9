// Package battery answers: how large must the battery be, and how long does a given one last?
//
// [Size] goes from the energy wanted to nameplate Wh and whole modules; [Runtime] goes the other way. The factors between
// stand in functions of their own.
package battery

import (
	"math"

	"holdover/loads/units"
	"holdover/profiles"
)

// TemperatureFactor is the share of the 25 °C capacity that a chemistry has at a temperature. outside says that the
// temperature lies beyond the chemistry's table.
//
// Lead-acid follows the cell-size factors of IEEE 485, the share being 1/factor, interpolated linearly in the factor.
// Colder than its table the last slope is carried on, since holding the last value would promise capacity that is not
// there; hotter, the last value holds. The others follow their own table of shares, held at both ends.
func TemperatureFactor(c profiles.Chemistry, t units.Celsius) (share float64, outside bool) {
	if len(c.CellSizeFactors) == 0 {
		return shareAt(c.CapacityShares, float64(t))
	}
	f := float64(t)*9/5 + 32
	points := c.CellSizeFactors
	first, last := points[0], points[len(points)-1]
	if f < first.Fahrenheit {
		slope := (points[1].Factor - first.Factor) / (points[1].Fahrenheit - first.Fahrenheit)
		return 1 / (first.Factor + slope*(f-first.Fahrenheit)), true
	}
	for i := 1; i < len(points); i++ {
		if a, b := points[i-1], points[i]; f <= b.Fahrenheit {
			return 1 / between(a.Fahrenheit, a.Factor, b.Fahrenheit, b.Factor, f), false
		}
	}
	return 1 / last.Factor, true
}

func shareAt(points []profiles.PointC, c float64) (share float64, outside bool) {
	first, last := points[0], points[len(points)-1]
	if c < first.Celsius {
		return first.Share, true
	}
	for i := 1; i < len(points); i++ {
		if a, b := points[i-1], points[i]; c <= b.Celsius {
			return between(a.Celsius, a.Share, b.Celsius, b.Share, c), false
		}
	}
	return last.Share, true
}

func between(x0, y0, x1, y1, x float64) float64 { return y0 + (y1-y0)*(x-x0)/(x1-x0) }

// PeukertTime is how long a battery of a rated capacity at its rated hours lasts at a current, both in the same unit of
// amps (or watts, with the capacity in Wh). Peukert's law in its rated-hour form, t = H·(C/(I·H))^k.
func PeukertTime(capacity, draw, ratedHours, k float64) units.Hours {
	return units.Hours(ratedHours * math.Pow(capacity/(draw*ratedHours), k))
}

// Rate gives the rate factor of a nameplate of Wh at a mean DC draw, r = (N/(p·H))^(k−1): what the battery gives at this
// draw over what it gives at its rated hours. It is held at 1: a slower discharge than the rated one gives somewhat more,
// but no maker promises what Peukert's law makes of it.
func Rate(nameplate units.WattHours, draw units.Watts, ratedHours, k float64) float64 {
	if draw <= 0 || nameplate <= 0 || k == 1 {
		return 1
	}
	lasts := PeukertTime(float64(nameplate), float64(draw), ratedHours, k)
	return min(1, float64(lasts)*float64(draw)/float64(nameplate))
}

// Nameplate divides an energy by a rate factor that depends on the nameplate itself. With base = N·r, N solves
// N = base/r(N); below the cap that is N = (base·(p·H)^(k−1))^(1/k).
func Nameplate(base units.WattHours, draw units.Watts, ratedHours, k float64) units.WattHours {
	if draw <= 0 || k == 1 || float64(base) >= float64(draw)*ratedHours {
		return base
	}
	return units.WattHours(math.Pow(float64(base)*math.Pow(float64(draw)*ratedHours, k-1), 1/k))
}
