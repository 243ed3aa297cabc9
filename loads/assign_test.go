package loads_test

import (
	"fmt"
	"math"
	"math/cmplx"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"holdover/loads"
	"holdover/loads/home"
	"holdover/loads/units"
)

// A wired circuit is all that the assignment of legs goes by.
type wired struct {
	watts, pf float64
	count     int
	is240     bool
	times     float64 // the starting VA of one unit over its running VA; 0: it has no start
	startPF   float64
	seconds   float64 // that its start lasts; 0: as long as is usual
	rotates   bool
	leg       string // "A", "B" or "auto"
	partner   int    // index, -1: none
}

func (c wired) unit() complex128 { return cmplx.Rect(c.watts/c.pf, math.Acos(c.pf)) }

func (c wired) starting() complex128 { return cmplx.Rect(c.times*c.watts/c.pf, math.Acos(c.startPF)) }

func panelText(panel []wired) string {
	var b strings.Builder
	b.WriteString("holdover: 1\ncircuits:\n")
	for i, c := range panel {
		fmt.Fprintf(&b, "  - {name: C%d, care: %s, volts: %s, running: %v W, power_factor: %v, count: %d", i,
			map[bool]string{false: "keep", true: "rotate"}[c.rotates], map[bool]string{false: "120 V", true: "240 V"}[c.is240], c.watts, c.pf, c.count)
		if c.times > 0 {
			fmt.Fprintf(&b, ", start: {times: %v, power_factor: %v}", c.times, c.startPF)
		}
		if c.seconds > 0 {
			fmt.Fprintf(&b, ", start_seconds: %v s", c.seconds)
		}
		if c.leg != "auto" {
			fmt.Fprintf(&b, ", leg: %s", c.leg)
		}
		if c.partner > i {
			fmt.Fprintf(&b, ", shares_neutral_with: C%d", c.partner)
		}
		b.WriteString("}\n")
	}
	return b.String()
}

type tester interface {
	Fatalf(string, ...any)
	Errorf(string, ...any)
}

func panelHome(t tester, panel []wired) *home.Home {
	house, err := home.Read([]byte(panelText(panel)), "panel.yaml")
	if err != nil {
		t.Fatalf("%v\n%s", err, panelText(panel))
	}
	return house
}

// assign is the answer, held to the rules of the legs and to the stress that the plain sums find in it.
func assign(t tester, panel []wired, limits loads.LegLimits) loads.LegSplit {
	house := panelHome(t, panel)
	d := loads.AtBest(house)
	split := d.Assign(house, limits)
	side := make([]int, len(panel))
	for i, c := range panel {
		of := split.Of[i]
		side[i] = map[string]int{"A": 0, "B": 1}[of]
		if c.is240 != (of == "both") || of == "" || c.leg != "auto" && of != c.leg || c.partner >= 0 && of == split.Of[c.partner] {
			t.Errorf("C%d is on %q: %v\n%s", i, of, split.Of, panelText(panel))
		}
	}
	if stress := stressOf(panel, side, limits); math.Abs(split.Stress-stress) > 1e-9*stress {
		t.Errorf("the stress is said to be %v, and is %v\n%s", split.Stress, stress, panelText(panel))
	}
	if split.Bound > split.Stress || split.Proven && split.Bound < split.Stress*(1-2.1e-6) {
		t.Errorf("the bound is %v at a stress of %v, proven: %v", split.Bound, split.Stress, split.Proven)
	}
	return split
}

// stressOf goes through every turn, leg and start in the plainest way; side is the leg of each circuit, 0 or 1.
func stressOf(panel []wired, side []int, limits loads.LegLimits) (worst float64) {
	for turn := -1; turn < len(panel); turn++ {
		if turn >= 0 && !panel[turn].rotates {
			continue
		}
		for leg := range 2 {
			var running complex128
			var surges []complex128
			var long []bool
			for i, c := range panel {
				part := complex(1, 0)
				switch {
				case c.rotates && i != turn, !c.is240 && side[i] != leg:
					continue
				case c.is240:
					part = 0.5
				}
				running += part * complex(float64(c.count), 0) * c.unit()
				if c.times > 0 {
					surges = append(surges, part*(c.starting()-c.unit()))
					long = append(long, limits.Seconds > 0 && c.seconds > float64(limits.Seconds))
				}
			}
			worst = max(worst, cmplx.Abs(running)/float64(limits.RunningVA), real(running)/float64(limits.Running))
			for i, surge := range surges {
				w, va := limits.Starting, limits.StartingVA
				if long[i] {
					w, va = limits.Long, limits.LongVA
				}
				worst = max(worst, cmplx.Abs(running+surge)/float64(va), real(running+surge)/float64(w))
			}
		}
	}
	return worst
}

