package battery_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"holdover/loads/units"
	"holdover/planner/battery"
	"holdover/profiles"
)

// Runtime against steps of a minute.
func TestRuntime_AgainstSmallSteps(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var hourly [24]units.Watts
		for i := range hourly {
			hourly[i] = units.Watts(rapid.IntRange(1, 3000).Draw(t, "W"))
		}
		start := rapid.IntRange(0, 24*60-1).Draw(t, "start")
		usable := float64(rapid.IntRange(10, 60000).Draw(t, "Wh"))
		left, minutes := usable, 0
		for left > 0 && minutes < 365*24*60 {
			left -= (float64(hourly[(start+minutes)/60%24])/0.9 + 12) / 60
			minutes++
		}
		got := float64(battery.Runtime(units.WattHours(usable), hourly, units.Hours(start)/60, 0.9, 12))
		if want := float64(minutes) / 60; math.Abs(got-want) > 1.0/60+1e-9 {
			t.Errorf("%v h, by minutes %v", got, want)
		}
	})
}

// A battery that gives nothing away lasts a year and no longer.
func TestRuntime_IsHeldAtAYear(t *testing.T) {
	assert.Equal(t, units.Hours(8760), battery.Runtime(1, [24]units.Watts{}, 0, 0.9, 0))
}

// Every chemistry: full capacity at 25 °C, never more in the cold, finite wherever a home file may put it.
func TestTemperatureFactor_FallsWithTheCold(t *testing.T) {
	for _, c := range profiles.Chemistries() {
		at25, _ := battery.TemperatureFactor(c, 25)
		assert.InDelta(t, 1, at25, 1e-9, c.Name)
		last := 0.0
		for at := units.Celsius(-50); at <= 60; at++ {
			share, _ := battery.TemperatureFactor(c, at)
			assert.Greater(t, share, 0.0, "%s at %v", c.Name, float64(at))
			assert.GreaterOrEqual(t, share, last, "%s at %v", c.Name, float64(at))
			last = share
		}
	}
}

// A hair over a whole number is rounding, a real excess is a module more.
func TestWholeModules(t *testing.T) {
	assert.Equal(t, 3, battery.WholeModules(15000.0000001, 5000))
	assert.Equal(t, 4, battery.WholeModules(15000.1, 5000))
	assert.Equal(t, 0, battery.WholeModules(0, 5000))
}
