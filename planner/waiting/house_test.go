package waiting

import (
	"math"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/integrate/quad"
	"gopkg.in/yaml.v3"
	"pgregory.net/rapid"

	"holdover/loads/units"
)

func steady(c units.Celsius) (day [24]units.Celsius) {
	for h := range day {
		day[h] = c
	}
	return day
}

// The cases of testdata/published/cooldown.yaml.
func TestHouse_PublishedCoolDown(t *testing.T) {
	var file struct {
		Tolerance float64 `yaml:"tolerance_h"`
		Cases     []struct{ Capacity, Loss, Gains, Indoors, Outdoors, Level, Hours float64 }
	}
	text, err := os.ReadFile("../../testdata/published/cooldown.yaml")
	require.NoError(t, err)
	require.NoError(t, yaml.Unmarshal(text, &file))
	require.Len(t, file.Cases, 3)
	for _, c := range file.Cases {
		h := House{units.WattHoursPerKelvin(c.Capacity), units.WattsPerKelvin(c.Loss), units.Watts(c.Gains), units.Celsius(c.Indoors)}
		got, falls := h.HoursTo(units.Celsius(c.Level), steady(units.Celsius(c.Outdoors)), 18)
		assert.True(t, falls)
		assert.InDelta(t, c.Hours, float64(got), file.Tolerance)
	}
}

// Another road: the time is the integral of C/(loss·(T − outdoors) − gains) over the fall, by gonum's Gauss-Legendre rule.
func TestHouse_AgainstGonumsIntegrator(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		h := House{units.WattHoursPerKelvin(rapid.Float64Range(1000, 30000).Draw(r, "capacity")), units.WattsPerKelvin(rapid.Float64Range(50, 500).Draw(r, "loss")),
			units.Watts(rapid.Float64Range(0, 800).Draw(r, "gains")), 20}
		outdoors, level := rapid.Float64Range(-30, 5).Draw(r, "outdoors"), rapid.Float64Range(0, 19).Draw(r, "level")
		got, falls := h.HoursTo(units.Celsius(level), steady(units.Celsius(outdoors)), units.Hours(rapid.Float64Range(0, 24).Draw(r, "start")))
		end := float64(h.RunsTo(units.Celsius(outdoors)))
		if end >= level-0.5 { // near its end it takes without end
			assert.True(r, !falls || end < level)
			return
		}
		rate := func(t float64) float64 {
			return float64(h.Capacity) / (float64(h.Loss)*(t-outdoors) - float64(h.Gains))
		}
		want := quad.Fixed(rate, level, 20, 200, quad.Legendre{}, 0)
		require.Equal(r, want <= float64(followed), falls)
		if falls {
			assert.InEpsilon(r, want, float64(got), 1e-6)
		}
	})
}

// A day that swings, against small steps of Euler.
func TestHouse_ThroughASwingingDay(t *testing.T) {
	var day [24]units.Celsius
	for i := range day {
		day[i] = units.Celsius(-8 + 6*math.Sin(float64(i)/24*2*math.Pi))
	}
	h := House{6000, 250, 200, 21}
	for _, level := range []units.Celsius{10, 4, 0} {
		got, falls := h.HoursTo(level, day, 17.5)
		require.True(t, falls)
		const step = 1e-4
		temp, at := 21.0, 0.0
		for ; temp > float64(level); at += step {
			outdoors := float64(day[int(math.Mod(17.5+at+1e-12, 24))])
			temp += step * (200 - 250*(temp-outdoors)) / 6000
		}
		assert.InDelta(t, at, float64(got), 0.01, level)
	}
	_, falls := House{6000, 250, 8000, 21}.HoursTo(10, day, 0)
	assert.False(t, falls, "with 8 kW of gains it never does")
}