// leastByForce tries every side of every circuit.
func leastByForce(panel []wired, limits loads.LegLimits) float64 {
	best := math.Inf(1)
	side := make([]int, len(panel))
	var try func(i int)
	try = func(i int) {
		if i == len(panel) {
			best = min(best, stressOf(panel, side, limits))
			return
		}
		c := panel[i]
		for leg := range 2 {
			if c.is240 && leg == 1 || !c.is240 && c.leg == [2]string{"B", "A"}[leg] || c.partner >= 0 && c.partner < i && side[c.partner] == leg {
				continue
			}
			side[i] = leg
			try(i + 1)
		}
	}
	try(0)
	return best
}

func anyPanel(t *rapid.T, most int) []wired {
	var panel []wired
	for range rapid.IntRange(1, most).Draw(t, "circuits") {
		c := wired{watts: float64(rapid.IntRange(1, 3000).Draw(t, "watts")), pf: float64(rapid.IntRange(30, 100).Draw(t, "pf")) / 100, count: 1, leg: "auto", partner: -1}
		c.is240 = rapid.IntRange(1, 5).Draw(t, "240 V") == 1
		c.rotates = rapid.IntRange(1, 3).Draw(t, "rotates") == 1
		if rapid.IntRange(1, 5).Draw(t, "several") == 1 {
			c.count = rapid.IntRange(2, 4).Draw(t, "count")
		}
		if rapid.IntRange(1, 2).Draw(t, "has a start") == 1 {
			c.times, c.startPF = float64(rapid.IntRange(10, 70).Draw(t, "times"))/10, float64(rapid.IntRange(30, 100).Draw(t, "starting pf"))/100
			c.seconds = float64(rapid.SampledFrom([]int{1, 1, 20}).Draw(t, "seconds"))
		}
		if !c.is240 {
			c.leg = rapid.SampledFrom([]string{"auto", "auto", "auto", "auto", "A", "B"}).Draw(t, "leg")
		}
		panel = append(panel, c)
	}
	if rapid.IntRange(1, 3).Draw(t, "in tens") == 1 { // what W can add up to then has steps
		for i := range panel {
			panel[i].watts = 10 * math.Ceil(panel[i].watts/10)
		}
	}
	if rapid.IntRange(1, 4).Draw(t, "twins") == 1 { // circuits that are alike are searched together
		for i := 1; i < len(panel); i++ {
			panel[i].watts, panel[i].pf, panel[i].times, panel[i].startPF, panel[i].count = panel[0].watts, panel[0].pf, panel[0].times, panel[0].startPF, panel[0].count
		}
	}
	for i := range panel {
		if j := i + 1; rapid.IntRange(1, 4).Draw(t, "pair") == 1 && j < len(panel) && panel[i].partner < 0 && !panel[i].is240 && !panel[j].is240 {
			panel[i].partner, panel[j].partner = j, i
			panel[i].leg = "auto" // the other's may be given
		}
	}
	return panel
}

var without = math.Inf(1)

// anyLimits draws limits of many ratios, some of them none.
func anyLimits(t *rapid.T) loads.LegLimits {
	draw := func(name string, from, to int) float64 {
		if rapid.IntRange(1, 4).Draw(t, "no "+name) == 1 {
			return without
		}
		return float64(rapid.IntRange(from, to).Draw(t, name)) / 1000
	}
	limits := loads.LegLimits{Running: units.Watts(draw("W", 300, 1000)), RunningVA: units.VoltAmps(draw("VA", 300, 1000)),
		Starting: units.Watts(draw("starting W", 300, 4000)), StartingVA: units.VoltAmps(draw("starting VA", 300, 4000))}
	if rapid.Bool().Draw(t, "long starts apart") {
		limits.Seconds, limits.Long, limits.LongVA = 10, units.Watts(draw("long W", 300, 2000)), units.VoltAmps(draw("long VA", 300, 2000))
	}
	return limits
}

// The least stress against every assignment there is, in every turn: legs given, 240 V, shared neutrals, several units, twins,
// and limits of many ratios.
func TestAssign_AgainstEveryAssignment(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		panel, limits := anyPanel(t, 9), anyLimits(t)
		split, want := assign(t, panel, limits), leastByForce(panel, limits)
		if !split.Proven || split.Stress > want*(1+2.1e-6) || split.Stress < want*(1-1e-9) {
			t.Errorf("%v found, proven: %v; the least stress is %v under %v\n%s", split.Stress, split.Proven, want, limits, panelText(panel))
		}
	})
}

// A generator's limits: half of its rating on a leg, W at a power factor of 0.8, and so many times that for a start.
func perVA(startTimes float64) loads.LegLimits {
	return loads.LegLimits{Running: 0.4, RunningVA: 0.5, Starting: units.Watts(0.4 * startTimes), StartingVA: units.VoltAmps(0.5 * startTimes)}
}

