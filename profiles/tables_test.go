package profiles

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// IEEE 485 Table 1, typed a second time, from memory: °F and cell-size factor.
func TestIEEE485_CellSizeFactors(t *testing.T) {
	want := []PointF{{25, 1.520}, {30, 1.430}, {35, 1.350}, {40, 1.300}, {45, 1.250}, {50, 1.190}, {55, 1.150}, {60, 1.110},
		{65, 1.080}, {70, 1.040}, {75, 1.011}, {77, 1.000}, {80, 0.980}, {85, 0.960}, {90, 0.940}, {95, 0.930}, {100, 0.910},
		{105, 0.890}, {110, 0.880}, {115, 0.870}, {120, 0.860}, {125, 0.850}}
	for _, name := range []ChemistryName{"flooded", "agm"} {
		c, ok := FindChemistry(name)
		require.True(t, ok, name)
		assert.Equal(t, want, c.CellSizeFactors, name)
		assert.Empty(t, c.CapacityShares, name)
	}
}

// Makers' pages for lithium iron phosphate, which disagree among themselves: about 80 % at 0 °C, 70 % at -20 °C.
func TestLithiumCapacityShares(t *testing.T) {
	c, ok := FindChemistry("lfp")
	require.True(t, ok)
	for celsius, share := range map[float64]float64{25: 1, 0: 0.8, -20: 0.7} {
		assert.Contains(t, c.CapacityShares, PointC{celsius, share})
	}
	assert.Zero(t, c.ChargeMinC)
	assert.Equal(t, 45.0, c.ChargeMaxC)
}

func TestChemistriesAreSound(t *testing.T) {
	for _, c := range Chemistries() {
		assert.NotEmpty(t, c.Source, c.Name)
		for what, share := range map[string]float64{"depth": c.DepthOfDischarge, "end of life": c.CapacityAtEndOfLife,
			"round trip": c.RoundTripEfficiency, "discharge": c.DischargePerHour, "charge": c.ChargePerHour} {
			assert.True(t, share > 0 && share <= 1, "%s: %s %v", c.Name, what, share)
		}
		assert.True(t, c.Peukert >= 1 && c.Peukert < 1.5, c.Name)
		assert.Positive(t, c.RatedHours, c.Name)
		assert.Positive(t, c.LifeYears, c.Name)
		assert.Positive(t, c.CycleLife, c.Name)
		assert.Positive(t, c.NominalCellV, c.Name)
		assert.Less(t, c.ChargeMinC, c.ChargeMaxC, c.Name)
		assert.Less(t, c.DischargeMinC, c.DischargeMaxC, c.Name)
		assert.True(t, slices.IsSortedFunc(c.CapacityShares, func(a, b PointC) int { return int(a.Celsius - b.Celsius) }), c.Name)
		assert.True(t, slices.IsSortedFunc(c.CapacityShares, func(a, b PointC) int { return int(100*a.Share - 100*b.Share) }), c.Name)
		assert.NotEqual(t, len(c.CellSizeFactors) == 0, len(c.CapacityShares) == 0, "%s: one table of the two", c.Name)
	}
}

// ISO 3046-1, typed a second time: a, m, n, q. Two rows as reprinted in a course exercise, five from memory.
func TestISO3046_Exponents(t *testing.T) {
	want := map[EngineName][4]float64{
		"diesel-natural-air-limited": {1, 1, 0.75, 0}, "diesel-natural-heat-limited": {0, 1, 1, 0}, "diesel-turbo": {0, 0.7, 2, 0},
		"diesel-turbo-cooled": {0, 0.7, 1.2, 1}, "spark-gas-natural": {1, 0.86, 0.55, 0},
		"spark-gas-turbo-cooled": {0, 0.57, 0.55, 1.75}, "spark-liquid-natural": {1, 1, 0.5, 0},
	}
	for name, exponents := range want {
		e, ok := FindEngine(name)
		require.True(t, ok, name)
		assert.Equal(t, exponents, [4]float64{e.A, e.M, e.N, e.Q}, name)
	}
}

// ASHRAE Handbook, Fundamentals, 2009 and later, hours 1 to 24, typed a second time, from memory.
func TestASHRAE_HourlyRangeFractions(t *testing.T) {
	hours1to24 := []float64{.88, .92, .95, .98, 1, .98, .91, .74, .55, .38, .23, .13, .05, 0, 0, .06, .14, .24, .39, .50, .59, .68, .75, .82}
	got := HourlyRangeFractions()
	sum := 0.0
	for i, want := range hours1to24 {
		assert.Equal(t, want, got[(i+1)%24], "hour %d", i+1)
		sum += got[i]
	}
	assert.InDelta(t, 12.87, sum, 1e-9)
	assert.Equal(t, 1.0, got[5], "coldest at 5")
	assert.Zero(t, got[14], "hottest at 14")
}

// The sizes that the method chooses from.
func TestGeneratorSizes(t *testing.T) {
	assert.Equal(t, []float64{1, 1.6, 2, 2.2, 3, 3.5, 4, 5, 6, 6.5, 7.5, 8, 9, 10, 11, 12, 14, 16, 18, 20, 22, 24, 26, 30, 38, 48, 60, 80,
		100, 125, 150}, GeneratorSizesKW())
}

func TestGeneratorsAreSound(t *testing.T) {
	last := 0.0
	for _, g := range Generators() {
		assert.GreaterOrEqual(t, g.KW, last)
		last = g.KW
		assert.Contains(t, []string{"portable", "inverter-portable", "standby"}, g.Kind)
		assert.Contains(t, []string{"bonded", "floating"}, g.Neutral)
		assert.True(t, g.NoiseDBA > 40 && g.NoiseDBA < 90, "%v kW", g.KW)
		assert.NotEmpty(t, g.Source)
		assert.True(t, slices.ContainsFunc(Fuels(), func(f Fuel) bool { return slices.Contains(f.Machines, g.Name) }), g.Name)
		assert.Contains(t, []string{"wound", "inverter"}, g.Alternator)
		assert.Contains(t, []string{"portable", "fixed"}, g.Place)
		assert.True(t, g.Distortion > 0 && g.Distortion < 1 && g.SurgeS > 0, "%v kW", g.KW)
	}
}

func TestSizesMadeRise(t *testing.T) {
	for name, made := range map[string][]float64{"inverters": InvertersMade().VA, "chargers": ChargerSizesKW()} {
		assert.Positive(t, made[0], name)
		for i := range made[1:] {
			assert.Less(t, made[i], made[i+1], name)
		}
	}
	assert.Equal(t, 300.0, slices.Min(InvertersMade().VA))
	assert.Equal(t, 48000.0, slices.Max(InvertersMade().VA))
	for _, source := range []string{sizesMade().Inverters.Source, sizesMade().Chargers.Source} {
		assert.NotEmpty(t, source)
	}
}

// NEC 240.6(A), typed a second time; the 10 A step came in 2023.
func TestNEC240_6A_StandardBreakers(t *testing.T) {
	want := []float64{15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100, 110, 125, 150, 175, 200, 225, 250, 300, 350, 400, 450,
		500, 600, 700, 800, 1000, 1200, 1600, 2000, 2500, 3000, 4000, 5000, 6000}
	assert.Equal(t, want, nec2020.Rule("ratings").List)
	for name, least := range map[string]float64{"nec-2017": 15, "nec-2023": 10, "nec-2026": 10} {
		assert.Equal(t, least, edition(t, name).NextRating(9), name)
	}
}
