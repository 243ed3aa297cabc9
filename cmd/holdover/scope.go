package main

import (
	"context"

	"github.com/spf13/cobra"

	"holdover/planner"
	"holdover/ui/document"
	"holdover/ui/json"
)

func newScope(t terminal) *cobra.Command {
	flags := documentFlags{width: defaultWidth}
	c := &cobra.Command{
		Use:   "scope [FILE]",
		Short: "The transfer scope for the electrician",
		Long: `A job sheet of two sides: the calculated load, the transfer rule for each option,
the panel schedule and the wire; then equipment, gas, checks and cautions. Circuits that
stay off count towards the calculated load too: give each its nameplate and class.
The exit status is that of plan.`,
		Example: `  holdover scope                        of the demo home
  holdover scope myhouse.yaml           of your own
  holdover scope --json myhouse.yaml    for another program`,
		Args:                  fileOnly,
		ValidArgsFunction:     completeFile,
		DisableFlagsInUseLine: true,
		RunE: func(c *cobra.Command, args []string) error {
			return printScope(c.Context(), t, args, flags)
		},
	}
	c.Flags().BoolVar(&flags.json, "json", false, "write JSON, a plan's with the scope's figures and a key more")
	addWidth(c, &flags.width)
	addTables(c, &flags)
	return c
}

func printScope(ctx context.Context, t terminal, args []string, flags documentFlags) error {
	want := planner.Verdict()
	if flags.json { // which is a plan's with a key more
		want = planner.Everything()
	}
	result, err := planHome(ctx, t, args, want)
	if err != nil {
		return err
	}
	scope := planner.Scope(result)
	err = flags.printEither(t, func() (string, error) { return json.Scope(result, scope) },
		func() document.Document { return document.Scope(document.Worked{Plan: result, Scope: scope}) })
	if err != nil {
		return err
	}
	return carried(result)
}
