package main

import (
	"slices"

	"holdover/profiles"
	"holdover/ui/report"
)

// factTables are the tables beside the circuits, by the name that the profiles verb takes.
var factTables = []struct {
	name  string
	facts func() []report.Fact
}{
	{"chemistries", func() []report.Fact { return facts(profiles.Chemistries()) }},
	{"engines", func() []report.Fact { return facts(profiles.Engines()) }},
	{"fuels", func() []report.Fact { return facts(profiles.Fuels()) }},
	{"cautions", func() []report.Fact { return facts(profiles.Cautions()) }},
	{"everyday", func() []report.Fact {
		table := profiles.EverydayInput()
		return facts(slices.Concat(table.Units, table.Words))
	}},
	{"defaults", func() []report.Fact { return facts(profiles.Defaults()) }},
}

func tableNames() []string {
	var names []string
	for _, table := range factTables {
		names = append(names, table.name)
	}
	return names
}

func circuitFacts(group string) []report.Fact {
	return facts(slices.DeleteFunc(profiles.Circuits(), func(c profiles.Circuit) bool { return c.Group != group }))
}

func facts[T interface{ Label() (name, title string) }](entries []T) []report.Fact {
	out := make([]report.Fact, len(entries))
	for i, entry := range entries {
		name, title := entry.Label()
		out[i] = report.Fact{Name: name, Title: title, Entry: entry}
	}
	return out
}
