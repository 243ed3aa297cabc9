package report

import (
	"testing"

	"github.com/stretchr/testify/require"

	"holdover/loads"
	"holdover/planner"
)

// planAll works out everything of a home.
func planAll(t testing.TB, home *loads.Home) *planner.Result {
	t.Helper()
	r, err := planner.Plan(t.Context(), home, planner.Everything())
	require.NoError(t, err)
	return r
}
