package sheet

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat"
	"pgregory.net/rapid"

	"holdover/loads/home"
	"holdover/loads/units"
)

// Two points: b = ln(t1/t2)/ln(P2/P1), and the curve gives both back. 11 min at half load and 2.5 min at full load of 480 W, by
// hand: b = ln 4.4 / ln 2 = 2.1375; at 300 W it is 2.5 min · 1.6^2.1375 = 6.83 min.
func TestCurve_ThroughTwoPoints(t *testing.T) {
	c, ok := NewCurve([]home.Runtime{{Load: 1, Time: 2.5}, {Load: 0.5, Time: 11}}, 480)
	require.True(t, ok)
	assert.InDelta(t, 11.0/60, float64(c.Sure(240)), 1e-12)
	assert.InDelta(t, 2.5/60, float64(c.Sure(480)), 1e-12)
	assert.InDelta(t, 6.827, 60*float64(c.Sure(300)), 0.001)
	assert.InDelta(t, 11.0/60, float64(c.Sure(80)), 1e-12, "below the lightest for sure no longer than there")
	assert.Zero(t, c.Sure(481), "above the heaviest nothing is claimed")
	// By hand: 240 W at 0.9 and 15 W of its own for 11 min, over 80 W at 0.9 and the same: 281.667/103.889 times as long.
	assert.InDelta(t, 11.0/60*281.6667/103.8889, float64(c.Likely(80, 0.9, 15)), 1e-5)
}

// One segment is the straight line through its ends in ln t over ln P, as gonum's regression through two points has it.
func TestCurve_AgainstRegression(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		loads := []float64{rapid.Float64Range(10, 500).Draw(r, "light"), rapid.Float64Range(501, 2000).Draw(r, "heavy")}
		times := []float64{rapid.Float64Range(1, 50).Draw(r, "long"), rapid.Float64Range(0.02, 0.9).Draw(r, "short")}
		c, ok := NewCurve([]home.Runtime{{Load: loads[0] / 2000, Time: units.Minutes(60 * times[0])}, {Load: loads[1] / 2000, Time: units.Minutes(60 * times[1])}}, 2000)
		require.True(r, ok)
		alpha, beta := stat.LinearRegression([]float64{math.Log(loads[0]), math.Log(loads[1])}, []float64{math.Log(times[0]), math.Log(times[1])}, nil, false)
		at := rapid.Float64Range(loads[0], loads[1]).Draw(r, "at")
		assert.InEpsilon(r, math.Exp(alpha+beta*math.Log(at)), float64(c.Sure(units.Watts(at))), 1e-9)
	})
}

func TestCurve_NeedsAPointAndARating(t *testing.T) {
	_, ok := NewCurve(nil, 500)
	assert.False(t, ok)
	_, ok = NewCurve([]home.Runtime{{Load: 0.5, Time: 11}, {Load: 1, Time: 2.5}}, 0)
	assert.False(t, ok, "shares of nothing")
}

// Another point on t = E/(P/η + idle) never makes the sure runtime shorter, of a new battery or an aged one, and the curve is never
// above that of the energy itself.
func TestCurve_AnotherPointNeverShortens(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		rated := units.Watts(rapid.Float64Range(50, 5000).Draw(r, "rated"))
		energy, efficiency := rapid.Float64Range(20, 20000).Draw(r, "Wh"), rapid.Float64Range(0.5, 1).Draw(r, "efficiency")
		idle := rapid.SampledFrom([]float64{0, 1, 15, 200}).Draw(r, "idle")
		truth := func(w float64) float64 { return energy / (w/efficiency + idle) }
		var points []home.Runtime
		for _, load := range rapid.SliceOfNDistinct(rapid.IntRange(1, 110), 2, 8, rapid.ID[int]).Draw(r, "loads") {
			share := float64(load) / 100
			points = append(points, home.Runtime{Load: share, Time: units.Minutes(60 * truth(share*float64(rated)))})
		}
		more, _ := NewCurve(points, rated)
		less, _ := NewCurve(points[:len(points)-1], rated)
		at := rated * units.Watts(rapid.Float64Range(0.002, 1.2).Draw(r, "at"))
		left := rapid.SampledFrom([]float64{1, 0.8, 0.4}).Draw(r, "left")
		assert.GreaterOrEqual(r, float64(more.Sure(at/units.Watts(left)))*(1+1e-9), float64(less.Sure(at/units.Watts(left))))
		assert.LessOrEqual(r, float64(more.Sure(at)), truth(float64(at))*(1+1e-9))
		assert.LessOrEqual(r, float64(more.Likely(at, efficiency, units.Watts(idle))), truth(float64(at))*(1+1e-9))
		assert.GreaterOrEqual(r, float64(more.Likely(at, efficiency, units.Watts(idle)))*(1+1e-9), float64(more.Sure(at)))
	})
}

