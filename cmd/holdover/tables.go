package main

import (
	"slices"
	"strings"

	"holdover/loads/home"
	"holdover/profiles"
	"holdover/ui/document"
)

// factTables are the tables beside the circuits, by the name that the profiles verb takes.
var factTables = []struct {
	name  string
	facts func() []document.Fact
}{
	{"chemistries", func() []document.Fact {
		return facts(profiles.Chemistries(), profiles.Chemistry.Label)
	}},
	{"engines", func() []document.Fact {
		return facts(profiles.Engines(), profiles.Engine.Label)
	}},
	{"fuels", func() []document.Fact {
		return facts(profiles.Fuels(), profiles.Fuel.Label)
	}},
	{"cautions", func() []document.Fact {
		cautions := profiles.Cautions()
		for i, c := range cautions { // some cite the wiring code
			cautions[i] = profiles.UsualCode(string(home.SplitPhase)).Caution(c)
		}
		return facts(cautions, func(c profiles.Caution) (string, string) { return c.ID, c.Word + ": " + c.Text })
	}},
	{"everyday", func() []document.Fact {
		table := profiles.EverydayInput()
		return facts(slices.Concat(table.Units, table.Words), func(s profiles.Synonyms) (string, string) {
			return s.Means, "also " + strings.Join(s.Words, ", ")
		})
	}},
	{"defaults", func() []document.Fact {
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

func circuitFacts(group string) []document.Fact {
	var out []document.Fact
	for _, c := range profiles.Circuits() {
		if c.Group == group {
			out = append(out, document.Fact{Name: c.Name, Title: c.Title, Entry: c})
		}
	}
	return out
}

func facts[T any](entries []T, label func(T) (name, title string)) []document.Fact {
	out := make([]document.Fact, len(entries))
	for i, entry := range entries {
		name, title := label(entry)
		out[i] = document.Fact{Name: name, Title: title, Entry: entry}
	}
	return out
}
