package report

import (
	"strings"

	"github.com/rivo/uniseg"

	"holdover/loads/visible"
)

// A page gathers lines of plain text of a width.
type page struct {
	width int
	b     strings.Builder
}

// String is the text so far, ending in a newline.
func (p *page) String() string { return p.b.String() }

// lines is the text so far, line by line.
func (p *page) lines() []string {
	if p.b.Len() == 0 {
		return nil
	}
	return strings.Split(strings.TrimSuffix(p.String(), "\n"), "\n")
}

func (p *page) line(text string) {
	p.b.WriteString(strings.TrimRight(text, " ") + "\n")
}

// heading begins a part. The blank line above it lets a screen reader jump there.
func (p *page) heading(text string) {
	if p.b.Len() > 0 {
		p.line("")
	}
	p.line(text)
}

// paragraph wraps text, its first line behind lead and the rest as far in.
func (p *page) paragraph(text, lead string) {
	p.hang(text, lead, strings.Repeat(" ", cells(lead)))
}

// hang wraps text, its first line behind lead and the rest behind under.
func (p *page) hang(text, lead, under string) {
	for i, line := range wrap(text, p.width-max(cells(lead), cells(under))) {
		if i == 0 {
			p.line(lead + line)
		} else {
			p.line(under + line)
		}
	}
}

// item is one entry of a list.
func (p *page) item(text string) { p.paragraph(text, "  - ") }

// leastWrap is the narrowest column that text is wrapped into, whatever stands before it.
const leastWrap = 24

// wrap breaks text at its spaces into lines of a width, one line at least. A longer word stands alone.
func wrap(text string, width int) []string {
	width = max(width, leastWrap)
	lines := []string{""}
	at := 0
	for _, word := range strings.Fields(visible.Text(text)) {
		wide := cells(word)
		switch {
		case at == 0:
		case at+1+wide <= width:
			lines[len(lines)-1] += " "
			at++
		default:
			lines, at = append(lines, ""), 0
		}
		lines[len(lines)-1] += word
		at += wide
	}
	return lines
}

// cells is the width of text on a terminal.
func cells(text string) int { return uniseg.StringWidth(text) }
