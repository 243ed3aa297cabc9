package main

import (
	"context"
	"io"

	"github.com/spf13/cobra"

	"holdover/planner"
	"holdover/ui/report"
)

type planFlags struct {
	json    bool
	ascii   bool
	width   int
	against string
}

// defaultWidth is what any terminal and most mail shows, in columns.
const defaultWidth = 80

func newPlan(t terminal) *cobra.Command {
	flags := planFlags{width: defaultWidth}
	c := &cobra.Command{
		Use:   "plan [FILE]",
		Short: "The verdict with its reasons, figures and cautions",
		Example: `  holdover plan                        the demo home
  holdover plan myhouse.yaml           your own
  holdover plan --json myhouse.yaml    for another program
  holdover plan - < myhouse.yaml       from standard input
  holdover plan myhouse.yaml --against without-furnace.yaml   two homes side by side
  holdover plan myhouse.yaml --against battery                the choice against another option`,
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
	c.Flags().BoolVar(&flags.ascii, "ascii", false, "draw the picture of the run in ASCII")
	c.RegisterFlagCompletionFunc("against", completeAgainst)
	c.Flags().BoolVar(&flags.json, "json", false, "write JSON; keys are added over time, never renamed")
	addWidth(c, &flags.width)
	return c
}

// addWidth adds the flag of the verbs that wrap text.
func addWidth(c *cobra.Command, width *int) {
	c.Flags().IntVar(width, "width", *width, "wrap text at so many `columns`")
	c.RegisterFlagCompletionFunc("width", cobra.NoFileCompletions)
	c.PreRunE = func(*cobra.Command, []string) error {
		if *width < report.MinWidth {
			return misused("--width %d is too narrow; %d columns or more are wanted", *width, report.MinWidth)
		}
		return nil
	}
}

func printPlan(ctx context.Context, t terminal, args []string, flags planFlags) error {
	result, err := planHome(ctx, t, args, planner.Everything())
	if err != nil {
		return err
	}
	text, err := planText(result, flags)
	if err != nil {
		return err
	}
	if err := write(t.out, text); err != nil {
		return err
	}
	return carried(result)
}

// planText is the plan for a machine or for a person; the turns, which can take a while, are worked out for persons only.
func planText(result *planner.Result, flags planFlags) (string, error) {
	if flags.json {
		return report.JSON(result)
	}
	glyphs := report.Blocks
	if flags.ascii {
		glyphs = report.ASCII
	}
	return report.Text(result, flags.width, glyphs), nil
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