// randomPanel draws n circuits, a share of them rotated.
func randomPanel(n int, rotated float64, seed uint64) []wired {
	r := rand.New(rand.NewPCG(seed, 7))
	panel := make([]wired, n)
	for i := range panel {
		panel[i] = wired{watts: math.Round(5 + 1500*r.Float64()*r.Float64()), pf: math.Round(60+40*r.Float64()) / 100, count: 1, leg: "auto", partner: -1,
			rotates: r.Float64() < rotated, is240: r.IntN(8) == 0}
		if r.IntN(3) == 0 {
			panel[i].times, panel[i].startPF = math.Round(20+50*r.Float64())/10, 0.6
		}
	}
	return panel
}

func TestAssign_FourteenCircuitsAgainstEveryAssignment(t *testing.T) {
	for seed := range uint64(8) {
		panel, limits := randomPanel(14, 0.25, seed), perVA([]float64{1, 1.25, 1.5, 2}[seed%4])
		split := assign(t, panel, limits)
		assert.True(t, split.Proven)
		assert.InEpsilon(t, leastByForce(panel, limits), split.Stress, 2.1e-6)
	}
}

// What is not needed can be left off: that never asks more of the legs.
func TestAssign_SheddingNeverRaisesTheStress(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		panel, limits := anyPanel(t, 14), anyLimits(t)
		shed := rapid.IntRange(0, len(panel)-1).Draw(t, "shed")
		fewer := append([]wired{}, panel...)
		if p := fewer[shed].partner; p >= 0 {
			fewer[p].partner = -1
		}
		fewer = append(fewer[:shed], fewer[shed+1:]...)
		for i := range fewer {
			if fewer[i].partner > shed {
				fewer[i].partner--
			}
		}
		if len(fewer) == 0 {
			return
		}
		all, less := assign(t, panel, limits), assign(t, fewer, limits)
		if all.Proven && less.Bound > all.Stress {
			t.Errorf("%v with all, %v at least without C%d\n%s", all.Stress, less.Bound, shed, panelText(panel))
		}
	})
}

// Twice the limits is half the stress, and the other leg is as good as the one.
func TestAssign_ScalesAndMirrors(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		panel, limits := anyPanel(t, 14), anyLimits(t)
		split := assign(t, panel, limits)
		k := float64(rapid.IntRange(1, 5000).Draw(t, "k"))
		scaled := assign(t, panel, loads.LegLimits{Running: limits.Running * units.Watts(k), RunningVA: limits.RunningVA * units.VoltAmps(k),
			Starting: limits.Starting * units.Watts(k), StartingVA: limits.StartingVA * units.VoltAmps(k),
			Seconds: limits.Seconds, Long: limits.Long * units.Watts(k), LongVA: limits.LongVA * units.VoltAmps(k)})
		if math.Abs(scaled.Stress*k-split.Stress) > 2.1e-6*split.Stress {
			t.Errorf("limits × %v: %v, before %v", k, scaled.Stress, split.Stress)
		}
		mirrored := append([]wired{}, panel...)
		for i := range mirrored {
			mirrored[i].leg = map[string]string{"A": "B", "B": "A", "auto": "auto"}[mirrored[i].leg]
		}
		if m := assign(t, mirrored, limits); math.Abs(m.Stress-split.Stress) > 2.1e-6*split.Stress || m.Proven != split.Proven {
			t.Errorf("%v, mirrored %v", split.Stress, m.Stress)
		}
	})
}

// The order of the file changes nothing.
func TestAssign_IsIndependentOfTheOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		panel, limits := anyPanel(t, 14), anyLimits(t)
		to := rapid.Permutation(indices(len(panel))).Draw(t, "order")
		shuffled := make([]wired, len(panel))
		for i, c := range panel {
			if c.partner >= 0 {
				c.partner = to[c.partner]
			}
			shuffled[to[i]] = c
		}
		a, b := assign(t, panel, limits), assign(t, shuffled, limits)
		if math.Abs(a.Stress-b.Stress) > 1e-12*a.Stress || a.Proven != b.Proven {
			t.Errorf("%v, in another order %v\n%s", a, b, panelText(panel))
		}
	})
}

func indices(n int) []int {
	all := make([]int, n)
	for i := range all {
		all[i] = i
	}
	return all
}

