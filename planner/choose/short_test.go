package choose

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// A battery that is empty stays empty however long the outage goes on; what comes back with each day's sun is not.
func TestStretches_EmptyStaysEmpty(t *testing.T) {
	const text = `holdover: 1
home: {name: Small, service: 120 V}
outage: {length: 10 h, start: "18:00"}
limits: {generator: none, battery_place: outdoors}
circuits:
  - {name: All, care: keep, volts: 120 V, running: 500 W}
`
	lasting := func(text string) (to []float64) {
		c := caseOf(t, text)
		best, ok := c.Best(Battery)
		require.True(t, ok)
		for _, stretches := range c.Stretches(best.Design, c.Long()) {
			require.NotEmpty(t, stretches)
			to = append(to, stretches[len(stretches)-1].To)
		}
		return to
	}
	for _, to := range lasting(text) {
		require.True(t, math.IsInf(to, 1), "%v", to)
	}
	for _, to := range lasting("site: {sun: {kwh_per_day: 9}}\n" + text) {
		require.LessOrEqual(t, to, float64(longOutageH))
	}
}
