package generator_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"holdover/planner/derive"
	"holdover/planner/generator"
	"holdover/profiles"
)

// size works a generator out from the figures of a load and a site.
func size(figures map[string]float64) *derive.Figures {
	var f derive.Figures
	for id, value := range figures {
		f.Add(derive.Figure{ID: id, Value: value})
	}
	generator.Size(&f, 4)
	return &f
}

// The kVA that is asked for holds the dip exactly: X/(X + S_rated/S_start) = d, circuit theory.
func TestSize_HoldsTheDip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x, d := rapid.Float64Range(0.02, 1).Draw(t, "X"), rapid.Float64Range(0.02, 0.6).Draw(t, "d")
		worst := rapid.Float64Range(100, 1e5).Draw(t, "VA")
		f := size(map[string]float64{"load.running_w": 1, "load.running_va": 1, "load.worst_moment_w": 1, "load.worst_moment_va": worst, "assume.generator_surge": 1,
			"assume.reactance": x, "assume.allowed_dip": d, "assume.power_margin": 0, "assume.generator_power_factor": 1, "site.engine_derate": 1, "site.alternator_derate": 1})
		if dip := generator.Dip(derive.Number(x), derive.Number(1000*f.Value("generator.starting_kva")), derive.Number(worst)).Value; dip < d*(1-1e-9) || dip > d*(1+1e-9) {
			t.Errorf("dip %v, allowed %v", dip, d)
		}
	})
}

// By hand: 2310 W and 2500 VA running, 15 %, worst moment 4000 W and 6000 VA, derates 0.8 and 0.95, power factor 0.8.
func TestSize_ByHand(t *testing.T) {
	f := size(map[string]float64{"load.running_w": 2310, "load.running_va": 2500, "load.worst_moment_w": 4000, "load.worst_moment_va": 6000, "assume.generator_surge": 1.25,
		"assume.reactance": 0.2, "assume.allowed_dip": 0.25, "assume.power_margin": 0.15, "assume.generator_power_factor": 0.8, "site.engine_derate": 0.8, "site.alternator_derate": 0.95})
	for id, want := range map[string]float64{
		"generator.site_kw":      3.2, // 4000/1.25 > 2656.5
		"generator.starting_kva": 3.6, "generator.site_kva": 3.6, "generator.rated_kw": 4,
		"generator.rated_kva": 5, // 4/0.8 > 3.6/0.95
		"generator.size_kw":   4,
	} {
		assert.InDelta(t, want, f.Value(id), 1e-12, id)
	}
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
			burnt := func(hours, kWh float64) float64 {
				return generator.Fuel(&f, line, derive.Number(kw), derive.Number(hours), derive.Number(kWh)).Value
			}
			one := burnt(1, kw/2)
			assert.Positive(t, one)
			assert.InEpsilon(t, 48*one, burnt(48, 24*kw), 1e-12)
			heat := one * f.KWhPerUnit
			assert.Greater(t, heat, kw/2, "%s at %v kW gives more than it burns", f.Name, kw)
		}
	}
}
