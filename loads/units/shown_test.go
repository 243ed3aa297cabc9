package units

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestInSystem_AndInBoth(t *testing.T) {
	for _, c := range []struct {
		value          float64
		unit           string
		us, si, inBoth string
	}{
		{35, "C", "95 °F", "35 °C", "95 °F (35 °C)"},
		{-40, "°C", "-40 °F", "-40 °C", "-40 °F (-40 °C)"},
		{10, "K", "18 °F difference", "10 K", "18 °F difference (10 K)"},
		{304.8, "m", "1,000 ft", "305 m", "1,000 ft (305 m)"},
		{3.785411784, "L", "1 gal", "3.79 L", "1 gal (3.79 L)"},
		{1, "m3", "35.3 ft³", "1 m³", "35.3 ft³ (1 m³)"},
		{9.290304, "m2", "100 ft²", "9.29 m²", "100 ft² (9.29 m²)"},
		{200, "W/K", "379 Btu/(h·°F)", "200 W/K", "379 Btu/(h·°F) (200 W/K)"},
		{2310, "W", "2,310 W", "2,310 W", "2,310 W"},
		{1, "modules", "1 module", "1 module", "1 module"},
		{0.875, "", "0.875", "0.875", "0.875"},
	} {
		assert.Equal(t, c.us, InSystem(c.value, c.unit, US))
		assert.Equal(t, c.si, InSystem(c.value, c.unit, SI))
		assert.Equal(t, c.inBoth, InBoth(c.value, c.unit, US))
	}
}

func TestPercent_NeverRoundsUpToAll(t *testing.T) {
	for share, want := range map[float64]string{1: "100 %", 0.99999: "over 99.9 %", 0.9996: "over 99.9 %", 0.998: "99.8 %", 0.5: "50 %", 0: "0 %"} {
		assert.Equal(t, want, Percent(share))
	}
	assert.Equal(t, "100 %", Percent(math.Nextafter(1, 0)))
}

func TestSpan_AndBrief(t *testing.T) {
	for h, want := range map[Hours]string{0.5: "30 min", 1.99: "119 min", 2: "2 h", 71: "71 h", 72: "3 days", 365 * 24: "a year or more"} {
		assert.Equal(t, want, Span(h))
	}
	for s, want := range map[Seconds]string{0.02: "20 ms", 1: "1 s", 119: "119 s", 120: "2 min", 7200: "2 h"} {
		assert.Equal(t, want, Brief(s))
	}
}

func TestAbout_IsRoundedToThreeFigures(t *testing.T) {
	for value, want := range map[float64]string{0: "0 USD", 27392.17: "about 27,400 USD", 15905: "about 15,900 USD", 995: "about 995 USD", 12.34: "about 12 USD"} {
		assert.Equal(t, want, About(value, "USD"))
	}
}

func TestCounted_AndSigned(t *testing.T) {
	assert.Equal(t, "1 start", Counted(1, "start"))
	assert.Equal(t, "0 starts", Counted(0, "start"))
	assert.Equal(t, "+3 W", Signed("3 W", 3))
	assert.Equal(t, "-3 W", Signed("-3 W", -3))
	assert.Equal(t, "0 W", Signed("0 W", 0))
}
