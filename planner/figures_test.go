package planner

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// What a design's figures come to, part by part, is what the choice reckoned it at, which goes by numbers alone.
func TestDerive_CostsAreThoseOfTheChoice(t *testing.T) {
	priced := 0
	for name, house := range homesUnderTest(t) {
		r := PlanAll(house)
		for _, o := range r.Options {
			if !o.Outcome.Real() {
				assert.Empty(t, o.Sheet.All(), name)
				continue
			}
			priced++
			cost := o.Outcome.Cost
			for id, want := range map[string]float64{"purchase": cost.Purchase, "replacement": cost.Replacement, "upkeep": cost.Upkeep, "fuel_cost": cost.Fuel, "cost": cost.Total()} {
				assert.InDelta(t, want, o.Sheet.Value(string(o.Kind)+"."+id), 1e-9*cost.Total()+1e-9, "%s, %s of the %s", name, id, o.Kind)
			}
		}
	}
	assert.Greater(t, priced, 20)
}
