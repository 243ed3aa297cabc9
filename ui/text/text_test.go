package text

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"holdover/loads/visible"
	"holdover/ui/document"
)

func TestWrapBreaksAtSpacesAndLosesNothing(t *testing.T) {
	for _, c := range []struct {
		text string
		want []string
	}{
		{"", []string{""}},
		{"one two", []string{"one two"}},
		{"  one\n two  ", []string{"one two"}},
		{"123456789 123456789 1234 after", []string{"123456789 123456789 1234", "after"}},
		{"123456789 123456789 12345 after", []string{"123456789 123456789", "12345 after"}},
		{"a averyveryverylongwordindeed b", []string{"a", "averyveryverylongwordindeed", "b"}},
		{"冷蔵庫冷蔵庫冷蔵庫 冷蔵庫 b", []string{"冷蔵庫冷蔵庫冷蔵庫", "冷蔵庫 b"}},
	} {
		assert.Equal(t, c.want, Wrap(c.text, leastWrap, false), c.text)
	}
}

func TestWrap_LosesNothingAndKeepsTheWidth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := strings.Join(rapid.SliceOf(rapid.StringMatching(`[a-z\[\]世é ]{0,30}`)).Draw(t, "words"), " ")
		width := rapid.IntRange(2, 40).Draw(t, "width")
		lines := Wrap(text, width, true)
		for _, line := range lines {
			require.LessOrEqual(t, Cells(line), width)
		}
		squeeze := func(text string) string { return strings.Join(strings.Fields(text), "") }
		require.Equal(t, squeeze(visible.Text(text)), squeeze(strings.Join(lines, "")))
	})
	require.Equal(t, []string{"one two", "[red]", "threefou", "r"}, Wrap("one two [red] threefour", 8, true))
}

func TestCut_IsNoWiderThanAsked(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text, width := rapid.String().Draw(t, "text"), rapid.IntRange(1, 60).Draw(t, "width")
		cut := Blocks.Cut(text, width)
		require.LessOrEqual(t, Cells(cut), width)
		if whole := visible.Text(text); Cells(whole) <= width {
			require.Equal(t, whole, cut)
		}
	})
	require.Empty(t, Blocks.Cut("abc", 0))
	require.Equal(t, "abc…", Blocks.Cut("abcdef", 4))
	require.Equal(t, "世…", Blocks.Cut("世界人", 4), "wide letters are not cut in half")
	require.Equal(t, "  ab", Pad("ab", 4, true))
}

// One of every kind of block, as it is laid out. What is wrapped goes on where its text began.
func TestLines_OfEveryKindOfBlock(t *testing.T) {
	table := document.Table{Columns: []document.Column{{Head: "n", Kind: document.Number}, {Head: "what", Kind: document.Prose}, {Head: "how"}}}
	table.Add("7", "as much text as there is room for beside the others", "well")
	table.AddCells(document.Exactly(1234.5), document.Text("short"), document.Text(""))
	d := document.Document{
		document.Paragraph{Text: "A first sentence."}, document.Paragraph{Text: "A second one."},
		document.Heading{Text: "Heading"}, document.List{"an item that goes on for longer than one line", "another"},
		document.Paragraph{Text: "After a list."},
		table, document.Note("a remark on the table"),
		document.Entries{{Lead: "no", Text: "volts: not these"}, {Lead: "longer", Text: "a text that goes on for longer than its line"}},
		document.Excerpt{"key:", "  inner: a value that is longer than the line has room for"},
		document.Caution{Word: "DANGER", Text: "Do not.", Source: "a standard"}, document.Caution{Word: "NOTICE", Text: "Ask."},
		document.Derivation{ID: "a", Value: "1 W", How: "b", Source: "law", From: []document.Derivation{{ID: "b", Value: "1 W"}, {ID: "a", Value: "1 W", Again: true}, {ID: "c"}}},
	}
	assert.Equal(t, strings.TrimLeft(`
A first sentence.
A second one.

Heading
  - an item that goes on for longer than
    one line
  - another

After a list.
      n  what                       how
      7  as much text as there      well
           is room for beside the
           others
  1,234  short
  a remark on the table
  no      volts: not these
  longer  a text that goes on for longer
          than its line
key:
  inner: a value that is longer than
    the line has room for
  - DANGER: Do not. (a standard)
  - NOTICE: Ask.
a: 1 W
  how: b
  source: law
  from:
    b: 1 W
    a: 1 W (see above)
    c
`, "\n"), String(d, Style{Width: 40, Glyphs: Blocks}))
}

// Tones are kept beside the words, and change none of them.
func TestLines_KeepTheirTones(t *testing.T) {
	d := document.Document{document.Heading{Text: "h"}, document.Heading{Text: "g", Tone: document.Good}, document.Caution{Word: "DANGER", Text: "x"}, document.Entries{{Lead: "no", Text: "x", Tone: document.Bad}}, document.Derivation{ID: "id", Value: "v"}}
	lines := Lines(d, Style{Width: 40, Glyphs: Blocks})
	tones := map[string]document.Tone{}
	for _, line := range lines {
		for _, p := range line {
			tones[strings.TrimSpace(p.Text)] = p.Tone
		}
	}
	assert.Equal(t, map[string]document.Tone{"": document.Plain, "-": document.Plain, "h": document.Title, "g": document.Good, "DANGER:": document.Danger, "x": document.Plain, "no": document.Bad, "id": document.Strong, ": v": document.Plain}, tones)
}

