package json

import (
	"holdover/planner"
	"holdover/planner/derive"
	"holdover/planner/install"
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
	Code       string              `json:"code"`         // the edition followed
	DoNotBuild []install.Check     `json:"do_not_build"` // what of the source of the job fails for good
	Mode       string              `json:"transfer"`
	Source     *install.Source     `json:"source"` // null where nothing carries the house
	Sources    []install.Source    `json:"sources"`
	Rules      []install.Rule      `json:"rules"`
	Panel      []install.Row       `json:"panel"`
	Moves      []string            `json:"moves"`
	Equipment  []install.Item      `json:"equipment"`
	Conductors []install.Conductor `json:"conductors"`
	Gas        []install.GasLine   `json:"gas"`
	Checks     []install.Check     `json:"checks"`
	Refusals   []install.Refusal   `json:"refusals"`
}

// Scope writes a transfer scope in the shape of a plan.
func Scope(r *planner.Result, s *install.Scope) (string, error) {
	out := scopeJSON{planJSON: planData(r), Cautions: each(s.Cautions, cautionOf), Scope: scopePart{Code: s.Code.Name, DoNotBuild: listed(s.DoNotBuild()), Mode: string(s.Mode), Source: s.Source, Sources: listed(s.Sources),
		Rules: listed(s.Rules), Panel: listed(s.Panel), Moves: listed(s.Legs.Moves), Equipment: listed(s.Equipment), Conductors: listed(s.Conductors),
		Gas: listed(s.Gas), Checks: listed(s.Checks), Refusals: listed(s.Refusals)}}
	merged := &derive.Figures{}
	for _, sheet := range []*derive.Figures{r.Sheet, s.Sheet} {
		for _, f := range sheet.All() {
			merged.Add(f)
		}
	}
	out.Figures = merged
	return indented(out)
}

func cautionOf(c profiles.Caution) planner.Caution {
	return planner.Caution{ID: c.ID, Word: c.Word, Text: c.Text, Source: c.Source}
}