// A battery with a share s of its capacity left is empty as soon under P as a new one under P/s.
func TestReserve_AgeIsALargerLoad(t *testing.T) {
	c, _ := NewCurve([]home.Runtime{{Load: 0.5, Time: 11}, {Load: 1, Time: 2.5}}, 480)
	aged := newPublished(c, 0.8, 0, 0.9, 15)
	assert.InDelta(t, float64(c.Sure(300/0.8)), float64(aged.Hours(300)), 1e-12)
	assert.InDelta(t, float64(c.Likely(100, 0.9, 15)), float64(aged.Hours(80)), 1e-12)
	assert.True(t, aged.Claims(384) && !aged.Claims(385))
}

// By hand: 2000 Wh of lfp, 90 % to be used, 80 % left; 90 W at 0.9 and 12 W of its own are 112 W from the battery: 12.86 h.
func TestReserve_ByWattHours(t *testing.T) {
	assert.InDelta(t, 2000*0.9*0.8/112, float64(newStore(2000*0.9*0.8, 0.8, 0.9, 12).Hours(90)), 1e-9)
}

// Whatever a load does between its two levels, its use lies between atLeast and atMost: the mean over any mix of levels.
func TestStretch_BoundsEveryMix(t *testing.T) {
	c, _ := NewCurve([]home.Runtime{{Load: 0.1, Time: 130}, {Load: 0.3, Time: 40}, {Load: 1, Time: 6}}, 1000)
	rapid.Check(t, func(r *rapid.T) {
		reserve := rapid.SampledFrom([]Reserve{newPublished(c, 0.95, 0, 0.9, 20), newStore(900, 0.6, 0.9, 10)}).Draw(r, "reserve")
		levels := rapid.SliceOfN(rapid.Float64Range(0, 900), 1, 6).Draw(r, "levels")
		mean, use, low, high := 0.0, 0.0, levels[0], levels[0]
		for _, w := range levels {
			mean += w / float64(len(levels))
			use += reserve.Use(units.Watts(w)) / float64(len(levels))
			low, high = min(low, w), max(high, w)
		}
		s := Stretch{1, units.Watts(low), units.Watts(high), units.Watts(mean)}
		assert.LessOrEqual(r, s.atLeast(reserve.Use), use*(1+1e-9))
		assert.GreaterOrEqual(r, s.atMost(reserve.Use)*(1+1e-9), use)
	})
}

// Stretches that repeat are used up in the order they come, against stepping through in small steps.
func TestLasts_AgainstSmallSteps(t *testing.T) {
	day := []Stretch{{3, 0, 0, 100}, {5, 0, 0, 20}, {16, 0, 0, 60}}
	reserve := newStore(4500, 1, 0.95, 5)
	got := lasts(day, 1, func(s Stretch) float64 { return reserve.Use(s.Mean) })
	left, at := 1.0, 0.0
	for step := 1e-3; left > 0; at += step {
		hour := math.Mod(at, 24)
		w := units.Watts(60)
		if hour < 3 {
			w = 100
		} else if hour < 8 {
			w = 20
		}
		left -= reserve.Use(w) * step
	}
	assert.InDelta(t, at, float64(got), 0.01)
	assert.Equal(t, longest, lasts([]Stretch{{24, 0, 0, 0}}, 1, func(Stretch) float64 { return 0 }))
}

