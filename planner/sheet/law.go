package sheet

import (
	"math"

	"holdover/loads/home"
	"holdover/loads/units"
)

// A Law is the power law through a unit's published runtimes, t = A·P^−B with t in hours and P in watts. It holds between the
// lightest and the heaviest load that the maker published; beyond them it is only carried on.
type Law struct {
	A, B      float64
	From, To  units.Watts // loads of the first and the last published point
	Points    int
	WorstMiss float64 // largest share by which a published runtime misses the law; 0 for two points
	Flatters  float64 // largest share by which the law is above a published runtime; 0 for two points
}

// FitLaw puts the law through two points or more: exactly through two, by least squares of ln t over ln P through more.
// rated is what 100 % load means. ok is false for fewer than two different loads.
func FitLaw(points []home.Runtime, rated units.Watts) (law Law, ok bool) {
	n, sx, sy, sxx, sxy := 0.0, 0.0, 0.0, 0.0, 0.0
	law.From, law.To = units.Watts(math.Inf(1)), 0
	for _, p := range points {
		x, y := math.Log(p.Load*float64(rated)), math.Log(float64(p.Time)/60)
		n, sx, sy, sxx, sxy = n+1, sx+x, sy+y, sxx+x*x, sxy+x*y
		law.From, law.To = min(law.From, units.Watts(p.Load)*rated), max(law.To, units.Watts(p.Load)*rated)
	}
	spread := n*sxx - sx*sx
	if len(points) < 2 || rated <= 0 || law.To-law.From <= law.To*1e-9 {
		return Law{}, false
	}
	slope := (n*sxy - sx*sy) / spread
	law.B, law.A, law.Points = -slope, math.Exp((sy-slope*sx)/n), len(points)
	for _, p := range points {
		at := law.Hours(units.Watts(p.Load) * rated)
		over := float64(at)*60/float64(p.Time) - 1
		law.WorstMiss, law.Flatters = max(law.WorstMiss, math.Abs(over)), max(law.Flatters, over)
	}
	if len(points) == 2 {
		law.WorstMiss, law.Flatters = 0, 0
	}
	return law, true
}

// Hours is how long the unit lasts at a load above 0, when new.
func (l Law) Hours(at units.Watts) units.Hours {
	return units.Hours(l.A * math.Pow(float64(at), -l.B))
}

// Within says whether a load lies between the published ones.
func (l Law) Within(at units.Watts) bool {
	return at >= l.From*(1-1e-9) && at <= l.To*(1+1e-9)
}
