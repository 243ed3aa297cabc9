package planner_test

import (
	"reflect"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"holdover/loads/home"
	"holdover/planner"
	"holdover/profiles"
)

// One home may be planned by many at once: nothing of it, and nothing that plans share, is written to. Under -race that is
// proved; without, that all come to the same.
func TestPlan_OneHomeAtOnce(t *testing.T) {
	house, err := home.Read(profiles.Demo(), "demo home")
	require.NoError(t, err)
	type all struct{ plan, waits, scope, fits any }
	work := func() all {
		r, err := planner.Plan(t.Context(), house, planner.Everything())
		assert.NoError(t, err)
		fits, err := planner.Fit(r)
		assert.NoError(t, err)
		return all{r, planner.Wait(t.Context(), r), planner.Scope(r).Sheet, fits}
	}
	const at = 4
	var got [at]all
	var wait sync.WaitGroup
	for i := range at {
		wait.Go(func() { got[i] = work() })
	}
	wait.Wait()
	for i := range at {
		assert.True(t, reflect.DeepEqual(got[0], got[i]))
	}
}
