package planner

import (
	"context"

	"holdover/loads"
)

// PlanAll works out everything of a home, for the tests of this package.
func PlanAll(home *loads.Home) *Result {
	r, err := Plan(context.Background(), home, Everything())
	if err != nil {
		panic(err)
	}
	return r
}
