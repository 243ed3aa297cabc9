package main

import (
	"strings"

	"github.com/spf13/cobra"

	"holdover/profiles"
	"holdover/ui/document"
)

func newProfiles(t terminal) *cobra.Command {
	flags := documentFlags{width: defaultWidth}
	c := &cobra.Command{
		Use:   "profiles [NAME]",
		Short: "The built-in facts and their sources",
		Long:  "Without a NAME: every circuit by group, and the tables there are.",
		Example: `  holdover profiles                every circuit, by group
  holdover profiles refrigerator   one with all its figures and their source
  holdover profiles pumps          one group
  holdover profiles chemistries    the kinds of battery
  holdover profiles cautions       a table: ` + strings.Join(tableNames(), ", "),
		Args:                  profileArgs,
		ValidArgsFunction:     completeProfile,
		DisableFlagsInUseLine: true,
		RunE: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 {
				return flags.print(t, allCircuits())
			}
			facts, err := factsOf(args[0])
			if err != nil {
				return err
			}
			return flags.print(t, facts)
		},
	}
	addWidth(c, &flags.width)
	return c
}

func profileArgs(_ *cobra.Command, args []string) error {
	if len(args) > 1 {
		return misused("one name is wanted; found %d: %s", len(args), strings.Join(args, " "))
	}
	return nil
}

func allCircuits() (d document.Document) {
	for _, group := range profiles.Groups() {
		d = append(d, document.FactList(group, circuitFacts(group))...)
	}
	return append(d, document.FactList("other tables", []document.Fact{{Name: strings.Join(tableNames(), ", ")}})...)
}

// factsOf shows the circuit, group, table or entry of a table of that name.
func factsOf(name string) (document.Document, error) {
	if c, ok := profiles.FindCircuit(name); ok {
		return document.Facts(document.Fact{Name: c.Name, Entry: c})
	}
	if facts := circuitFacts(name); len(facts) > 0 {
		return document.FactList(name, facts), nil
	}
	for _, table := range factTables {
		facts := table.facts()
		if table.name == name {
			return document.FactList(name, facts), nil
		}
		for _, f := range facts {
			if f.Name == name {
				return document.Facts(f)
			}
		}
	}
	if facts := everydayFacts(name); len(facts) > 0 {
		return document.FactList(name, facts), nil
	}
	return nil, misused("there is no profile %q%s", name, meant(name, factNames(), ""))
}

// everydayFacts lists the circuits that a word people say stands for, such as fridge.
func everydayFacts(name string) (facts []document.Fact) {
	for _, word := range profiles.EverydayWord(strings.ToLower(name)) {
		for _, group := range profiles.Groups() {
			for _, f := range circuitFacts(group) {
				if strings.Contains(f.Name, strings.ReplaceAll(word, " ", "-")) {
					facts = append(facts, f)
				}
			}
		}
	}
	return facts
}

// factNames lists every name that the verb takes.
func factNames() []string {
	names := append(profiles.Groups(), tableNames()...)
	for _, c := range profiles.Circuits() {
		names = append(names, c.Name)
	}
	for _, table := range factTables {
		for _, f := range table.facts() {
			names = append(names, f.Name)
		}
	}
	return names
}

func completeProfile(_ *cobra.Command, args []string, _ string) ([]cobra.Completion, cobra.ShellCompDirective) {
	if len(args) > 0 {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	return factNames(), cobra.ShellCompDirectiveNoFileComp
}