// The best split depends on what a source gives for a start: a pump that starts wants its leg for itself.
func TestAssign_GoesByTheRatioOfTheLimits(t *testing.T) {
	panel := []wired{{watts: 900, pf: 1, count: 1, times: 4, startPF: 1, leg: "auto", partner: -1}, {watts: 500, pf: 1, count: 1, leg: "auto", partner: -1},
		{watts: 500, pf: 1, count: 1, leg: "auto", partner: -1}, {watts: 300, pf: 1, count: 1, leg: "auto", partner: -1}}
	limit := func(start units.VoltAmps) loads.LegLimits {
		return loads.LegLimits{Running: units.Watts(without), RunningVA: 1, Starting: units.Watts(without), StartingVA: start}
	}
	even := assign(t, panel, limit(10))
	assert.InDelta(t, 1200, even.Stress, 1e-9, "900 + 300 against 500 + 500")
	assert.Equal(t, "leg "+even.Of[0], even.Binds.String())
	alone := assign(t, panel, limit(2.5))
	assert.InDelta(t, 3600/2.5, alone.Stress, 1e-9, "3600 alone, and 1300 on the other leg")
	assert.InDelta(t, 1300, float64(alone.Heaviest), 1e-9)
	assert.Equal(t, "leg "+alone.Of[0]+" while C0 starts", alone.Binds.String())
}

// What binds is said in words, and a limit of nothing is one that nothing meets.
func TestAssign_SaysWhatBinds(t *testing.T) {
	panel := []wired{{watts: 900, pf: 1, count: 1, leg: "A", partner: -1}, {watts: 500, pf: 1, count: 1, rotates: true, times: 4, startPF: 1, leg: "A", partner: -1},
		{watts: 800, pf: 0.5, count: 1, leg: "B", partner: -1}, {watts: 10, pf: 1, count: 1, leg: "B", times: 1, startPF: 1, partner: -1}}
	none := units.VoltAmps(without)
	split := assign(t, panel, loads.LegLimits{Running: 1, RunningVA: none, Starting: units.Watts(without), StartingVA: none})
	assert.Equal(t, loads.LegMoment{Leg: "A", Turn: "C1", Draw: 1400, Real: true, Stress: 1400}, split.Binds)
	assert.Equal(t, "leg A while it is the turn of C1", split.Binds.String())
	split = assign(t, panel, loads.LegLimits{Running: 1, RunningVA: 1, Starting: 1, StartingVA: 1})
	assert.Equal(t, "leg A while C1 starts", split.Binds.String(), "a rotated circuit starts in its own turn")
	assert.InDelta(t, 2900, split.Stress, 1e-9)
	panel[1].leg, panel[1].times, panel[3].times = "B", 0, 6
	split = assign(t, panel, loads.LegLimits{Running: units.Watts(without), RunningVA: none, Starting: 1, StartingVA: none})
	assert.Equal(t, "leg B while C3 starts and it is the turn of C1", split.Binds.String())
	house := panelHome(t, panel)
	d := loads.AtBest(house)
	split = d.Assign(house, loads.LegLimits{})
	assert.Greater(t, split.Bound, 1e9)
	assert.False(t, math.IsInf(split.Stress, 0) || math.IsNaN(split.Stress))
}

// Of a shared neutral of which only one half is carried, that half stays opposite to the leg the file gives the other.
func TestAssign_TheHalfLeftOffHoldsItsLeg(t *testing.T) {
	house, err := home.Read([]byte("holdover: 1\ncircuits:\n  - {name: N, care: shed, running: 1 W, leg: A, shares_neutral_with: M}\n  - {name: M, running: 100 W}\n"), "x")
	require.NoError(t, err)
	d := loads.Work(house)
	assert.Equal(t, []string{"B"}, d.Legs.Of)
}

// Hundreds of circuits: what is found is valid, its bound holds, and the two are near each other.
func TestAssign_OfManyCircuitsWithinItsBound(t *testing.T) {
	for _, of := range []struct {
		n       int
		rotated float64
	}{{60, 0}, {60, 0.3}, {300, 0.33}, {1000, 0}, {1000, 0.3}} {
		for _, limits := range []loads.LegLimits{perVA(1), perVA(2), heavierLeg} {
			split := assign(t, randomPanel(of.n, of.rotated, 3), limits)
			assert.Less(t, split.Stress, split.Bound*1.005, "%d circuits, %v of them rotated, under %v", of.n, of.rotated, limits)
		}
	}
}

func benchmarkAssign(b *testing.B, panel []wired, limits loads.LegLimits) {
	house := panelHome(b, panel)
	d := loads.AtBest(house)
	b.ReportAllocs()
	for b.Loop() {
		d.Assign(house, limits)
	}
}

func BenchmarkAssign(b *testing.B) {
	for _, n := range []int{8, 14, 20, 60, 300, 1000} {
		panel := randomPanel(n, 0.3, 5)
		for name, limits := range map[string]loads.LegLimits{"heavier leg": heavierLeg,
			"generator": perVA(1.25), "inverter": {Running: 0.5, RunningVA: 0.5, Starting: 1, StartingVA: 1}} {
			b.Run(fmt.Sprintf("%s/%d", name, n), func(b *testing.B) { benchmarkAssign(b, panel, limits) })
		}
	}
}
