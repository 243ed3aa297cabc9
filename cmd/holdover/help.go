package main

import (
	"github.com/spf13/cobra"
)

// newHelp is for people who ask by word: holdover help plan is holdover plan --help.
func newHelp() *cobra.Command {
	return &cobra.Command{
		Use:                   "help [VERB]",
		Short:                 "Help on a verb",
		Example:               `  holdover help plan    the same as holdover plan --help`,
		DisableFlagsInUseLine: true,
		RunE: func(c *cobra.Command, args []string) error {
			found, left, err := c.Root().Find(args)
			if err != nil || len(left) > 0 {
				return rootArgs(c.Root(), args)
			}
			found.InitDefaultHelpFlag() // else its own help alone would list -h
			return found.Help()
		},
	}
}
