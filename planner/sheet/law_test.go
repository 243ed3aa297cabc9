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

// Two points: b = ln(t1/t2)/ln(P2/P1), and the law gives both back. 11 min at half load and 2.5 min at full load of 480 W, by
// hand: b = ln 4.4 / ln 2 = 2.1375; at 80 W it is 2.5 min · 6^2.1375 = 115.2 min.
func TestLaw_ThroughTwoPoints(t *testing.T) {
	law, ok := FitLaw([]home.Runtime{{Load: 0.5, Time: 11}, {Load: 1, Time: 2.5}}, 480)
	require.True(t, ok)
	assert.InDelta(t, 2.1375, law.B, 0.0001)
	assert.InDelta(t, 11.0/60, float64(law.Hours(240)), 1e-12)
	assert.InDelta(t, 2.5/60, float64(law.Hours(480)), 1e-12)
	assert.InDelta(t, 115.2, 60*float64(law.Hours(80)), 0.1)
	assert.True(t, law.Within(240) && law.Within(480) && !law.Within(80))
}

// Least squares in log-log against gonum's linear regression.
func TestLaw_AgainstRegression(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		n := rapid.IntRange(2, 8).Draw(r, "points")
		var points []home.Runtime
		var xs, ys []float64
		for i := range n {
			load := 0.1 + 0.9*float64(i)/float64(n-1)
			minutes := rapid.Float64Range(0.5, 2).Draw(r, "wobble") * 5 * math.Pow(load, -1.3)
			points = append(points, home.Runtime{Load: load, Time: units.Minutes(minutes)})
			xs, ys = append(xs, math.Log(load*700)), append(ys, math.Log(minutes/60))
		}
		law, ok := FitLaw(points, 700)
		require.True(r, ok)
		alpha, beta := stat.LinearRegression(xs, ys, nil, false)
		assert.InDelta(r, -beta, law.B, 1e-9)
		assert.InEpsilon(r, math.Exp(alpha), law.A, 1e-6)
	})
}

func TestLaw_NeedsTwoLoads(t *testing.T) {
	for _, points := range [][]home.Runtime{nil, {{Load: 0.5, Time: 10}}} {
		_, ok := FitLaw(points, 500)
		assert.False(t, ok)
	}
	_, ok := FitLaw([]home.Runtime{{Load: 0.5, Time: 11}, {Load: 1, Time: 2.5}}, 0)
	assert.False(t, ok, "shares of nothing")
}

// A battery with a share s of its capacity left is empty as soon under P as a new one under P/s.
func TestReserve_AgeIsALargerLoad(t *testing.T) {
	law, _ := FitLaw([]home.Runtime{{Load: 0.5, Time: 11}, {Load: 1, Time: 2.5}}, 480)
	aged := newLaw(law, 0.8, 80)
	assert.InDelta(t, 10*float64(aged.Hours(80)), float64(aged.Hours(8)), 1e-9, "below the running draw its energy stays what it is there")
	assert.InDelta(t, float64(law.Hours(300/0.8)), float64(aged.Hours(300)), 1e-12)
	assert.InDelta(t, float64(law.Hours(300))*math.Pow(0.8, law.B), float64(aged.Hours(300)), 1e-12)
}

// By hand: 2000 Wh of lfp, 90 % to be used, 80 % left; 90 W at 0.9 and 12 W of its own are 112 W from the battery: 12.86 h.
func TestReserve_ByWattHours(t *testing.T) {
	assert.InDelta(t, 2000*0.9*0.8/112, float64(newStore(2000*0.9*0.8, 0.8, 0.9, 12).Hours(90)), 1e-9)
}

