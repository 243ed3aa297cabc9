package main

import (
	"context"
	"strings"

	"github.com/spf13/cobra"

	"holdover/loads"
	"holdover/planner"
	"holdover/profiles"
	"holdover/ui/screens"
)

const (
	demoName  = "demo home"
	stdinName = "standard input"
)

// readHome reads the home file that the arguments name: "-" is standard input, none is the built-in demo home.
func readHome(t terminal, args []string) (*loads.Home, error) {
	switch {
	case len(args) == 0:
		return loads.Read(profiles.Demo(), demoName)
	case args[0] == "-":
		text, err := loads.TextFrom(t.in, stdinName)
		if err != nil {
			return nil, err
		}
		return loads.Read(text, stdinName)
	}
	home, err := loads.ReadFile(args[0])
	if err != nil && screens.Begins(args[0]) {
		return nil, notBegun{err, args[0]}
	}
	return home, err
}

// planHome reads a home and works out as much of its plan as is wanted.
func planHome(ctx context.Context, t terminal, args []string, want planner.Want) (*planner.Result, error) {
	home, err := readHome(t, args)
	if err != nil {
		return nil, err
	}
	return planner.Plan(ctx, home, want)
}

// isHomeFile says whether an argument is meant as a home file and not as a verb, a figure or a name.
func isHomeFile(arg string) bool {
	return arg == "-" || strings.HasSuffix(arg, ".yaml") || strings.HasSuffix(arg, ".yml") || strings.ContainsAny(arg, `/\`)
}

// completeFile completes to home files.
func completeFile(_ *cobra.Command, args []string, _ string) ([]cobra.Completion, cobra.ShellCompDirective) {
	if len(args) > 0 {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	return []cobra.Completion{"yaml", "yml"}, cobra.ShellCompDirectiveFilterFileExt
}
