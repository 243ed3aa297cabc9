// Package document answers: what is said, and in which order?
//
// A [Document] is content without layout: no width, no colour. [holdover/ui/text] lays it out for a terminal, and the screens show
// the same; [holdover/ui/tables] writes its tables for other programs. Each subject is one function that says what is worked out
// of it in a [Worked], and works nothing out itself; [Subjects] lists them in the order of a plan, and [Plan] is all of them.
package document

import (
	"strconv"

	"holdover/loads/units"
)

// A Document is what is said, block by block. An empty one says nothing.
type Document []Block

// A Block is one thing that is said.
type Block interface{ block() }

// A Tone is what a text means beside what it says. Writers may show it by colour or weight; the words say it as well.
type Tone int

// The tones. Plain is the zero tone.
const (
	Plain Tone = iota
	Quiet
	Strong
	Title
	Good
	Warn
	Bad
	Danger
	Chosen
)

type (
	// A Heading begins a part. Its tone is that of a title unless it says how the matter stands.
	Heading struct {
		Text string
		Tone Tone
	}
	// A Paragraph is running text.
	Paragraph struct {
		Text string
		Tone Tone
	}
	// A Note is a remark on what stands before it.
	Note string
	// A List is items without an order of their own.
	List []string
	// Entries are texts that each stand behind a lead: what a check came to, how many of it, when to do it.
	Entries []Entry
	// An Entry is one of [Entries]. The tone is the lead's.
	Entry struct {
		Lead, Text string
		Tone       Tone
	}
	// An Excerpt is lines as a file has them, each with its own indent.
	Excerpt []string
	// A Caution is a warning: its signal word, what it says, and where that comes from.
	Caution struct{ Word, Text, Source string }
	// A Derivation is a figure with its formula, its source, and the figures that it was worked out from.
	Derivation struct {
		ID, Value, How, Source string // only the ID where no such figure is known
		Again                  bool   // it stands above already
		From                   []Derivation
	}
)

// A Table is rows of cells. Without heads the columns speak for themselves.
type Table struct {
	Name    string // of the file that it is written to, in small letters
	Columns []Column
	Rows    [][]Cell
}

// A Column is one column of a table.
type Column struct {
	Head string
	Kind Kind
	Tone Tone
}

// A Kind is what a column holds, which says how it is aligned and whether it may give way to the others.
type Kind int

// The kinds of column. Where no column is prose, the first gives way.
const (
	Words  Kind = iota // a few words
	Number             // compared with those above and below
	Prose              // as much text as there is; it gives way to the other columns
)

// A Cell is one cell of a table, with the figure behind its text where there is one.
type Cell struct {
	Text  string
	Exact string // a number with all its digits, for other programs; empty where the text is all there is
}

// Text is a cell that holds words.
func Text(text string) Cell { return Cell{Text: text} }

// Exactly is a cell that holds a number whose unit the head of its column says.
func Exactly(value float64) Cell {
	return Cell{units.Format(value), strconv.FormatFloat(value, 'g', -1, 64)}
}

// Add appends a row of words.
func (t *Table) Add(texts ...string) {
	row := make([]Cell, len(texts))
	for i, text := range texts {
		row[i] = Text(text)
	}
	t.Rows = append(t.Rows, row)
}

// AddCells appends a row.
func (t *Table) AddCells(cells ...Cell) { t.Rows = append(t.Rows, cells) }

// A Chart is a picture over time: a curve of straight pieces, and under it rows that say when something was so. All times are
// hours after the beginning.
type Chart struct {
	Start  units.Hours // clock time of the beginning
	Length units.Hours // > 0
	Unit   string      // of the curve
	Top    float64     // what the full height stands for, > 0; the rating of what is drawn, or its highest value
	Curve  []Segment   // not negative; none for a chart of rows alone
	Rows   []Marks
}

// A Segment is a straight piece of a curve.
type Segment struct{ FromH, ToH, Begin, End float64 }

// Marks are one row of a chart: when something was so. The tone holds where it ever was.
type Marks struct {
	Label string
	Spans []Span
	Tone  Tone
}

// A Span is a stretch of time, h.
type Span struct{ FromH, ToH float64 }

// Bars are values side by side, one of them perhaps pointed at.
type Bars struct {
	Labels []string // as many as values, short
	Values []float64
	At     int // the value pointed at; -1 for none
}

func (Heading) block()    {}
func (Paragraph) block()  {}
func (Note) block()       {}
func (List) block()       {}
func (Entries) block()    {}
func (Excerpt) block()    {}
func (Caution) block()    {}
func (Derivation) block() {}
func (Table) block()      {}
func (Chart) block()      {}
func (Bars) block()       {}

// under puts a part under its heading; nothing under nothing.
func under(heading string, part ...Block) Document {
	if len(part) == 0 {
		return nil
	}
	return append(Document{Heading{Text: heading}}, part...)
}

// columns makes columns of words with these heads.
func columns(heads ...string) []Column {
	out := make([]Column, len(heads))
	for i, head := range heads {
		out[i].Head = head
	}
	return out
}
