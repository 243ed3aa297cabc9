package main

import (
	"context"
	"strings"

	"github.com/spf13/cobra"

	"holdover/planner"
	"holdover/ui/document"
)

func newWhy(t terminal) *cobra.Command {
	flags, all := documentFlags{width: defaultWidth}, false
	c := &cobra.Command{
		Use:   "why [FIGURE] [FILE]",
		Short: "One figure's working, down to its inputs and their sources",
		Example: `  holdover why battery.modules                 of the demo home
  holdover why generator.size_kw myhouse.yaml  of your own
  holdover why hybrid.cost myhouse.yaml        of an option
  holdover why                                 every figure with its value
  holdover why myhouse.yaml                    every figure of your own`,
		Args:                  whyArgs,
		ValidArgsFunction:     completeFigure(t),
		DisableFlagsInUseLine: true,
		RunE: func(c *cobra.Command, args []string) error {
			if len(args) == 0 || isHomeFile(args[0]) {
				result, err := planHome(c.Context(), t, args, planner.Everything())
				if err != nil {
					return err
				}
				return flags.print(t, document.Figures(result))
			}
			return printWhy(c.Context(), t, args[0], args[1:], flags, all)
		},
	}
	c.Flags().BoolVar(&all, "all", false, "show every circuit of a long sum, not the largest only")
	addWidth(c, &flags.width)
	return c
}

// whyArgs wants the figure first, then at most one home file.
func whyArgs(c *cobra.Command, args []string) error {
	if len(args) == 2 && isHomeFile(args[0]) {
		return misused("the figure comes first, then the home file: %s %s %s", c.CommandPath(), args[1], args[0])
	}
	if len(args) > 2 {
		return misused("one figure and one home file are wanted; found %d: %s", len(args), strings.Join(args, " "))
	}
	return nil
}

func printWhy(ctx context.Context, t terminal, id string, file []string, flags documentFlags, all bool) error {
	result, err := planHome(ctx, t, file, planner.Everything())
	if err != nil {
		return err
	}
	find := document.FigureOf(result)
	if _, ok := find(id); !ok {
		return misused("there is no figure %q%s", id, meant(id, figureIDs(result), ""))
	}
	return flags.print(t, document.Why(result.Home, find, id, all))
}

// figureIDs lists the ids, those of the single circuits last: most questions are about totals.
func figureIDs(result *planner.Result) []string {
	var totals, circuits []string
	for _, f := range result.Sheet.All() {
		if strings.HasPrefix(f.ID, "circuit.") {
			circuits = append(circuits, f.ID)
		} else {
			totals = append(totals, f.ID)
		}
	}
	return append(totals, circuits...)
}

// completeFigure completes to the figures of the demo home, whose totals every home has, then to home files.
func completeFigure(t terminal) cobra.CompletionFunc {
	return func(c *cobra.Command, args []string, toComplete string) ([]cobra.Completion, cobra.ShellCompDirective) {
		if len(args) > 0 {
			return completeFile(c, args[1:], toComplete)
		}
		result, err := planHome(c.Context(), t, nil, planner.Everything())
		if err != nil {
			return nil, cobra.ShellCompDirectiveError
		}
		return figureIDs(result), cobra.ShellCompDirectiveNoFileComp
	}
}
