package main

import (
	"slices"
	"strings"

	"holdover/profiles"
	"holdover/ui/report"
)

// factTables are the tables beside the circuits, by the name that the profiles verb takes.
var factTables = []struct {
	name  string
	facts func() []report.Fact
}{
	{"chemistries", func() []report.Fact {
		return facts(profiles.Chemistries(), profiles.Chemistry.Label)
	}},
	{"engines", func() []report.Fact {
		return facts(profiles.Engines(), profiles.Engine.Label)
	}},
	{"fuels", func() []report.Fact {
		return facts(profiles.Fuels(), profiles.Fuel.Label)
	}},
	{"cautions", func() []report.Fact {
		return facts(profiles.Cautions(), func(c profiles.Caution) (string, string) { return c.ID, c.Word + ": " + c.Text })
	}},
	{"everyday", func() []report.Fact {
		table := profiles.EverydayInput()
		return facts(slices.Concat(table.Units, table.Words), func(s profiles.Synonyms) (string, string) {
			return s.Means, "also " + strings.Join(s.Words, ", ")
		})
	}},
	{"defaults", func() []report.Fact {
		return facts(profiles.Defaults(), func(d profiles.Default) (string, string) { return d.Key, d.Meaning })
	}},
}

func tableNames() []string {
	var names []string
	for _, table := range factTables {
		names = append(names, table.name)
	}
	return names
}

func circuitFacts(group string) []report.Fact {
	var out []report.Fact
	for _, c := range profiles.Circuits() {
		if c.Group == group {
			out = append(out, report.Fact{Name: c.Name, Title: c.Title, Entry: c})
		}
	}
	return out
}

func facts[T any](entries []T, label func(T) (name, title string)) []report.Fact {
	out := make([]report.Fact, len(entries))
	for i, entry := range entries {
		name, title := label(entry)
		out[i] = report.Fact{Name: name, Title: title, Entry: entry}
	}
	return out
}
