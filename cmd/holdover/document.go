package main

import (
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"holdover/ui/document"
	"holdover/ui/tables"
	layout "holdover/ui/text"
)

// documentFlags say how a document is written.
type documentFlags struct {
	json   bool
	ascii  bool
	width  int
	table  string // to be written alone, as CSV
	tables string // folder for all tables
}

// An unwritten is a result that could not be put where it was asked for.
type unwritten struct{ error }

// addTables adds the flags of the verbs whose documents have tables.
func addTables(c *cobra.Command, flags *documentFlags) {
	c.Flags().StringVar(&flags.table, "table", "", "write the table of this `name` alone, as CSV")
	c.Flags().StringVar(&flags.tables, "tables", "", "write each table into this `folder` too, as CSV")
	c.MarkFlagsMutuallyExclusive("json", "table", "tables")
	c.RegisterFlagCompletionFunc("table", cobra.NoFileCompletions)
}

// printEither writes a result for a machine or for a person, and works out no more than is asked for.
func (f documentFlags) printEither(t terminal, forMachines func() (string, error), forPeople func() document.Document) error {
	if !f.json {
		return f.print(t, forPeople())
	}
	text, err := forMachines()
	if err != nil {
		return err
	}
	return write(t.out, text)
}

// print writes a document as the flags ask.
func (f documentFlags) print(t terminal, d document.Document) error {
	if f.table != "" {
		text, err := tableText(d, f.table)
		if err != nil {
			return err
		}
		return write(t.out, text)
	}
	if f.tables != "" {
		if err := tables.Write(f.tables, d); err != nil {
			return unwritten{err}
		}
	}
	style := layout.Style{Width: f.width, Glyphs: layout.Blocks}
	if f.ascii {
		style.Glyphs = layout.ASCII
	}
	return write(t.out, layout.String(d, style))
}

func tableText(d document.Document, name string) (string, error) {
	all := tables.Of(d)
	var names []string
	for _, table := range all {
		names = append(names, table.Name)
	}
	at := slices.Index(names, name)
	if at < 0 {
		return "", misused("there is no table %q here%s; there are %s", name, meant(name, names, ""), strings.Join(names, ", "))
	}
	return tables.CSV(all[at])
}

// partOf finds the part of a plan of a name; without one it is all of it.
func partOf(name string) (func(document.Worked) document.Document, error) {
	if name == "" {
		return document.Plan, nil
	}
	at := slices.Index(partNames(), name)
	if at < 0 {
		return nil, misused("there is no part %q of a plan%s; there are %s", name, meant(name, partNames(), ""), strings.Join(partNames(), ", "))
	}
	return document.Subjects[at].Of, nil
}

func partNames() (names []string) {
	for _, s := range document.Subjects {
		names = append(names, s.Name)
	}
	return names
}
