package json

import (
	"holdover/planner"
	"holdover/planner/transfer"
	"holdover/planner/working"
	"holdover/profiles"
)

// scopeJSON is a plan's JSON with the scope's figures among its own, the scope's cautions in place of the plan's, and what
// is no figure under "scope".
type scopeJSON struct {
	planJSON
	Cautions []planner.Caution `json:"cautions"`
	Scope    scopePart         `json:"scope"`
}

type scopePart struct {
	Mode       string               `json:"transfer"`
	Source     *transfer.Source     `json:"source"` // null where nothing carries the house
	Sources    []transfer.Source    `json:"sources"`
	Rules      []transfer.Rule      `json:"rules"`
	Panel      []transfer.Row       `json:"panel"`
	Moves      []string             `json:"moves"`
	Equipment  []transfer.Item      `json:"equipment"`
	Conductors []transfer.Conductor `json:"conductors"`
	Gas        []transfer.GasLine   `json:"gas"`
	Checks     []transfer.Check     `json:"checks"`
	Refusals   []transfer.Refusal   `json:"refusals"`
}

// Scope writes a transfer scope in the shape of a plan.
func Scope(r *planner.Result, s *transfer.Scope) (string, error) {
	out := scopeJSON{planJSON: planData(r), Cautions: each(s.Cautions, cautionOf), Scope: scopePart{Mode: s.Mode, Source: s.Source, Sources: listed(s.Sources),
		Rules: listed(s.Rules), Panel: listed(s.Panel), Moves: listed(s.Legs.Moves), Equipment: listed(s.Equipment), Conductors: listed(s.Conductors),
		Gas: listed(s.Gas), Checks: listed(s.Checks), Refusals: listed(s.Refusals)}}
	merged := &working.Sheet{}
	for _, sheet := range []*working.Sheet{r.Sheet, s.Sheet} {
		for _, f := range sheet.Figures() {
			merged.Add(f)
		}
	}
	out.Figures = merged
	return indented(out)
}

func cautionOf(c profiles.Caution) planner.Caution {
	return planner.Caution{ID: c.ID, Word: c.Word, Text: c.Text, Source: c.Source}
}