// 62 min are asked of a unit that is published for 60 at a load that the lamp does not reach: likely, and for the maker to confirm. At
// the heaviest published load and beyond, the maker is asked.
func TestRuntime_WhatTheMakerDoesNotVouchFor(t *testing.T) {
	const box = "- {name: Box, kind: ups, wave: sine, volts: 120 V, hertz: 60 Hz, watts: 400 W, va: 600, runtimes: [[10%, 60 min], [20%, 50 min], [90%, 10 min]], capacity_left: 1, chemistry: lfp, recharge: 4 h, price: 90}\n"
	of := func(watts string) Unit {
		house := house(t, "outage: {length: 62 min}\nassume: {energy_margin: 0}\nsite: {battery_space: 25 C}\ncircuits: [{name: Lamp, running: "+watts+", needs: {wave: any}}]\n")
		house.Gear, _ = home.ReadGear([]byte(box), "gear.yaml", units.US)
		report, err := Of(house, Request{})
		require.NoError(t, err)
		return report.Units[0]
	}
	u := of("30 W")
	assert.Equal(t, []string{"runtime"}, ids(u.Checks, HoldsIf), "62 min against the maker's 60")
	assert.Contains(t, u.Says(HoldsIf)[0], "the lightest load that one is published for")
	assert.Equal(t, []string{"runtime"}, ids(of("40 W").Checks, Fails), "60 min are what it lasts")
	assert.Contains(t, ids(of("380 W").Checks, NotOnSheet), "runtime", "heavier than any published")
}

// Runtimes are shares of the watts: without those it is the watts that are asked for.
func TestRuntime_AsksForTheWattsItsPointsHangOn(t *testing.T) {
	house := house(t, lamp)
	house.Gear, _ = home.ReadGear([]byte("- {name: Box, kind: ups, va: 600, runtimes: [[50%, 11 min], [100%, 2.5 min]]}\n"), "gear.yaml", units.US)
	report, err := Of(house, Request{})
	require.NoError(t, err)
	for _, c := range report.Units[0].Checks {
		if c.ID == "runtime" {
			assert.Equal(t, NotOnSheet, c.Outcome)
			assert.Contains(t, c.Says, "its continuous watts")
			assert.NotContains(t, c.Says, "two loads or more")
		}
	}
	assert.Contains(t, ids(report.Units[0].Checks, NotOnSheet), "runtime")
}

// A unit gives no more than the sheet says is stored, however light the load: by hand, 216 Wh with all of it left carry 15 W at an
// efficiency of 0.9 and 15 W of the unit's own for 216/(15/0.9 + 15) = 6.82 h.
func TestReserve_NeverMoreThanTheStatedEnergy(t *testing.T) {
	c, _ := NewCurve([]home.Runtime{{Load: 0.5, Time: 28}, {Load: 1, Time: 9}}, 900)
	alone, bounded := newPublished(c, 1, 0, 0.9, 15), newPublished(c, 1, 216, 0.9, 15)
	assert.Greater(t, float64(alone.Hours(15)), 7.0)
	assert.InDelta(t, 216/(15/0.9+15), float64(bounded.Hours(15)), 1e-9)
	rapid.Check(t, func(r *rapid.T) {
		watts := rapid.Float64Range(1, 2000).Draw(r, "rated")
		energy := rapid.Float64Range(1, 5000).Draw(r, "energy")
		t1, t2 := rapid.Float64Range(0.05, 1).Draw(r, "first"), rapid.Float64Range(0.05, 1).Draw(r, "second")
		points := []home.Runtime{{Load: 0.5, Time: units.Minutes(60 * t1 * energy / (0.5 * watts))}, {Load: 1, Time: units.Minutes(60 * t1 * t2 * 0.5 * energy / (0.5 * watts))}}
		c, ok := NewCurve(points, units.Watts(watts))
		require.True(r, ok)
		left, efficiency, idle := rapid.Float64Range(0.05, 1).Draw(r, "left"), rapid.Float64Range(0.3, 1).Draw(r, "efficiency"), rapid.Float64Range(0, 2000).Draw(r, "idle")
		bounded := newPublished(c, left, units.WattHours(energy), efficiency, units.Watts(idle))
		before := math.Inf(1)
		for share := 0.0; share <= 1; share += 1.0 / 64 {
			hours, w := float64(bounded.Hours(units.Watts(share*watts))), share*watts
			assert.False(r, math.IsNaN(hours) || math.IsInf(hours, 0))
			assert.LessOrEqual(r, (w/efficiency+idle)*hours, energy*left*(1+1e-9), "%v W takes out no more than is held", w)
			assert.LessOrEqual(r, hours, before*(1+1e-9), "a heavier load lasts no longer, %v W", w)
			before = hours
		}
	})
}
