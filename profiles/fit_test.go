package profiles

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gopkg.in/yaml.v3"
)

// published reads a file of published checks.
func published(t *testing.T, name string, into any) {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("..", "testdata", "published", name))
	require.NoError(t, err)
	require.NoError(t, yaml.Unmarshal(text, into))
}

// The points of the curve, typed a second time with their sources in testdata/published/itic.yaml.
func TestITIC_PublishedPoints(t *testing.T) {
	var file struct {
		Source string
		Points []struct {
			Share, Seconds float64
			Within         bool
		}
	}
	published(t, "itic.yaml", &file)
	require.NotEmpty(t, file.Source)
	require.Greater(t, len(file.Points), 15)
	for _, p := range file.Points {
		assert.Equal(t, p.Within, VoltageTolerance().Tolerates(p.Share, p.Seconds), "%v of nominal for %v s", p.Share, p.Seconds)
	}
	assert.Equal(t, 0.02, VoltageTolerance().Ride(0))
	assert.Equal(t, 0.5, VoltageTolerance().Ride(0.75))
}

// USDA times, typed a second time with their source in testdata/published/food.yaml.
func TestUSDA_FoodTimes(t *testing.T) {
	var file struct {
		Source                                 string
		Refrigerator, FreezerHalf, FreezerFull float64
	}
	published(t, "food.yaml", &file)
	require.NotEmpty(t, file.Source)
	f := FoodTimes()
	assert.Equal(t, [3]float64{file.Refrigerator, file.FreezerHalf, file.FreezerFull}, [3]float64{f.RefrigeratorH, f.FreezerHalfFullH, f.FreezerFullH})
	for _, name := range append(f.Refrigerators, f.Freezers...) {
		_, ok := FindCircuit(name)
		assert.True(t, ok, name)
	}
}

// Every profile of the group is a kind of heater, and no other profile is.
func TestEveryWaterHeaterHasItsKind(t *testing.T) {
	kinds := Water().Kinds
	count := 0
	for _, c := range Circuits() {
		if _, ok := kinds[c.Name]; ok || c.Group == "water-heating" {
			assert.Equal(t, "water-heating", c.Group, c.Name)
			assert.NotEmpty(t, kinds[c.Name], c.Name)
			count++
		}
	}
	assert.Len(t, kinds, count)
}

func TestTablesOfFitAreSourced(t *testing.T) {
	rules, water := Fit(), Water()
	_, safety := HoursOfSafety()
	for _, source := range []string{rules.SineDistortion.Source, rules.Volts.Source, rules.Hertz.Source, rules.BehindGenerator.Source,
		rules.Corrected.Source, rules.HertzSource, water.Day.Source, water.Shower.Source, water.Tank.Source, water.Heat.Source, safety,
		FoodTimes().Source, VoltageTolerance().Source} {
		assert.NotEmpty(t, source)
	}
	last := 100.0
	for _, l := range WarmthLevels() {
		assert.NotEmpty(t, l.Source, l.Means)
		assert.Less(t, l.C, last)
		last = l.C
	}
	for _, group := range rules.Corrected.Groups {
		assert.Contains(t, Groups(), group)
	}
}