// Whatever a load does between its two levels, its use lies between atLeast and atMost: the mean over any mix of levels.
func TestStretch_BoundsEveryMix(t *testing.T) {
	law, _ := FitLaw([]home.Runtime{{Load: 0.2, Time: 60}, {Load: 1, Time: 6}}, 1000)
	rapid.Check(t, func(r *rapid.T) {
		reserve := rapid.SampledFrom([]Reserve{newLaw(law, 0.7, 500), newStore(900, 0.6, 0.9, 10)}).Draw(r, "reserve")
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

// Through 60, 50 and 10 min at 10, 20 and 100 % of 400 W the law is above the first point. NotOnSheet for those 60 min at 40 W it may
// not pass on that: the maker's own figure is the most that is sure.
func TestLaw_NeverVouchesForMoreThanThePoints(t *testing.T) {
	points := []home.Runtime{{Load: 0.1, Time: 60}, {Load: 0.2, Time: 50}, {Load: 1, Time: 10}}
	law, ok := FitLaw(points, 400)
	require.True(t, ok)
	require.Greater(t, 60*float64(law.Hours(40)), 66.0, "the law flatters")
	sure := newLaw(law, 1, 40)
	for _, p := range points {
		at := units.Watts(p.Load) * 400
		assert.LessOrEqual(t, 60/sure.Sure(at), float64(p.Time)*(1+1e-9), "at %v", at)
	}
	two, _ := FitLaw(points[:2], 400)
	assert.Zero(t, two.Flatters)

	house := house(t, "outage: {length: 62 min}\nassume: {energy_margin: 0}\nsite: {battery_space: 25 C}\ncircuits: [{name: Lamp, running: 40 W, needs: {wave: any}}]\n")
	house.Gear, _ = home.ReadGear([]byte("- {name: Box, kind: ups, wave: sine, volts: 120 V, hertz: 60 Hz, watts: 400 W, va: 600, runtimes: [[10%, 60 min], [20%, 50 min], [100%, 10 min]], capacity_left: 1, chemistry: lfp, recharge: 4 h, price: 90}\n"), "gear.yaml", units.US)
	report, err := Of(house, Request{})
	require.NoError(t, err)
	assert.Equal(t, []string{"runtime"}, ids(report.Units[0].Checks, HoldsIf), "62 min against the maker's 60")
	assert.Contains(t, report.Units[0].Says(HoldsIf)[0], "by the law through its published runtimes")
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
// efficiency of 0.9 and 15 W of the unit's own for 216/(15/0.9 + 15) = 6.82 h, where the law alone says six days.
func TestReserve_NeverMoreThanTheStatedEnergy(t *testing.T) {
	law, _ := FitLaw([]home.Runtime{{Load: 0.5, Time: 11}, {Load: 1, Time: 2.5}}, 900)
	alone := newLaw(law, 1, 15)
	assert.Greater(t, float64(alone.Hours(15)), 140.0)
	held := alone.atMostEnergy(216, 0.9, 15)
	assert.InDelta(t, 216/(15/0.9+15), float64(held.Hours(15)), 1e-9)
	assert.Equal(t, alone.Hours(450), held.Hours(450), "the maker's own points stand")
	rapid.Check(t, func(r *rapid.T) {
		watts := rapid.Float64Range(1, 2000).Draw(r, "rated")
		energy := rapid.Float64Range(1, 5000).Draw(r, "energy")
		t1, t2 := rapid.Float64Range(0.05, 1).Draw(r, "first"), rapid.Float64Range(0.05, 1).Draw(r, "second")
		points := []home.Runtime{{Load: 0.5, Time: units.Minutes(60 * t1 * energy / (0.5 * watts))}, {Load: 1, Time: units.Minutes(60 * t1 * t2 * 0.5 * energy / (0.5 * watts))}}
		law, ok := FitLaw(points, units.Watts(watts))
		require.True(r, ok)
		left, efficiency, idle := rapid.Float64Range(0.05, 1).Draw(r, "left"), rapid.Float64Range(0.3, 1).Draw(r, "efficiency"), rapid.Float64Range(0, 2000).Draw(r, "idle")
		held := newLaw(law, left, units.Watts(rapid.Float64Range(0, watts).Draw(r, "running"))).atMostEnergy(units.WattHours(energy), efficiency, units.Watts(idle))
		before := math.Inf(1)
		for share := 0.0; share <= 1; share += 1.0 / 64 {
			hours, w := float64(held.Hours(units.Watts(share*watts))), share*watts
			assert.False(r, math.IsNaN(hours) || math.IsInf(hours, 0))
			assert.LessOrEqual(r, w*hours, energy*(1+1e-9), "%v W", w)
			assert.LessOrEqual(r, hours, before*(1+1e-9), "a heavier load lasts no longer, %v W", w)
			before = hours
		}
	})
}
