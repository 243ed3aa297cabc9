package planner

import (
	"context"
	"strings"

	"holdover/planner/fit"
	"holdover/planner/heat"
	"holdover/planner/waiting"
	"holdover/planner/working"
)

// Fit checks the spec sheets under `gear` against the circuits that a plan keeps. It is asked for apart from [Plan], which most
// calls make without it. The error says that there is no unit, or that no circuit is kept.
func Fit(r *Result) (fit.Report, error) {
	return fit.Of(r.Home, fit.Request{})
}

// Wait works out how long each thing can be without supply, when the house gets cold, and the turns of the circuits that share.
// Like [Fit] it is asked for apart from [Plan].
func Wait(ctx context.Context, r *Result) waiting.Plan {
	return waiting.Work(ctx, r.Home, &r.Demand, 0)
}

// Heaters says what each water heater needs in the outage, and Warmth what heat the house loses.
func Heaters(r *Result) []heat.Need { return heat.Water(r.Home, &r.Demand) }

// Warmth is the heat that the house loses over the outage.
func Warmth(r *Result) heat.Loss { return heat.Space(r.Home, &r.Demand) }

// Aside finds a figure of what is worked out apart from the plan: the ids that begin with waiting, turns or heat, with what they
// take from the home that it does not give, and those of the transfer scope.
func Aside(r *Result, id string) (working.Figure, bool) {
	switch part, _, _ := strings.Cut(id, "."); part {
	case "waiting", "turns", "home":
		return Wait(context.Background(), r).Sheet.Get(id)
	case "heat":
		return Warmth(r).Sheet.Get(id)
	}
	return Scope(r).Sheet.Get(id)
}
