package effort

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestMeter_EndsWhenItsStepsAreSpent(t *testing.T) {
	m := New(context.Background(), 10)
	m.Spend(9)
	require.False(t, m.Spent())
	m.Spend(1)
	require.True(t, m.Spent())
	require.NoError(t, m.Err(), "spent is not given up")
}

func TestMeter_EndsWithItsContext(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	m := New(ctx, 10)
	cancel()
	require.True(t, m.Spent())
	require.ErrorIs(t, m.Err(), context.Canceled)
	m.Part(0.5, func(part *Meter) { require.True(t, part.Spent()) })
}

func TestMeter_PartIsTakenOffTheWhole(t *testing.T) {
	m := New(context.Background(), 10)
	m.Part(0.4, func(part *Meter) {
		part.Spend(4)
		require.True(t, part.Spent())
	})
	require.False(t, m.Spent())
	m.Part(1, func(part *Meter) { // six are left
		part.Spend(6)
		require.True(t, part.Spent())
	})
	require.True(t, m.Spent())
}

func TestMeter_NilHasNoEnd(t *testing.T) {
	var m *Meter
	m.Spend(1 << 40)
	require.False(t, m.Spent())
	require.NoError(t, m.Err())
	m.Part(0.5, func(part *Meter) {
		part.Spend(2)
		require.False(t, part.Spent())
	})
}
