package profiles

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// NEC Table 310.16, the 75 °C column of 14 to 1 AWG as a trade page reprints it, copper and aluminium.
func TestNEC310_16_At75C(t *testing.T) {
	for size, want := range map[string][2]float64{"14": {20, 0}, "12": {25, 20}, "10": {35, 30}, "8": {50, 40}, "6": {65, 50},
		"4": {85, 65}, "3": {100, 75}, "2": {115, 90}, "1": {130, 100}, "2/0": {175, 135}} {
		c, ok := nec2020.Wire().Find(size)
		require.True(t, ok, size)
		assert.Equal(t, want, [2]float64{c.Copper.Amps[75], c.Aluminium.Amps[75]}, size)
	}
}

// Thicker wire and better insulation carry more, copper more than aluminium, and thicker wire resists less.
func TestConductorsRise(t *testing.T) {
	all := nec2020.Wire().Conductors
	for i, c := range all {
		assert.True(t, c.Copper.Amps[60] < c.Copper.Amps[75] && c.Copper.Amps[75] < c.Copper.Amps[90], c.Size)
		if c.Aluminium.Amps[75] > 0 {
			assert.True(t, c.Aluminium.Amps[60] < c.Aluminium.Amps[75] && c.Aluminium.Amps[75] < c.Aluminium.Amps[90], c.Size)
			assert.Less(t, c.Aluminium.Amps[75], c.Copper.Amps[75], c.Size)
		}
		if i == 0 {
			continue
		}
		thinner := all[i-1]
		assert.Greater(t, c.CircularMils, thinner.CircularMils, c.Size)
		for _, pair := range [][2]float64{{thinner.Copper.Amps[60], c.Copper.Amps[60]}, {thinner.Copper.Amps[75], c.Copper.Amps[75]}, {thinner.Copper.Amps[90], c.Copper.Amps[90]},
			{thinner.Aluminium.Amps[60], c.Aluminium.Amps[60]}, {thinner.Aluminium.Amps[75], c.Aluminium.Amps[75]}, {thinner.Aluminium.Amps[90], c.Aluminium.Amps[90]},
			{c.Copper.OhmKft, thinner.Copper.OhmKft}, {c.Aluminium.OhmKft, thinner.Aluminium.OhmKft}} {
			assert.Less(t, pair[0], pair[1], c.Size)
		}
	}
}

// NEC Chapter 9 Table 8 against physics: resistance times area is the metal's alone, about 12.9 Ω·cmil/ft for copper and
// 21.2 for aluminium at 75 °C (the K of voltage-drop practice, from memory), within 1.5 % for stranded wire.
func TestNECChapter9Table8_ResistanceTimesArea(t *testing.T) {
	for _, c := range nec2020.Wire().Conductors {
		assert.InEpsilon(t, 12.9, c.Copper.OhmKft/1000*c.CircularMils, 0.015, c.Size)
		assert.InEpsilon(t, 21.2, c.Aluminium.OhmKft/1000*c.CircularMils, 0.015, c.Size)
	}
}

// NEC 310.15(B)(1): factor = √((Tc − Ta)/(Tc − 30)), Ta the band's upper end; the table rounds to 0.01, two rows by
// a little more.
func TestNEC310_15B1_AmbientCorrectionAgainstItsEquation(t *testing.T) {
	rows := nec2020.Wire().Ambient
	for i, r := range rows {
		if i > 0 {
			assert.Equal(t, rows[i-1].ToC, r.FromC, "a gap")
		}
		for insulationC, got := range r.Factors {
			if got == 0 {
				assert.LessOrEqual(t, insulationC, r.ToC)
				continue
			}
			assert.InDelta(t, math.Sqrt((insulationC-r.ToC)/(insulationC-30)), got, 0.0075, "%v °C at %v °C", insulationC, r.ToC)
		}
	}
}

// NEC 310.12: the wire of a dwelling service carries at least 83 % of its rating at 75 °C (Table 310.16), and the next
// thinner one does not.
func TestNEC310_12_ServicesAgainst83Percent(t *testing.T) {
	all := nec2020.Wire().Conductors
	for _, s := range nec2020.Wire().Services {
		for metal, size := range map[string]string{"copper": s.Copper, "aluminium": s.Aluminium} {
			index := -1
			for i, c := range all {
				if c.Size == size {
					index = i
				}
			}
			require.Positive(t, index, size)
			amps := func(c Conductor) float64 {
				if metal == "copper" {
					return c.Copper.Amps[75]
				}
				return c.Aluminium.Amps[75]
			}
			assert.GreaterOrEqual(t, amps(all[index]), 0.83*s.RatingA, "%v A %s", s.RatingA, metal)
			assert.Less(t, amps(all[index-1]), 0.83*s.RatingA, "%v A %s is thicker than it need be", s.RatingA, metal)
		}
	}
}

// NEC 240.4(D), copper as reprinted, aluminium from memory.
func TestNEC240_4D_SmallWire(t *testing.T) {
	for size, want := range map[string][2]float64{"14": {15, 0}, "12": {20, 15}, "10": {30, 25}, "8": {0, 0}} {
		c, _ := nec2020.Wire().Find(size)
		assert.Equal(t, want, [2]float64{c.Copper.LimitA, c.Aluminium.LimitA}, size)
	}
}

// NEC Table 250.122, typed a second time, from memory; every size is one of the wire table's or 12 aluminium.
func TestNEC250_122_Grounds(t *testing.T) {
	want := []Ground{{15, "14", "12"}, {20, "12", "10"}, {60, "10", "8"}, {100, "8", "6"}, {200, "6", "4"}, {300, "4", "2"},
		{400, "3", "1"}, {500, "2", "1/0"}, {600, "1", "2/0"}}
	assert.Equal(t, want, nec2020.Wire().Grounds)
	for _, g := range nec2020.Wire().Grounds {
		_, ok := nec2020.Wire().Find(g.Copper)
		assert.True(t, ok, g.Copper)
		_, ok = nec2020.Wire().Find(g.Aluminium)
		assert.True(t, ok, g.Aluminium)
	}
}
