package planner

import (
	"context"

	"holdover/loads/home"
)

// PlanAll works out everything of a home, for the tests of this package.
func PlanAll(house *home.Home) *Result {
	r, err := Plan(context.Background(), house, Everything())
	if err != nil {
		panic(err)
	}
	return r
}
