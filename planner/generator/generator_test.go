package generator_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"holdover/loads/units"
	"holdover/planner/generator"
	"holdover/profiles"
)

// The kVA that is asked for holds the dip exactly: X/(X + S_rated/S_start) = d, circuit theory.
func TestSize_HoldsTheDip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x, d := rapid.Float64Range(0.02, 1).Draw(t, "X"), rapid.Float64Range(0.02, 0.6).Draw(t, "d")
		worst := rapid.Float64Range(100, 1e5).Draw(t, "VA")
		s := generator.Size(generator.Wanted{RunningW: 1, RunningVA: 1, WorstW: 1, WorstVA: units.VoltAmps(worst), Surge: 1, Reactance: x, Dip: d,
			PowerFactor: 1, EngineDerate: 1, AlternatorDerate: 1})
		if dip := generator.Dip(x, s.StartKVA, worst/1000); dip < d*(1-1e-9) || dip > d*(1+1e-9) {
			t.Errorf("dip %v, allowed %v", dip, d)
		}
		if s.MadeKW > 0 && generator.Dip(x, s.MadeKW, worst/1000) > d*(1+1e-9) {
			t.Errorf("the size made, %v kW, dips more than %v", s.MadeKW, d)
		}
	})
}

// By hand: 2310 W and 2500 VA running, 15 %, worst moment 4000 W and 6000 VA, derates 0.8 and 0.95, power factor 0.8.
func TestSize_ByHand(t *testing.T) {
	s := generator.Size(generator.Wanted{RunningW: 2310, WorstW: 4000, RunningVA: 2500, WorstVA: 6000, Margin: 0.15, Surge: 1.25, Reactance: 0.2, Dip: 0.25,
		PowerFactor: 0.8, EngineDerate: 0.8, AlternatorDerate: 0.95})
	assert.InDelta(t, 3.2, s.SiteKW, 1e-12) // 4000/1.25 > 2656.5
	assert.InDelta(t, 3.6, s.StartKVA, 1e-12)
	assert.InDelta(t, 3.6, s.SiteKVA, 1e-12)
	assert.InDelta(t, 4, s.RatedKW, 1e-12)
	assert.InDelta(t, 5, s.RatedKVA, 1e-12) // 4/0.8 > 3.6/0.95
}

func TestNextMade_AndNone(t *testing.T) {
	sizes := []float64{2, 4, 8}
	for _, c := range [][4]float64{{1, 1, 1, 2}, {2, 2, 1, 2}, {2.1, 0, 1, 4}, {1, 4.5, 1, 8}, {1, 4.5, 0.8, 4}, {9, 0, 1, 0}, {1, 11, 0.8, 0}} {
		assert.Equal(t, c[3], generator.NextMade(sizes, c[0], c[1], c[2]), "%v", c)
	}
}

// Twice the hours burn twice the fuel, and every size of every fuel has a line.
func TestFuel_IsLinear(t *testing.T) {
	for _, f := range profiles.Fuels() {
		for _, kw := range profiles.GeneratorSizesKW() {
			line := f.Line(kw)
			one := generator.Fuel(line, kw, 1, kw/2)
			assert.Positive(t, one)
			assert.InEpsilon(t, 48*one, generator.Fuel(line, kw, 48, 24*kw), 1e-12)
			heat := one * f.KWhPerUnit
			assert.Greater(t, heat, kw/2, "%s at %v kW gives more than it burns", f.Name, kw)
		}
	}
}
