package main

import (
	"errors"
	"fmt"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
)

// A misuse is a call that cannot be understood. The message says what was found and, where it can, what was meant.
type misuse string

func (m misuse) Error() string { return string(m) }

func misused(format string, args ...any) error { return misuse(fmt.Sprintf(format, args...)) }

// flagMisuse adds the flag that was perhaps meant to what the flag parser found.
func flagMisuse(c *cobra.Command, err error) error {
	var invalid *pflag.InvalidValueError
	if errors.As(err, &invalid) {
		kind := map[string]string{"int": "a whole number", "bool": "true or false"}[invalid.GetFlag().Value.Type()]
		return misused("%q does not suit --%s; %s is wanted", invalid.GetValue(), invalid.GetFlag().Name, kind)
	}
	var unknown *pflag.NotExistError
	if !errors.As(err, &unknown) {
		return misuse(err.Error())
	}
	var flags []string
	c.Flags().VisitAll(func(f *pflag.Flag) { flags = append(flags, f.Name) })
	typed := strings.TrimLeft(unknown.GetSpecifiedName(), "-")
	return misused("there is no flag %s here%s", dashed(typed), meant(typed, flags, "--"))
}

func dashed(flag string) string {
	if len(flag) == 1 {
		return "-" + flag
	}
	return "--" + flag
}

// fileOnly accepts one home file at most.
func fileOnly(_ *cobra.Command, args []string) error {
	if len(args) > 1 {
		return misused("one home file is wanted; found %d: %s", len(args), strings.Join(args, " "))
	}
	return nil
}

// meant asks whether one of the words was meant, each shown behind lead; nothing where none comes near.
func meant(typed string, words []string, lead string) string {
	near := nearest(typed, words)
	if len(near) == 0 {
		return ""
	}
	for i, word := range near {
		near[i] = lead + word
	}
	return "; did you mean " + strings.Join(near, " or ") + "?"
}

// mostSuggested bounds a suggestion to what is read at a glance.
const mostSuggested = 4

// nearest finds words within a few letters of what was typed, or that begin with it; else those that contain it. The
// measure is cobra's own, which takes its words as commands.
func nearest(typed string, words []string) []string {
	near := &cobra.Command{SuggestionsMinimumDistance: 1 + len(typed)/4}
	var within []string
	for _, word := range words {
		near.AddCommand(&cobra.Command{Use: word, Run: func(*cobra.Command, []string) {}})
		if strings.Contains(word, typed) {
			within = append(within, word)
		}
	}
	found := near.SuggestionsFor(typed)
	if len(found) == 0 {
		found = within
	}
	return found[:min(len(found), mostSuggested)]
}

func noArgs(_ *cobra.Command, args []string) error {
	if len(args) > 0 {
		return misused("nothing more is wanted here; found %s", strings.Join(args, " "))
	}
	return nil
}
