package planner

import (
	"fmt"
	"strings"

	"holdover/loads"
	"holdover/loads/home"
	"holdover/planner/derive"
)

// addInputs puts every value that the plan rests on on the sheet, with the line or default it came from.
func addInputs(s *derive.Figures, house *home.Home) {
	for _, in := range house.Inputs() {
		how := "given: " + in.Doc
		if in.Origin.Line == 0 {
			how = "assumed: " + in.Doc
		}
		if in.Origin.Says != "" {
			how += "; understood as " + in.Origin.Says
		}
		s.Add(derive.Figure{ID: in.Path, Value: in.Value, Word: in.Word, Unit: in.Unit, How: how, Source: house.Source(in.Path)})
	}
}

// slugs gives each load an id of its own: its name in lower case, with hyphens for all but letters and digits.
func slugs(all []loads.Load) []string {
	out := make([]string, len(all))
	taken := map[string]bool{}
	for i := range all {
		base := slug(all[i].Name)
		id := base
		for n := 2; taken[id]; n++ {
			id = fmt.Sprintf("%s-%d", base, n)
		}
		taken[id] = true
		out[i] = id
	}
	return out
}

func slug(name string) string {
	var b strings.Builder
	for _, r := range strings.ToLower(name) {
		switch {
		case r >= 'a' && r <= 'z', r >= '0' && r <= '9':
			b.WriteRune(r)
		case b.Len() > 0 && !strings.HasSuffix(b.String(), "-"):
			b.WriteByte('-')
		}
	}
	if trimmed := strings.Trim(b.String(), "-"); trimmed != "" {
		return trimmed
	}
	return "circuit"
}
