package sheet

import (
	"math"

	"holdover/loads/units"
)

// A Reserve is what a unit has stored, as the share of it that a steady load uses in an hour: 1/t for a load that it carries
// for t hours. Shares add up over a changing load, so the unit is empty when their sum reaches 1. That is exact for a store
// of Wh, and the usual way to join stretches of different load for a battery whose capacity falls with the load.
type Reserve struct {
	Left      float64 // share of its new capacity that it has, by age and temperature
	Published *Curve  // what the maker published; nil where it goes by Wh alone
	use, sure func(units.Watts) float64
}

// newStore makes a reserve of usable Wh: DC draw = P/efficiency + idle.
func newStore(usable units.WattHours, left, efficiency float64, idle units.Watts) Reserve {
	use := func(w units.Watts) float64 {
		return (float64(w)/efficiency + float64(idle)) / float64(usable)
	}
	return Reserve{Left: left, use: use, sure: use}
}

// newPublished makes a reserve of published runtimes. A battery with a share s of its capacity left lasts at P as long as a new one
// at P/s. Where the sheet says how many Wh a new one holds, no load takes out more than is left of them; 0 where it does not.
func newPublished(c Curve, left float64, energy units.WattHours, efficiency float64, idle units.Watts) Reserve {
	held := func(w units.Watts, lasts units.Hours) float64 {
		use := 1 / float64(lasts)
		if energy > 0 {
			use = max(use, (float64(w)/efficiency+float64(idle))/(float64(energy)*left))
		}
		return use
	}
	return Reserve{Left: left, Published: &c,
		use:  func(w units.Watts) float64 { return held(w, c.Likely(w/units.Watts(left), efficiency, idle)) },
		sure: func(w units.Watts) float64 { return held(w, c.Sure(w/units.Watts(left))) }}
}

// Use is the share that a steady load likely uses in an hour; +Inf for one that is heavier than any published.
func (r Reserve) Use(at units.Watts) float64 { return r.use(at) }

// Sure is Use as far as the maker vouches for it.
func (r Reserve) Sure(at units.Watts) float64 { return r.sure(at) }

// Claims says whether anything is claimed of a load.
func (r Reserve) Claims(at units.Watts) bool { return !math.IsInf(r.sure(at), 1) }

// Hours is how long a steady load is likely carried.
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
	if share >= 1 {
		return use(s.High)
	}
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
