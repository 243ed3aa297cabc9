package sheet

import (
	"cmp"
	"math"
	"slices"

	"holdover/loads/home"
	"holdover/loads/units"
)

// A Curve is what a maker published of a new unit: how long it lasts at one steady load or more. Between two of them it follows the
// power law t = a·P^−b through both, which is never above the t = E/(P/η + idle) of a store of constant energy. Below the lightest
// it is sure to last as long as at that; above the heaviest nothing is claimed.
type Curve struct{ points []point }

type point struct{ w, h float64 }

// NewCurve puts a curve through published points; rated is what 100 % load means, W. ok is false without a point or a rating.
func NewCurve(published []home.Runtime, rated units.Watts) (c Curve, ok bool) {
	for _, p := range published {
		c.points = append(c.points, point{p.Load * float64(rated), float64(p.Time) / 60})
	}
	slices.SortFunc(c.points, func(a, b point) int { return cmp.Compare(a.w, b.w) })
	return c, len(c.points) > 0 && rated > 0
}

// Lightest and Heaviest are the loads between which the maker vouches for the curve, W.
func (c Curve) Lightest() units.Watts { return units.Watts(c.points[0].w) }

// Heaviest is the load above which nothing is claimed, W.
func (c Curve) Heaviest() units.Watts { return units.Watts(c.points[len(c.points)-1].w) }

// Sure is how long a new unit lasts at a load as far as its maker vouches for it, h; 0 above the heaviest published one.
func (c Curve) Sure(at units.Watts) units.Hours {
	w := float64(at)
	i := slices.IndexFunc(c.points, func(p point) bool { return w <= p.w*(1+1e-9) })
	switch i {
	case -1:
		return 0
	case 0:
		return units.Hours(c.points[0].h)
	}
	a, b := c.points[i-1], c.points[i]
	return units.Hours(a.h * math.Pow(w/a.w, math.Log(b.h/a.h)/math.Log(b.w/a.w)))
}

// Likely is Sure, but that below the lightest published load a new unit gives the energy that it gives there, h: what it gives at
// the outlet over its efficiency, and its own draw.
func (c Curve) Likely(at units.Watts, efficiency float64, idle units.Watts) units.Hours {
	first := c.points[0]
	if at >= c.Lightest() {
		return c.Sure(at)
	}
	drawn := func(w float64) float64 { return w/efficiency + float64(idle) }
	return units.Hours(first.h * drawn(first.w) / drawn(float64(at)))
}
