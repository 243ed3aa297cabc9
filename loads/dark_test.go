package loads

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"holdover/loads/home"
	"holdover/loads/units"
)

// can_wait of 0 is read in one way: what can never wait rides through what electronics do, by the ITIC curve 20 ms, and no more.
func TestDark_OneReading(t *testing.T) {
	for needs, want := range map[string][2]units.Seconds{"can_wait: 0 h": {0.02, 0.02}, "can_wait: 0 h, gap: 10 s": {10, 10}, "gap: 10 ms": {0.01, 0.01}, "gap: 10 ms, can_wait: 1 h": {0.01, 3600}, "can_wait: 4 h": {14400, 14400}} {
		house, err := home.Read([]byte("holdover: 1\ncircuits: [{name: A, running: 1 W, needs: {"+needs+"}}]\n"), "home.yaml")
		require.NoError(t, err)
		within, most, minds := Dark(house, 0)
		assert.True(t, minds)
		assert.Equal(t, want, [2]units.Seconds{within, most}, needs)
	}
	house, err := home.Read([]byte("holdover: 1\ncircuits: [{name: A, running: 1 W}]\n"), "home.yaml")
	require.NoError(t, err)
	_, _, minds := Dark(house, 0)
	assert.False(t, minds || NeverWaits(house, 0), "nobody says so")
}
