// Package text answers: how does a document read on a terminal?
//
// [String] writes it as plain text, one thought after the other, so that a screen reader meets it in the order in which it
// matters; [Lines] as lines of a width whose pieces keep their tone, for the screens. It is the only place that wraps, and that
// lays out tables, charts and bars.
package text

import (
	"strings"

	"holdover/loads/visible"
	"holdover/ui/document"
)

// MinWidth is the narrowest text that is asked for, in columns. A long word may stand out beyond any width.
const MinWidth = 40

// A Style is how a document is laid out.
type Style struct {
	Width  int // columns
	Height int // of a chart's curve or of bars, in rows; 0 for what reads well on paper
	Glyphs Glyphs
	Breaks bool // a word wider than the room for it is broken: a screen shows nothing beyond its edge
}

// A Piece is part of a line, in one tone.
type Piece struct {
	Text string
	Tone document.Tone
}

// A Line is one line, piece by piece.
type Line []Piece

// String is the line without its tones.
func (l Line) String() string {
	var b strings.Builder
	for _, p := range l {
		b.WriteString(p.Text)
	}
	return b.String()
}

// String writes a document as plain text, every line ended.
func String(d document.Document, s Style) string {
	var b strings.Builder
	for _, line := range Lines(d, s) {
		b.WriteString(strings.TrimRight(line.String(), " ") + "\n")
	}
	return b.String()
}

// Lines lays a document out.
func Lines(d document.Document, s Style) []Line {
	w := &writer{Style: s}
	for i, block := range d {
		if i > 0 && apart(d[i-1], block) {
			w.add()
		}
		w.write(block)
	}
	return w.lines
}

// apart says whether an empty line stands between two blocks: before a heading, where a screen reader can jump to it, and before a
// picture or running text that does not go on from what is above it.
func apart(before, block document.Block) bool {
	_, afterHeading := before.(document.Heading)
	switch block.(type) {
	case document.Heading:
		return true
	case document.Chart, document.Bars:
		return !afterHeading
	case document.Paragraph:
		_, goesOn := before.(document.Paragraph)
		return !goesOn && !afterHeading
	}
	return false
}

// A writer gathers lines.
type writer struct {
	Style
	lines []Line
}

const (
	indent = "  "
	bullet = "  - "
)

func (w *writer) add(pieces ...Piece) { w.lines = append(w.lines, pieces) }

func (w *writer) write(block document.Block) {
	switch b := block.(type) {
	case document.Heading:
		tone := b.Tone
		if tone == document.Plain {
			tone = document.Title
		}
		w.hang(nil, "", b.Text, tone)
	case document.Paragraph:
		w.hang(nil, "", b.Text, b.Tone)
	case document.Note:
		w.hang(plain(indent), indent, string(b), document.Plain)
	case document.List:
		for _, item := range b {
			w.hang(plain(bullet), strings.Repeat(" ", len(bullet)), item, document.Plain)
		}
	case document.Entries:
		w.entries(b)
	case document.Excerpt:
		for _, line := range b {
			in := line[:len(line)-len(strings.TrimLeft(line, " "))]
			w.hang(plain(in), in+indent, line, document.Plain)
		}
	case document.Caution:
		first := len(w.lines)
		text := b.Word + ": " + b.Text
		if b.Source != "" {
			text += " (" + b.Source + ")"
		}
		w.hang(plain(bullet), strings.Repeat(" ", len(bullet)), text, document.Plain)
		w.stress(first, b.Word+":", WordTone(b.Word))
	case document.Derivation:
		w.derivation(b, "", "")
	case document.Table:
		w.table(b)
	case document.Chart:
		w.chart(b)
	case document.Bars:
		w.bars(b)
	}
}

func plain(text string) Line { return Line{{text, document.Plain}} }

// The narrowest room that text is wrapped into, whatever stands before it: what reads well, and where nothing may stand out.
const (
	leastWrap   = 24
	leastBroken = 8
)

// wrap is text in the room that something before it leaves.
func (w *writer) wrap(text string, room int) []string {
	if w.Breaks {
		return Wrap(text, max(room, leastBroken), true)
	}
	return Wrap(text, max(room, leastWrap), false)
}

// hang wraps text, its first line behind lead and the rest behind under.
func (w *writer) hang(lead Line, under, text string, tone document.Tone) {
	for i, line := range w.wrap(text, w.Width-max(Cells(lead.String()), Cells(under))) {
		before := plain(under)
		if i == 0 {
			before = lead
		}
		w.add(append(before[:len(before):len(before)], Piece{line, tone})...)
	}
}

// stress gives the beginning of what was hung last, from line first on, a tone of its own.
func (w *writer) stress(first int, beginning string, tone document.Tone) {
	line := w.lines[first]
	last := line[len(line)-1]
	if rest, ok := strings.CutPrefix(last.Text, beginning); ok {
		w.lines[first] = append(line[:len(line)-1], Piece{beginning, tone}, Piece{rest, last.Tone})
	}
}

// entries puts the texts behind their leads, all as far in; where the leads leave no room, each goes on behind its own.
func (w *writer) entries(all document.Entries) {
	const least = 3 // so that one mark after another lines up with the next group of them
	wide := least
	for _, e := range all {
		wide = max(wide, Cells(visible.Text(e.Lead)))
	}
	under := len(indent) + wide + len(gap)
	for _, e := range all {
		lead := visible.Text(e.Lead)
		if w.Width-under < leastWrap {
			first := len(w.lines)
			w.hang(plain(indent), indent+indent, lead+" "+e.Text, document.Plain)
			w.stress(first, lead, e.Tone)
			continue
		}
		w.hang(Line{{indent, document.Plain}, {lead, e.Tone}, {strings.Repeat(" ", under-len(indent)-Cells(lead)), document.Plain}},
			strings.Repeat(" ", under), e.Text, document.Plain)
	}
}

// derivation writes a figure behind lead, and what belongs to it behind trunk: as a tree where the glyphs have branches, and else
// told apart by how far in it stands, so that a screen reader meets nothing but words.
func (w *writer) derivation(d document.Derivation, lead, trunk string) {
	g := w.Glyphs
	tree, blank := g.Tee != "", strings.Repeat(" ", Cells(g.Trunk))
	own := trunk + indent
	switch {
	case tree && len(d.From) > 0:
		own = trunk + g.Trunk
	case tree:
		own = trunk + blank
	}
	head := d.ID
	if d.Value != "" {
		head += ": " + d.Value
	}
	if d.Again {
		head += " (see above)"
	}
	first := len(w.lines)
	w.hang(plain(lead), own, head, document.Plain)
	w.stress(first, visible.Text(d.ID), document.Strong)
	if d.How != "" {
		w.hang(plain(own), own+indent, "how: "+d.How, document.Plain)
	}
	if d.Source != "" {
		w.hang(plain(own), own+indent, "source: "+d.Source, document.Quiet)
	}
	if !tree && len(d.From) > 0 {
		w.add(plain(own + "from:")...)
	}
	for i, from := range d.From {
		to, past := indent+indent, indent+indent
		switch {
		case tree && i == len(d.From)-1:
			to, past = g.Corner, blank
		case tree:
			to, past = g.Tee, g.Trunk
		}
		w.derivation(from, trunk+to, trunk+past)
	}
}

// WordTone is how grave a signal word of ANSI Z535 is.
func WordTone(word string) document.Tone {
	switch word {
	case "DANGER":
		return document.Danger
	case "WARNING":
		return document.Bad
	case "CAUTION":
		return document.Warn
	}
	return document.Strong
}
