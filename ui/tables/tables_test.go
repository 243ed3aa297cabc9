package tables

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"holdover/loads/visible"
	"holdover/ui/document"
)

func table(rows ...[]document.Cell) document.Table {
	return document.Table{Name: "things", Columns: []document.Column{{Head: "name, and why"}, {Head: "W", Kind: document.Number}}, Rows: rows}
}

func TestCSV_QuotesAndKeepsAllDigits(t *testing.T) {
	text, err := CSV(table(
		[]document.Cell{document.Text("a \"lamp\", old"), document.Exactly(12345.678)},
		[]document.Cell{document.Text("-"), document.Text("-40 °F")},
	))
	require.NoError(t, err)
	assert.Equal(t, "\"name, and why\",W\n\"a \"\"lamp\"\", old\",12345.678\n-,-40 °F\n", text)
}

// What a spreadsheet would carry out is a text; what only looks like it is left as it is. The ways in: CWE-1236.
func TestCSV_NoCellIsAFormula(t *testing.T) {
	for text, want := range map[string]string{
		"=1+1": "'=1+1", "+1+cmd|' /C calc'!A0": "'+1+cmd|' /C calc'!A0", "-2+3": "'-2+3", "@SUM(A1)": "'@SUM(A1)", " =1": "' =1", "\t=1": "' =1", "＝1": "'＝1",
		"-40 °F": "-40 °F", "+7,260 USD": "+7,260 USD", "+18 °F difference": "+18 °F difference", "-0.5 points": "-0.5 points", "-": "-", "": "", "a=b": "a=b", "3-4": "3-4",
	} {
		assert.Equal(t, want, harmless(text), text)
	}
}

// Whatever stands in cells is read back the same, but for the sign that makes a formula a text.
func TestCSV_IsReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		texts := rapid.SliceOfN(rapid.String(), 2, 2).Draw(t, "cells")
		text, err := CSV(table([]document.Cell{document.Text(texts[0]), document.Text(texts[1])}))
		require.NoError(t, err)
		rows, err := csv.NewReader(strings.NewReader(text)).ReadAll()
		require.NoError(t, err)
		require.Len(t, rows, 2)
		for i, cell := range rows[1] {
			whole := visible.Text(texts[i])
			require.True(t, cell == whole || cell == "'"+whole, "%q of %q", cell, texts[i])
		}
	})
}

func TestWrite_AFileForEachTable(t *testing.T) {
	d := document.Document{document.Heading{Text: "x"}, table([]document.Cell{document.Text("a"), document.Exactly(1)}), document.Table{Name: "empty", Columns: []document.Column{{Head: "h"}}}}
	folder := filepath.Join(t.TempDir(), "new")
	for range 2 { // the second time into the place of the first
		require.NoError(t, Write(folder, d))
	}
	text, err := os.ReadFile(filepath.Join(folder, "things.csv"))
	require.NoError(t, err)
	assert.Equal(t, "\"name, and why\",W\na,1\n", string(text))
	text, err = os.ReadFile(filepath.Join(folder, "empty.csv"))
	require.NoError(t, err)
	assert.Equal(t, "h\n", string(text))
	assert.ErrorContains(t, Write(filepath.Join(folder, "things.csv"), d), "things.csv")
	assert.ErrorContains(t, Write(filepath.Join(folder, "missing", "inner"), d), "cannot be made: no such file")
}
