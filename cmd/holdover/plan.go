package main

import (
	"context"
	"io"

	"github.com/spf13/cobra"

	"holdover/planner"
	"holdover/ui/document"
	"holdover/ui/json"
	layout "holdover/ui/text"
)

type planFlags struct {
	documentFlags
	against, part string
}

// defaultWidth is what any terminal and most mail shows, in columns.
const defaultWidth = 80

func newPlan(t terminal) *cobra.Command {
	flags := planFlags{documentFlags: documentFlags{width: defaultWidth}}
	c := &cobra.Command{
		Use:   "plan [FILE]",
		Short: "The verdict with its reasons, figures and cautions",
		Example: `  holdover plan                        the demo home
  holdover plan myhouse.yaml           your own
  holdover plan --json myhouse.yaml    for another program
  holdover plan - < myhouse.yaml       from standard input
  holdover plan myhouse.yaml --against without-furnace.yaml   two homes side by side
  holdover plan myhouse.yaml --against battery                the choice against another option
  holdover plan myhouse.yaml --part cautions                  one part of it
  holdover plan myhouse.yaml --table circuits > circuits.csv  one table, for a spreadsheet`,
		Args:                  fileOnly,
		ValidArgsFunction:     completeFile,
		DisableFlagsInUseLine: true,
		RunE: func(c *cobra.Command, args []string) error {
			if flags.against != "" {
				return printAgainst(c.Context(), t, args, flags)
			}
			return printPlan(c.Context(), t, args, flags)
		},
	}
	c.Flags().StringVar(&flags.against, "against", "", "set a second home `FILE`, or battery, generator or hybrid, beside it")
	c.Flags().StringVar(&flags.part, "part", "", "say the part of this `name` alone, such as options or cautions")
	c.Flags().BoolVar(&flags.ascii, "ascii", false, "draw the picture of the run in ASCII")
	c.RegisterFlagCompletionFunc("against", completeAgainst)
	c.Flags().BoolVar(&flags.json, "json", false, "write JSON; keys are added over time, never renamed")
	addWidth(c, &flags.width)
	addTables(c, &flags.documentFlags)
	c.MarkFlagsMutuallyExclusive("against", "part")
	c.MarkFlagsMutuallyExclusive("json", "part")
	c.RegisterFlagCompletionFunc("part", cobra.FixedCompletions(partNames(), cobra.ShellCompDirectiveNoFileComp))
	return c
}

// addWidth adds the flag of the verbs that wrap text.
func addWidth(c *cobra.Command, width *int) {
	c.Flags().IntVar(width, "width", *width, "wrap text at so many `columns`")
	c.RegisterFlagCompletionFunc("width", cobra.NoFileCompletions)
	c.PreRunE = func(*cobra.Command, []string) error {
		if *width < layout.MinWidth {
			return misused("--width %d is too narrow; %d columns or more are wanted", *width, layout.MinWidth)
		}
		return nil
	}
}

func printPlan(ctx context.Context, t terminal, args []string, flags planFlags) error {
	said, err := partOf(flags.part)
	if err != nil {
		return err
	}
	result, err := planHome(ctx, t, args, planner.Everything())
	if err != nil {
		return err
	}
	err = flags.printEither(t, func() (string, error) { return json.Plan(result) }, func() document.Document { return said(worked(ctx, result)) })
	if err != nil {
		return err
	}
	return carried(result)
}

// worked works out what a plan says beside its verdict, for persons only: the turns can take a while.
func worked(ctx context.Context, r *planner.Result) document.Worked {
	w := document.Worked{Plan: r}
	if len(r.Demand.Loads) == 0 {
		return w
	}
	wait, warmth := planner.Wait(ctx, r), planner.Warmth(r)
	w.Wait, w.Warmth, w.Water = &wait, &warmth, planner.Heaters(r)
	if units, err := planner.Fit(r); err == nil { // else no unit is listed, or nothing is kept
		w.Units = &units
	}
	if owned, ok := planner.Owned(ctx, r); ok {
		w.Owned = &owned
	}
	return w
}

// carried is the end of a plan that is printed.
func carried(r *planner.Result) error {
	if r.Choice == planner.None && !r.Carried {
		return errNotCarried
	}
	return nil
}

func write(w io.Writer, text string) error {
	_, err := io.WriteString(w, text)
	return err
}
