package main

import (
	"slices"

	"holdover/loads/home"
	"holdover/profiles"
	"holdover/ui/document"
)

// factTables are the tables beside the circuits, by the name that the profiles verb takes.
var factTables = []struct {
	name  string
	facts func() []document.Fact
}{
	{"chemistries", func() []document.Fact { return facts(profiles.Chemistries()) }},
	{"engines", func() []document.Fact { return facts(profiles.Engines()) }},
	{"fuels", func() []document.Fact { return facts(profiles.Fuels()) }},
	{"cautions", func() []document.Fact {
		cautions := profiles.Cautions()
		for i, c := range cautions { // some cite the wiring code
			cautions[i] = profiles.UsualCode(string(home.SplitPhase)).Caution(c)
		}
		return facts(cautions)
	}},
	{"everyday", func() []document.Fact {
		table := profiles.EverydayInput()
		return facts(slices.Concat(table.Units, table.Words))
	}},
	{"defaults", func() []document.Fact { return facts(profiles.Defaults()) }},
}

func tableNames() []string {
	var names []string
	for _, table := range factTables {
		names = append(names, table.name)
	}
	return names
}

func circuitFacts(group string) []document.Fact {
	return facts(slices.DeleteFunc(profiles.Circuits(), func(c profiles.Circuit) bool { return c.Group != group }))
}

func facts[T interface{ Label() (name, title string) }](entries []T) []document.Fact {
	out := make([]document.Fact, len(entries))
	for i, entry := range entries {
		name, title := entry.Label()
		out[i] = document.Fact{Name: name, Title: title, Entry: entry}
	}
	return out
}
