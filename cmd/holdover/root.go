package main

import (
	"errors"
	"fmt"
	"os"
	"os/signal"
	"runtime/debug"
	"syscall"

	"github.com/spf13/cobra"

	"holdover/loads/home"
	"holdover/ui/screens"
)

const rootLong = `What will carry these circuits through an outage of this length, here?

holdover reads a home file and says what will: a battery, a generator, both, or
nothing within the limits given. Every figure shows its working. Without a FILE
the built-in demo home is used; - is standard input.

On a terminal, holdover opens the screens. A FILE that is not there yet is begun
there, and written when you save it. Where its output goes elsewhere, or the
terminal cannot be drawn on, it prints the plan as text.

Exit status: 0 done; 1 nothing carries the home within its limits, and the plan is
printed; 2 the home file or the call is wrong; 3 the result could not be written;
128 and its number after a signal; 70 a mistake of this program.`

const rootExample = `  holdover                      look at the demo home in the screens
  holdover myhouse.yaml         open your own home file in the screens, or begin it
  holdover plan myhouse.yaml    the verdict as text`

// newRoot makes the command with all its verbs.
func newRoot(t terminal) *cobra.Command {
	var opts screens.Options
	var noMouse bool
	root := &cobra.Command{
		Use:     "holdover [FILE]",
		Short:   "What will carry this house through an outage",
		Long:    rootLong,
		Example: rootExample,
		Version: version(),
		Args:    rootArgs,
		RunE: func(c *cobra.Command, args []string) error {
			opts.NoColor = opts.NoColor || noColor()
			opts.Mouse = !noMouse
			return openHome(c, t, args, opts)
		},
		ValidArgsFunction:     completeFile,
		SilenceErrors:         true,
		SilenceUsage:          true,
		DisableFlagsInUseLine: true,
	}
	root.PersistentFlags().BoolVar(&opts.NoColor, "no-color", false, "no colour on the screens; text has none (also: NO_COLOR)")
	root.Flags().BoolVar(&opts.ASCII, "ascii", false, "draw lines and bars in ASCII")
	root.Flags().BoolVar(&noMouse, "no-mouse", false, "leave the mouse to the terminal, for its own text selection")
	root.SetFlagErrorFunc(flagMisuse)
	root.SetHelpTemplate(helpTemplate)
	root.SetVersionTemplate("holdover {{.Version}}\n")
	root.SetHelpCommand(newHelp())
	root.CompletionOptions.DisableDefaultCmd = true
	root.AddCommand(newPlan(t), newFit(t), newScope(t), newWhy(t), newProfiles(t), newSchema(t), newCompletion(t))
	return root
}

// helpTemplate leads with examples: that is what a reader copies.
const helpTemplate = `{{.Short}}.

Examples:
{{.Example}}

Usage:
  {{.UseLine}}{{if .HasAvailableSubCommands}}
  {{.CommandPath}} VERB ...{{end}}
{{if .Long}}
{{.Long}}
{{end}}{{if .HasAvailableSubCommands}}
Verbs:{{range .Commands}}{{if .IsAvailableCommand}}
  {{rpad .Name .NamePadding}}  {{.Short}}{{end}}{{end}}
{{end}}{{if .HasAvailableLocalFlags}}
Flags:
{{.LocalFlags.FlagUsages | trimTrailingWhitespaces}}
{{end}}{{if .HasAvailableInheritedFlags}}
Everywhere:
{{.InheritedFlags.FlagUsages | trimTrailingWhitespaces}}
{{end}}`

// rootArgs takes one home file, by its ending or because it is there. Any other word is a verb that does not exist.
func rootArgs(c *cobra.Command, args []string) error {
	if len(args) > 0 && !isHomeFile(args[0]) && !isThere(args[0]) {
		var verbs []string
		for _, verb := range c.Commands() {
			if verb.IsAvailableCommand() {
				verbs = append(verbs, verb.Name())
			}
		}
		return misused("there is no verb %q%s", args[0], meant(args[0], verbs, ""))
	}
	return fileOnly(c, args)
}

// openHome opens the screens on a terminal, and prints the plan anywhere else.
func openHome(c *cobra.Command, t terminal, args []string, opts screens.Options) error {
	if !t.interactive() || (len(args) > 0 && args[0] == "-") {
		return printPlan(c.Context(), t, args, planFlags{documentFlags: documentFlags{width: defaultWidth, ascii: opts.ASCII}})
	}
	if len(args) > 0 {
		// A file that is not there is begun; one with faults opens, to be mended; what cannot be read at all is said here.
		if _, err := home.TextOf(args[0]); err != nil && !screens.Begins(args[0]) {
			return err
		}
		opts.Path = args[0]
	}
	signal.Reset(syscall.SIGQUIT) // the screens answer it from here on
	err := screens.Run(opts)
	var ended *screens.Interruption
	if err == nil || errors.As(err, &ended) {
		return err
	}
	return fmt.Errorf("%w\nThe same as text: %s plan", err, c.CommandPath())
}

// isThere says whether a word is the name of a file, whatever its ending.
func isThere(word string) bool {
	info, err := os.Stat(word)
	return err == nil && info.Mode().IsRegular()
}

// A notBegun is the error of a home file that is not there and that the screens would begin.
type notBegun struct {
	error
	path string
}

func (n notBegun) Unwrap() error { return n.error }

// hint says how to begin the file, under a name that the root command takes for one.
func (n notBegun) hint() string {
	path := n.path
	if !isHomeFile(path) {
		path += ".yaml"
	}
	return "To begin it, run this on a terminal: holdover " + path
}

// version is the module's, as the build recorded it.
func version() string {
	if info, ok := debug.ReadBuildInfo(); ok && info.Main.Version != "" {
		return info.Main.Version
	}
	return "(unknown)"
}
