package main

import (
	"context"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"holdover/loads/home"
	"holdover/planner"
	"holdover/profiles"
	"holdover/ui/screens"
)

const (
	demoName  = "demo home"
	stdinName = "standard input"
)

// readHome reads the home file that the arguments name: "-" is standard input, none is the built-in demo home.
func readHome(t terminal, args []string) (*home.Home, error) {
	if len(args) == 0 {
		return home.Read(profiles.Demo(), demoName)
	}
	text, name, err := textOf(t, args[0])
	if err != nil && !isStream(args[0]) && screens.Begins(args[0]) {
		return nil, notBegun{err, args[0]}
	} else if err != nil {
		return nil, err
	}
	return home.Read(text, name)
}

// textOf reads a file that the command line names, and says what messages call it. "-" is standard input, and what is open
// for us already, such as the /dev/fd/63 of a shell's <(…), is read to its end like it; a pipe on the disk is refused, since
// nobody may ever write to it.
func textOf(t terminal, path string) (text []byte, name string, err error) {
	switch {
	case path == "-":
		text, err = home.TextFrom(t.in, stdinName)
		return text, stdinName, err
	case !isStream(path):
		text, err = home.TextOf(path)
		return text, path, err
	}
	stream, err := os.Open(path)
	if err != nil {
		return nil, path, home.Faults{{File: path, Message: "nothing is open under this number"}}
	}
	defer stream.Close()
	text, err = home.TextFrom(stream, path)
	return text, path, err
}

// isStream says whether a path means no file on a disk but what is open already: standard input, or a file by its number
// among those that this process was started with.
func isStream(path string) bool {
	path = filepath.Clean(path)
	return path == "-" || path == "/dev/stdin" || filepath.Dir(path) == "/dev/fd" || filepath.Dir(path) == "/proc/self/fd"
}

// planHome reads a home and works out as much of its plan as is wanted.
func planHome(ctx context.Context, t terminal, args []string, want planner.Want) (*planner.Result, error) {
	house, err := readHome(t, args)
	if err != nil {
		return nil, err
	}
	return planner.Plan(ctx, house, want)
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