// Where the others leave no room for the column that gives way, a row is running text and keeps the width.
func TestTable_WithoutRoomIsRunningText(t *testing.T) {
	table := document.Table{Columns: []document.Column{{Head: "what"}, {Head: "battery"}, {Head: "generator"}}}
	table.Add("Carries the house for so long", "about 24,900 USD", "")
	table.Add("Fuel", "none at all", "about 17,000 USD")
	assert.Equal(t, "  Carries the house for so long:\n    battery about 24,900 USD\n  Fuel: battery none at all; generator\n    about 17,000 USD\n",
		String(document.Document{table}, Style{Width: 40, Glyphs: Blocks}))
}

// With branches a derivation is a tree whose trunk runs past what belongs to each figure.
func TestDerivation_WithBranches(t *testing.T) {
	leaf := document.Derivation{ID: "height", Value: "5 m", Source: "line 3"}
	d := document.Derivation{ID: "b", Value: "4 W", How: "a + height [red]", From: []document.Derivation{
		{ID: "a", Value: "2 W", How: "half of it", From: []document.Derivation{leaf}}, {ID: "height", Value: "5 m", Again: true}, {ID: "gone"}}}
	g := ASCII
	g.Tee, g.Corner, g.Trunk = "|- ", "`- ", "|  "
	assert.Equal(t, strings.TrimLeft(`
b: 4 W
|  how: a + height [red]
|- a: 2 W
|  |  how: half of it
|  `+"`"+`- height: 5 m
|        source: line 3
|- height: 5 m (see above)
`+"`"+`- gone
`, "\n"), String(document.Document{d}, Style{Width: 60, Glyphs: g}))
}

// Leads that leave no room for the texts beside them stand before their own.
func TestEntries_WithoutRoomGoOnBehindTheirLeads(t *testing.T) {
	d := document.Document{document.Entries{{Lead: "a-profile-with-a-long-name", Text: "what it is, in several words"}, {Lead: "no", Text: "x"}}}
	assert.Equal(t, "  a-profile-with-a-long-name what it\n    is, in several words\n  no x\n", String(d, Style{Width: MinWidth, Glyphs: Blocks}))
}

// drawBlock draws a block of any kind with any text in it.
func drawBlock(t *rapid.T) document.Block {
	text := func() string {
		return strings.Join(rapid.SliceOfN(rapid.OneOf(rapid.StringMatching(`[a-z世\[\]]{1,12}`), rapid.StringN(0, 40, -1)), 0, 12).Draw(t, "words"), " ")
	}
	switch rapid.IntRange(0, 9).Draw(t, "kind") {
	case 0:
		return document.Heading{Text: text()}
	case 1:
		return document.Paragraph{Text: text()}
	case 2:
		return document.Note(text())
	case 3:
		return document.List{text(), text()}
	case 4:
		return document.Entries{{Lead: text(), Text: text()}, {Lead: "no", Text: text()}}
	case 5:
		return document.Excerpt{text(), "  " + text()}
	case 6:
		return document.Caution{Word: "DANGER", Text: text(), Source: text()}
	case 7:
		return document.Derivation{ID: text(), Value: text(), How: text(), Source: text(), From: []document.Derivation{{ID: text(), Value: text()}, {ID: text(), How: text()}}}
	case 8:
		return document.Chart{Length: 24, Top: 1, Curve: []document.Segment{{ToH: 24, End: 1}}, Rows: []document.Marks{{Label: text()}}}
	}
	table := document.Table{Columns: []document.Column{{Head: text()}, {Head: text(), Kind: document.Number}, {Head: "h", Kind: document.Kind(rapid.IntRange(0, 2).Draw(t, "kind of column"))}}}
	table.Add(text(), text(), text())
	table.Add("a", "1", text())
	return table
}

// Where nothing may stand beyond the edge nothing does, and every letter of what is said is there, in its order.
func TestLines_OnAScreenLoseNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		width := rapid.IntRange(40, 120).Draw(t, "width")
		block := drawBlock(t)
		lines := Lines(document.Document{block}, Style{Width: width, Glyphs: Blocks, Breaks: true})
		var said strings.Builder
		for _, line := range lines {
			require.LessOrEqual(t, Cells(strings.TrimRight(line.String(), " ")), width, line.String())
			said.WriteString(line.String())
		}
		if p, ok := block.(document.Paragraph); ok {
			squeeze := func(text string) string { return strings.Join(strings.Fields(text), "") }
			require.Equal(t, squeeze(visible.Text(p.Text)), squeeze(said.String()))
		}
	})
}
