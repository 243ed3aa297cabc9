package main

import (
	"context"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"holdover/planner"
	"holdover/ui/compare"
	"holdover/ui/document"
	"holdover/ui/json"
)

// kinds are the words that --against takes beside a home file.
var kinds = []string{string(planner.Battery), string(planner.Generator), string(planner.Hybrid)}

// printAgainst sets the plan of a home beside that of a second home, or its chosen option beside another of its options.
func printAgainst(ctx context.Context, t terminal, args []string, flags planFlags) error {
	first, second, err := sides(ctx, t, args, flags.against)
	if err != nil {
		return err
	}
	err = flags.printEither(t, func() (string, error) { return json.Against(first, second) }, func() document.Document { return document.Against(first, second) })
	if err != nil {
		return err
	}
	return carried(first.Result)
}

// sides reads what is to be set side by side.
func sides(ctx context.Context, t terminal, args []string, against string) (first, second compare.Side, err error) {
	isKind := slices.Contains(kinds, against)
	switch {
	case !isKind && !isHomeFile(against):
		return first, second, misused("--against %s is no home file (a name that ends in .yaml, or a path) and none of %s%s",
			against, strings.Join(kinds, ", "), meant(against, kinds, ""))
	case against == "-" && len(args) > 0 && args[0] == "-":
		return first, second, misused("both homes cannot be standard input")
	}
	result, err := planHome(ctx, t, args, planner.Everything())
	if err != nil {
		return first, second, err
	}
	first = compare.Chosen(result)
	if !isKind {
		other, err := planHome(ctx, t, []string{against}, planner.Everything())
		if err != nil {
			return first, second, err
		}
		return first, compare.Chosen(other), nil
	}
	kind := planner.Kind(against)
	if kind == first.Option.Kind {
		what := "is what is chosen here already"
		if result.Choice == planner.None {
			what = "comes nearest here, where nothing is chosen"
		}
		return first, second, misused("a %s %s; set another of %s against it", kind, what, strings.Join(kinds, ", "))
	}
	option, _ := result.Option(kind)
	return first, compare.Side{Result: result, Option: option}, nil
}

// completeAgainst completes to the kinds of option, and to home files.
func completeAgainst(*cobra.Command, []string, string) ([]cobra.Completion, cobra.ShellCompDirective) {
	return kinds, cobra.ShellCompDirectiveDefault
}
