package inverter_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"holdover/planner/derive"
	"holdover/planner/inverter"
)

// The formulas of the method, by hand: 2000 VA running with 15 % and a derate of 0.9, 5400 VA in the worst moment.
func TestSize_ByHand(t *testing.T) {
	size := func(splitPhase bool) *derive.Figures {
		var f derive.Figures
		for id, value := range map[string]float64{"load.running_va": 2000, "load.worst_moment_va": 5400, "load.heavier_leg_va": 1300, "load.start_seconds": 1,
			"assume.power_margin": 0.15, "site.inverter_derate": 0.9} {
			f.Add(derive.Figure{ID: id, Value: value})
		}
		inverter.Size(&f, splitPhase, 3000)
		return &f
	}
	s := size(false)
	assert.InDelta(t, 2000*1.15/0.9, s.Value("inverter.continuous_va"), 1e-9)
	assert.InDelta(t, 6000, s.Value("inverter.surge_va"), 1e-9)
	_, ok := s.Get("inverter.by_leg_va")
	assert.False(t, ok)
	assert.InDelta(t, 2*1300*1.15/0.9, size(true).Value("inverter.by_leg_va"), 1e-9)
}
