// Package tables answers: how do the tables of a document reach a spreadsheet or another program?
//
// They are comma-separated values, quoted as RFC 4180 has it, the heads first; lines end as everywhere else here. Numbers have all
// their digits and no unit where the head says it; nothing that a spreadsheet would carry out as a formula is left one.
package tables

import (
	"encoding/csv"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"

	"holdover/loads/visible"
	"holdover/ui/disk"
	"holdover/ui/document"
)

// Of lists the tables of a document in their order.
func Of(d document.Document) (all []document.Table) {
	for _, block := range d {
		if t, ok := block.(document.Table); ok {
			all = append(all, t)
		}
	}
	return all
}

// CSV writes one table.
func CSV(t document.Table) (string, error) {
	var b strings.Builder
	w := csv.NewWriter(&b)
	heads := make([]string, len(t.Columns))
	for i, c := range t.Columns {
		heads[i] = harmless(c.Head)
	}
	if err := w.Write(heads); err != nil {
		return "", err
	}
	for _, row := range t.Rows {
		texts := make([]string, len(row))
		for i, cell := range row {
			if texts[i] = cell.Exact; cell.Exact == "" {
				texts[i] = harmless(cell.Text)
			}
		}
		if err := w.Write(texts); err != nil {
			return "", err
		}
	}
	w.Flush()
	return b.String(), w.Error()
}

// quantity is a number, with a sign or a unit perhaps: no formula, whatever its sign.
var quantity = regexp.MustCompile(`^[-+]?[0-9][0-9,.]*( [\pL%°/·²³ ]+)?$`)

// harmless is text that no spreadsheet takes for a formula: an apostrophe before it makes it a text.
func harmless(text string) string {
	text = visible.Text(text)
	if first := strings.TrimLeft(text, " "); first != "" && first != "-" && strings.ContainsRune("=+-@＝＋－＠", []rune(first)[0]) && !quantity.MatchString(first) {
		return "'" + text
	}
	return text
}

// Write puts each table of a document into a folder, under its name. The folder is made where it is missing; the one that it is to
// be in must be there.
func Write(folder string, d document.Document) error {
	if err := os.Mkdir(folder, 0o755); err != nil && !os.IsExist(err) {
		return fmt.Errorf("%s cannot be made: %w", folder, disk.Cause(err))
	}
	for _, t := range Of(d) {
		text, err := CSV(t)
		if err != nil {
			return err
		}
		if err := disk.Replace(disk.OS, filepath.Join(folder, t.Name+".csv"), []byte(text)); err != nil {
			return err
		}
	}
	return nil
}
