package report

import (
	"testing"

	"github.com/stretchr/testify/require"

	"holdover/loads/home"
	"holdover/planner"
)

// planAll works out everything of a home.
func planAll(t testing.TB, house *home.Home) *planner.Result {
	t.Helper()
	r, err := planner.Plan(t.Context(), house, planner.Everything())
	require.NoError(t, err)
	return r
}
