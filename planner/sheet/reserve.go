package sheet

import (
	"math"

	"holdover/loads/home"
	"holdover/loads/units"
)

// A Reserve is what a unit has stored, as the share of it that a steady load uses in an hour: 1/t for a load that it carries
// for t hours. Shares add up over a changing load, so the unit is empty when their sum reaches 1. That is exact for a store
// of Wh, and for Peukert's law it is the usual way to join stretches of different load.
type Reserve struct {
	Law    Law         // through the published points, where there are two
	ByLaw  bool        // else by Wh
	Stored bool        // by Wh
	Left   float64     // share of its new capacity that it has, by age and temperature
	Least  units.Watts // loads for which the maker vouches; both 0: any
	Most   units.Watts
	rate   func(float64) float64
}

// atMostEnergy holds a reserve of published runtimes to the energy that the sheet says is stored: below the lightest published load,
// where the law is only carried on, a load is taken to use no less than what it and the unit itself draw from the stored Wh. A
// lighter load never lasts less long than the lightest published one.
func (r Reserve) atMostEnergy(energy units.WattHours, efficiency float64, idle units.Watts) Reserve {
	law, least := r.rate, float64(r.Least)
	r.rate = func(w float64) float64 {
		if w >= least {
			return law(w)
		}
		drawn := (w/efficiency + float64(idle)) / (float64(energy) * r.Left)
		return max(law(w), min(drawn, law(least)))
	}
	return r
}

// newLaw makes a reserve of published runtimes. A battery with a share s of its capacity left lasts at P as long as a new one
// at P/s, so t is A·(P/s)^−B. The law is carried down to the lightest published load, or to running if that is lighter: below it
// the unit gives the energy that it gives there and no more, since at a few watts its own needs count.
func newLaw(law Law, left float64, running units.Watts) Reserve {
	floor := float64(min(law.From, running))
	return Reserve{Law: law, ByLaw: true, Left: left, Least: law.From, Most: law.To, rate: func(w float64) float64 {
		if w < floor {
			return w / floor / float64(law.Hours(units.Watts(floor/left)))
		}
		return 1 / float64(law.Hours(units.Watts(w/left)))
	}}
}

// newStore makes a reserve of usable Wh: DC draw = P/efficiency + idle.
func newStore(usable units.WattHours, left, efficiency float64, idle units.Watts) Reserve {
	return Reserve{Left: left, Stored: true, rate: func(w float64) float64 { return (w/efficiency + float64(idle)) / float64(usable) }}
}

// newPoint makes a reserve of one published runtime: the energy it gives at that load, at the outlet. Under a lighter load it
// gives no less; for a heavier one the maker vouches for nothing.
func newPoint(point home.Runtime, rated units.Watts, left float64) Reserve {
	at := units.Watts(point.Load) * rated
	energy := float64(at) * float64(point.Time) / 60 * left
	return Reserve{Left: left, Most: at, rate: func(w float64) float64 { return w / energy }}
}

// Use is the share that a steady load uses in an hour.
func (r Reserve) Use(at units.Watts) float64 { return r.rate(float64(at)) }

// Sure is Use as far as the maker vouches for it: a load below the lightest published one is taken to use as much as that,
// and one above the heaviest uses all at once. A law through more than two points may lie above one of them; so much is taken
// off all of it.
func (r Reserve) Sure(at units.Watts) float64 {
	return r.vouched(at) * (1 + r.Law.Flatters)
}

func (r Reserve) vouched(at units.Watts) float64 {
	const hair = 1 + 1e-9
	switch {
	case r.Most > 0 && float64(at) > float64(r.Most)*hair:
		return math.Inf(1)
	case at < r.Least:
		return r.rate(float64(r.Least))
	}
	return r.rate(float64(at))
}

// Hours is how long a steady load is carried.
func (r Reserve) Hours(at units.Watts) units.Hours { return held(1 / r.Use(at)) }

// A Stretch is a part of an outage in which a load wanders between two levels with a known mean.
type Stretch struct {
	Hours     units.Hours
	Low, High units.Watts
	Mean      units.Watts
}

// atMost is the most that a stretch can use in an hour, whatever the load does between its levels: for a use that rises ever
// faster with the load, a load that is at its low or its high and nothing between.
func (s Stretch) atMost(use func(units.Watts) float64) float64 {
	return max(s.extremes(use), use(s.Mean))
}

// atLeast is the least: for such a use, a load that stays at its mean.
func (s Stretch) atLeast(use func(units.Watts) float64) float64 {
	return min(s.extremes(use), use(s.Mean))
}

// extremes is the use of a load that is at its low or its high and nothing between.
func (s Stretch) extremes(use func(units.Watts) float64) float64 {
	if s.High <= s.Low || s.Mean <= s.Low {
		return use(s.Mean)
	}
	share := float64((s.Mean - s.Low) / (s.High - s.Low))
	return (1-share)*use(s.Low) + share*use(s.High)
}

// longest holds a runtime at a year: what lasts longer lasts for any outage.
const longest = units.Hours(365 * 24)

func held(h float64) units.Hours {
	if math.IsNaN(h) {
		return 0
	}
	return units.Hours(min(h, float64(longest)))
}

// lasts is how long so much of a reserve, 0 to 1, carries stretches that repeat, at a share of it an hour for each.
func lasts(stretches []Stretch, left float64, perHour func(Stretch) float64) units.Hours {
	at, round := units.Hours(0), 0.0
	for at < longest {
		before := left
		for _, s := range stretches {
			u := perHour(s)
			if math.IsNaN(u) || u*float64(s.Hours) >= left {
				return min(longest, at+held(left/u))
			}
			left -= u * float64(s.Hours)
			at += s.Hours
		}
		if round = before - left; round <= 0 {
			return longest
		}
	}
	return longest
}
