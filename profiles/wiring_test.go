package profiles

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// Every table of a transfer job says where it comes from.
func TestTablesOfATransferJobAreSourced(t *testing.T) {
	tr := Transfers()
	propane, _ := FindFuel("propane")
	for _, source := range []string{tr.Inlets.Source, tr.Panels.Source, tr.Switches.Source, tr.SingleLeg.Source, tr.Clearances.ExhaustSource, tr.Clearances.FixedSource,
		tr.Clearances.StorageSource, PipeTables().Source, propane.Cylinder.Source} {
		assert.NotEmpty(t, source)
	}
	for _, table := range PipeTables().Tables {
		assert.NotEmpty(t, table.Source, table.Title)
		for i, row := range table.Rows {
			assert.Len(t, row, 1+len(PipeTables().Sizes), table.Title)
			if i > 0 {
				assert.Greater(t, row[0], table.Rows[i-1][0], "%s: lengths rise", table.Title)
				for size := 1; size < len(row); size++ {
					assert.Less(t, row[size], table.Rows[i-1][size], "%s: a longer pipe carries less", table.Title)
				}
			}
		}
	}
	for _, item := range tr.Items {
		assert.NotEmpty(t, item.Quote, item.ID)
	}
}

// The signal words are those of ANSI Z535, the gravest come first, and no id stands in both lists.
func TestHazards(t *testing.T) {
	rank := map[string]int{"DANGER": 0, "WARNING": 1, "CAUTION": 2, "NOTICE": 3}
	last := 0
	for _, c := range Hazards() {
		assert.GreaterOrEqual(t, rank[c.Word], last, "%s: the gravest come first", c.ID)
		last = rank[c.Word]
		assert.NotEmpty(t, c.Source, c.ID)
		assert.Greater(t, len(c.Text), 60, c.ID)
		_, again := FindCaution(c.ID)
		assert.False(t, again, c.ID)
		found, ok := FindHazard(c.ID)
		assert.True(t, ok)
		assert.Equal(t, c, found)
	}
	found, ok := FindHazard("backfeed")
	assert.True(t, ok && found.Word == "DANGER")
}

// NEC Table 220.42: 3000 VA whole, to 120 000 at 35 %, the rest at 25 %, worked by hand.
func TestDemandSteps(t *testing.T) {
	for va, want := range map[float64][]float64{0: {0, 0, 0}, 2000: {2000, 0, 0}, 3000: {3000, 0, 0}, 9000: {3000, 2100, 0}, 120000: {3000, 40950, 0}, 140000: {3000, 40950, 5000}} {
		assert.InDeltaSlice(t, want, nec2020.Rule("general").Steps.Parts(va), 1e-9, "%v VA", va)
	}
}
