package inverter_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"holdover/loads/units"
	"holdover/planner/inverter"
	"holdover/profiles"
)

// The formulas of the method, by hand: 2000 VA running with 15 % and a derate of 0.9, 5400 VA in the worst moment.
func TestSize_ByHand(t *testing.T) {
	s := inverter.Size(2000, 5400, 1300, false, 0.15, 0.9, 2)
	assert.InDelta(t, 2000*1.15/0.9, float64(s.Continuous), 1e-9)
	assert.InDelta(t, 6000, float64(s.Surge), 1e-9)
	assert.Zero(t, s.ByLeg)
	assert.Equal(t, units.VoltAmps(3000), s.Made, "the surge asks 6000 / 2")

	split := inverter.Size(2000, 5400, 1300, true, 0.15, 0.9, 2)
	assert.InDelta(t, 2*1300*1.15/0.9, float64(split.ByLeg), 1e-9)
	assert.Equal(t, units.VoltAmps(3500), split.Made, "3322 VA by the heavier leg")
}

func TestNextMade_IsTheSmallestThatGives(t *testing.T) {
	sizes := profiles.InverterSizesVA()
	for i, size := range sizes {
		assert.Equal(t, units.VoltAmps(size), inverter.NextMade(units.VoltAmps(size)))
		if i > 0 {
			assert.Equal(t, units.VoltAmps(size), inverter.NextMade(units.VoltAmps(sizes[i-1]+1)))
		}
	}
	assert.Zero(t, inverter.NextMade(units.VoltAmps(sizes[len(sizes)-1]+1)))
}
