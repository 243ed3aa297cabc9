package main

import (
	"github.com/spf13/cobra"

	"holdover/loads/home"
)

func newSchema(t terminal) *cobra.Command {
	return &cobra.Command{
		Use:   "schema",
		Short: "JSON Schema of the home file, for editors",
		Long: `Save it beside the home file and make this the file's first line; an editor with
YAML support then completes keys and marks mistakes:

  # yaml-language-server: $schema=./holdover.schema.json`,
		Example:               `  holdover schema > holdover.schema.json`,
		Args:                  noArgs,
		ValidArgsFunction:     cobra.NoFileCompletions,
		DisableFlagsInUseLine: true,
		RunE: func(*cobra.Command, []string) error {
			return write(t.out, string(home.Schema()))
		},
	}
}
