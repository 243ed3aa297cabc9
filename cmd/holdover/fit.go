package main

import (
	"fmt"
	"strconv"

	"github.com/spf13/cobra"

	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/planner/sheet"
	"holdover/profiles"
	"holdover/ui/document"
	"holdover/ui/json"
)

// errNothingFits ends a fit in which no unit fits outright.
var errNothingFits = fmt.Errorf("no unit fits: %w", errNotCarried)

type fitFlags struct {
	documentFlags
	circuit, length, gear string
}

const fitLong = `Each unit is held to the kept circuits of the home, or to one of them: wave, volts,
hertz, neutral, watts and VA, start, change-over, runtime, price. A figure that a
spec sheet does not give is asked for by name and never taken for granted.

With --circuit and --gear no home file is needed: the circuit is then a built-in
profile (holdover profiles lists them), and everything else is assumed.

Exit status: 0 a unit fits; 1 none does, or only on conditions; 2 the files or the
call are wrong.`

func newFit(t terminal) *cobra.Command {
	flags := fitFlags{documentFlags: documentFlags{width: defaultWidth}}
	c := &cobra.Command{
		Use:   "fit [FILE]",
		Short: "Whether units will do, by their spec sheets, and why not",
		Long:  fitLong,
		Example: `  holdover fit                         the demo home and its units
  holdover fit myhouse.yaml            the units under gear in your own
  holdover fit --circuit gas-instant-heater --length 30min --gear sheet.yaml
  holdover fit myhouse.yaml --circuit "Sump pump" --json`,
		Args:                  fileOnly,
		ValidArgsFunction:     completeFile,
		DisableFlagsInUseLine: true,
		RunE: func(_ *cobra.Command, args []string) error {
			return printFit(t, args, flags)
		},
	}
	c.Flags().StringVar(&flags.circuit, "circuit", "", "serve this circuit alone: its `name`, or a profile's")
	c.Flags().StringVar(&flags.length, "length", "", "how `long`, like 30min or 24 h, in place of the home's outage")
	c.Flags().StringVar(&flags.gear, "gear", "", "spec sheets from this `file`, in place of the home's gear")
	c.Flags().BoolVar(&flags.json, "json", false, "write JSON; keys are added over time, never renamed")
	addWidth(c, &flags.width)
	c.RegisterFlagCompletionFunc("circuit", completeProfile)
	c.RegisterFlagCompletionFunc("length", cobra.NoFileCompletions)
	return c
}

func printFit(t terminal, args []string, flags fitFlags) error {
	length, err := lengthOf(flags.length)
	if err != nil {
		return err
	}
	house, err := homeToFit(t, args, flags)
	if err != nil {
		return err
	}
	if flags.gear != "" {
		if house.Gear, err = readGear(t, args, flags.gear, house.House.Units); err != nil {
			return err
		}
	}
	result, err := sheet.Of(house, sheet.Request{Circuit: flags.circuit, Length: length})
	if err != nil {
		return misused("%v", err)
	}
	err = flags.printEither(t, func() (string, error) { return json.Fit(house, result) }, func() document.Document { return document.Fit(house, result) })
	if err != nil {
		return err
	}
	if !result.Any() {
		return errNothingFits
	}
	return nil
}

// lengthOf reads a length of time as a home file has it. Nothing is 0: the home's own outage.
func lengthOf(text string) (units.Hours, error) {
	if text == "" {
		return 0, nil
	}
	hours, err := units.Parse(text, units.LongTime)
	if err != nil {
		return 0, misused("--length: %v", err)
	}
	const least, most = 1.0 / 60, 2160
	if !(hours >= least && hours <= most) {
		return 0, misused("--length %s is out of range; 1 min to %d h is accepted", text, most)
	}
	return units.Hours(hours), nil
}

// homeToFit reads the home. Without a file, a circuit that is a profile's name stands alone in an otherwise assumed home.
func homeToFit(t terminal, args []string, flags fitFlags) (*home.Home, error) {
	if len(args) > 0 || flags.circuit == "" {
		return readHome(t, args)
	}
	demo, err := readHome(t, nil)
	if err != nil {
		return nil, err
	}
	p, ok := profiles.FindCircuit(flags.circuit)
	if !ok {
		if _, err := sheet.Alone(demo, flags.circuit); err == nil {
			return demo, nil
		}
		return nil, misused("there is no profile %q%s", flags.circuit, meant(flags.circuit, circuitProfiles(), ""))
	}
	text := fmt.Sprintf("holdover: 1\ncircuits:\n  - {name: %s, like: %s, care: keep}\n", strconv.Quote(p.Title), p.Name)
	house, err := home.Read([]byte(text), "profile "+p.Name)
	if err != nil {
		return nil, err
	}
	house.Gear = demo.Gear
	return house, nil
}

func circuitProfiles() []string {
	var names []string
	for _, c := range profiles.Circuits() {
		names = append(names, c.Name)
	}
	return names
}

// readGear reads a file of spec sheets in the units of the home; "-" is standard input, unless the home is.
func readGear(t terminal, args []string, path string, s units.System) ([]home.Gear, error) {
	if path == "-" && len(args) > 0 && args[0] == "-" {
		return nil, misused("the home and the gear cannot both be standard input")
	}
	text, name, err := textOf(t, path)
	if err != nil {
		return nil, err
	}
	return home.ReadGear(text, name, s)
}
