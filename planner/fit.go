package planner

import (
	"context"
	"strings"

	"holdover/planner/derive"
	"holdover/planner/effort"
	"holdover/planner/heat"
	"holdover/planner/sheet"
	"holdover/planner/waiting"
)

// Fit holds the spec sheets under `gear` to the duty of a plan and ranks them. It is asked for apart from [Plan], which most
// calls make without it. The error says that there is no unit, or that no circuit is kept.
func Fit(r *Result) (sheet.Report, error) { return r.duty.Rank(r.Home.Gear) }

// A Checked is one sheet of a design held to its part of the duty.
type Checked struct {
	Sheet    sheet.Sheet
	Part     sheet.Part
	Findings []sheet.Finding
	Figures  *derive.Figures
}

// Checks holds each sheet of an option's design to its part.
func (r *Result) Checks(o Option) (all []Checked) {
	placed := r.Sheets(o)
	for _, p := range placed {
		findings, figures := r.duty.Check(p.Sheet, p.Place)
		all = append(all, Checked{p.Sheet, p.Part, findings, figures})
	}
	return all
}

// A Placed is one sheet of a design with its place in it.
type Placed struct {
	sheet.Sheet
	sheet.Place
}

// Sheets lists the sheets that an option's design is made of: inverter, battery, generator.
func (r *Result) Sheets(o Option) (all []Placed) {
	d := o.Outcome.Design
	var engine *sheet.Sheet
	if d.Machine != nil {
		engine = &d.Machine.Sheet
	}
	if d.Modules == 0 {
		if engine != nil {
			all = append(all, Placed{*engine, sheet.Place{Part: sheet.House}})
		}
		return all
	}
	inverter, cells := sheet.InverterOf(r.duty.Home, d.InverterVA), sheet.BatteryOf(r.duty.Home, d.Modules)
	all = append(all, Placed{inverter, sheet.Place{Part: sheet.House, Battery: &cells, Beside: engine}},
		Placed{cells, sheet.Place{Part: sheet.House, Inverter: &inverter, Beside: engine}})
	if engine != nil {
		all = append(all, Placed{*engine, sheet.Place{Part: sheet.Charging, Inverter: &inverter, Battery: &cells}})
	}
	return all
}

// Wait works out how long each thing can be without supply, when the house gets cold, and the turns of the circuits that share,
// which a plan with a choice has already. Like [Fit] it is asked for apart from [Plan].
func Wait(ctx context.Context, r *Result) waiting.Plan {
	turns := r.Turns
	if !r.Has.Choice {
		turns = r.duty.Turns(effort.New(ctx, waiting.Looks))
	}
	return waiting.Work(r.Home, &r.Demand, turns)
}

// Heaters says what each water heater needs in the outage, and Warmth what heat the house loses.
func Heaters(r *Result) []heat.Need { return heat.Water(r.Home, &r.Demand) }

// Warmth is the heat that the house loses over the outage.
func Warmth(r *Result) heat.Loss { return heat.Space(r.Home, &r.Demand) }

// Aside finds a figure of what is worked out apart from the plan: the ids that begin with waiting, turns or heat, with what they
// take from the home that it does not give, and those of the transfer scope.
func Aside(r *Result, id string) (derive.Figure, bool) {
	switch part, _, _ := strings.Cut(id, "."); part {
	case "waiting", "turns", "home":
		return Wait(context.Background(), r).Sheet.Get(id)
	case "heat":
		return Warmth(r).Sheet.Get(id)
	}
	return Scope(r).Sheet.Get(id)
}
