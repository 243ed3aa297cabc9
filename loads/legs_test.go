package loads_test

import (
	"fmt"
	"math"
	"math/cmplx"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"holdover/loads"
	"holdover/loads/home"
	"holdover/loads/units"
)

// heavierLeg limits nothing but what runs: the stress is the heavier leg in VA.
var heavierLeg = loads.LegLimits{Running: units.Watts(without), RunningVA: 1, Starting: units.Watts(without), StartingVA: units.VoltAmps(without)}

// The heavier leg of a demand against every split there is, in every turn, and where no leg is given A is the heavier one.
func TestWork_HeavierLegAgainstEverySplit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		panel := anyPanel(t, 9)
		d := loads.Work(panelHome(t, panel))
		if want := leastByForce(panel, heavierLeg); math.Abs(float64(d.Legs.Heaviest)-want) > 2.1e-6*want || !d.Legs.Proven {
			t.Errorf("the heavier leg is %v, proven: %v; the best split gives %v\n%s", d.Legs.Heaviest, d.Legs.Proven, want, panelText(panel))
		}
		if sum := d.Legs.A + d.Legs.B; cmplx.Abs(complex128(sum-d.Running)) > 1e-9*float64(d.Running.VA()) {
			t.Errorf("the legs are %v and %v, the running total is %v", d.Legs.A, d.Legs.B, d.Running)
		}
		given := slices.ContainsFunc(panel, func(c wired) bool { return c.leg != "auto" })
		if !given && float64(d.Legs.A.VA()) < float64(d.Legs.B.VA())*(1-1e-12) {
			t.Errorf("A is %v, B is %v", d.Legs.A, d.Legs.B)
		}
	})
}

// randomKept draws n kept circuits of 120 V that have no start.
func randomKept(n int, seed uint64) []wired {
	r := rand.New(rand.NewPCG(seed, 7))
	panel := make([]wired, n)
	for i := range panel {
		panel[i] = wired{watts: math.Round(5 + 1500*r.Float64()*r.Float64()), pf: math.Round(60+40*r.Float64()) / 100, count: 1, leg: "auto", partner: -1}
	}
	return panel
}

// Every split of twenty circuits, in Gray code so that it takes a moment only.
func TestWork_TwentyCircuitsAgainstEverySplit(t *testing.T) {
	for seed := range uint64(4) {
		panel := randomKept(20, seed)
		var legs [2]complex128
		moves := make([]complex128, len(panel)-1) // the last stays on B
		for i, c := range panel {
			legs[1] += c.unit()
			if i < len(moves) {
				moves[i] = c.unit()
			}
		}
		want := math.Inf(1)
		for code, flip := 1, 0; flip < len(moves); code++ {
			want = min(want, max(cmplx.Abs(legs[0]), cmplx.Abs(legs[1])))
			for flip = 0; code>>flip&1 == 0; flip++ {
			}
			if flip < len(moves) {
				legs[0], legs[1], moves[flip] = legs[0]+moves[flip], legs[1]-moves[flip], -moves[flip]
			}
		}
		got := loads.Work(panelHome(t, panel)).Legs
		assert.InEpsilon(t, want, float64(got.Heaviest), 2.1e-6)
		assert.True(t, got.Proven)
	}
}

// Partners of a multiwire circuit given the same leg are refused, and so is a third.
func TestRead_PairsOnOneLegAreRefused(t *testing.T) {
	_, err := home.Read([]byte("holdover: 1\ncircuits:\n  - {name: A, running: 1 W, leg: A, shares_neutral_with: B}\n  - {name: B, running: 1 W, leg: A}\n"), "x")
	require.ErrorContains(t, err, "opposite legs")
	_, err = home.Read([]byte("holdover: 1\ncircuits:\n  - {name: A, running: 1 W, shares_neutral_with: B}\n  - {name: B, running: 1 W}\n  - {name: C, running: 1 W, shares_neutral_with: B}\n"), "x")
	require.ErrorContains(t, err, "third")
}

// Poor legs give a list of moves, which leads to what it promises.
func TestMoves_LeadToTheBestSplit(t *testing.T) {
	var proposed int
	rapid.Check(t, func(t *rapid.T) {
		panel := anyPanel(t, 9)
		for i := range panel {
			if panel[i].partner < 0 && !panel[i].is240 && rapid.Bool().Draw(t, "is given") {
				panel[i].leg = rapid.SampledFrom([]string{"A", "A", "B"}).Draw(t, "given")
			}
		}
		split := loads.Work(panelHome(t, panel)).Legs
		if len(split.Moves) == 0 {
			return
		}
		proposed++
		for i := range panel {
			if slices.Contains(split.Moves, fmt.Sprintf("C%d", i)) {
				panel[i].leg = map[string]string{"A": "B", "B": "A"}[panel[i].leg]
			}
		}
		if got := loads.Work(panelHome(t, panel)).Legs; math.Abs(float64(got.Heaviest-split.Better)) > 4.2e-6*float64(split.Better) || split.Better >= split.Heaviest {
			t.Errorf("%v moved, %v promised, %v before\n%s", got.Heaviest, split.Better, split.Heaviest, panelText(panel))
		}
	})
	assert.NotZero(t, proposed)
}

// A rotated circuit that is harmless where it is stays there.
func TestMoves_LeaveWhatDoesNoHarm(t *testing.T) {
	circuit := func(watts float64, rotates bool, leg string) wired {
		return wired{watts: watts, pf: 1, count: 1, rotates: rotates, leg: leg, partner: -1}
	}
	panel := []wired{circuit(1000, false, "A"), circuit(1000, false, "A"), circuit(100, false, "B"), circuit(1000, true, "A"), circuit(50, true, "B")}
	split := loads.Work(panelHome(t, panel)).Legs
	assert.InDelta(t, 2000, float64(split.Better), 1e-9, "1000 and the one that takes turns, against 1000 and 100, with 50 on either")
	assert.Len(t, split.Moves, 1)
	assert.NotContains(t, split.Moves, "C4")
	assert.InDelta(t, 2900.0/120, float64(split.Neutral), 1e-9, "3000 on A, 100 on B")
}

func BenchmarkLegSplit60(b *testing.B) {
	house := panelHome(b, randomKept(60, 1))
	b.ReportAllocs()
	for b.Loop() {
		loads.Work(house)
	}
}
