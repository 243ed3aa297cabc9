package inverter_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"holdover/planner/inverter"
)

// The formulas of the method, by hand: 2000 VA running with 15 % and a derate of 0.9, 5400 VA in the worst moment.
func TestSize_ByHand(t *testing.T) {
	s := inverter.Size(2000, 5400, 1300, false, 0.15, 0.9)
	assert.InDelta(t, 2000*1.15/0.9, float64(s.Continuous), 1e-9)
	assert.InDelta(t, 6000, float64(s.Surge), 1e-9)
	assert.Zero(t, s.ByLeg)

	split := inverter.Size(2000, 5400, 1300, true, 0.15, 0.9)
	assert.InDelta(t, 2*1300*1.15/0.9, float64(split.ByLeg), 1e-9)
}
