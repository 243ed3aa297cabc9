package main

import (
	"bytes"
	"slices"
	"strings"

	"github.com/spf13/cobra"
)

var shells = []string{"bash", "zsh", "fish", "powershell"}

func newCompletion(t terminal) *cobra.Command {
	return &cobra.Command{
		Use:   "completion SHELL",
		Short: "A script that completes verbs, figures and names in a shell",
		Example: `  source <(holdover completion bash)
  holdover completion zsh > "${fpath[1]}/_holdover"
  holdover completion fish > ~/.config/fish/completions/holdover.fish
  holdover completion powershell | Out-String | Invoke-Expression`,
		Args:                  shellArg,
		ValidArgs:             shells,
		DisableFlagsInUseLine: true,
		RunE: func(c *cobra.Command, args []string) error {
			var script bytes.Buffer
			if err := writeCompletion(c.Root(), args[0], &script); err != nil {
				return err
			}
			return write(t.out, script.String())
		},
	}
}

func shellArg(_ *cobra.Command, args []string) error {
	switch {
	case len(args) != 1:
		return misused("one shell is wanted: %s", strings.Join(shells, ", "))
	case !slices.Contains(shells, args[0]):
		return misused("there is no completion for %q; these shells are known: %s", args[0], strings.Join(shells, ", "))
	}
	return nil
}

func writeCompletion(root *cobra.Command, shell string, script *bytes.Buffer) error {
	const describe = true
	switch shell {
	case "bash":
		return root.GenBashCompletionV2(script, describe)
	case "zsh":
		return root.GenZshCompletion(script)
	case "fish":
		return root.GenFishCompletion(script, describe)
	}
	return root.GenPowerShellCompletionWithDesc(script)
}
