package report

import (
	"strings"

	"holdover/loads/visible"
)

// A table is rows of cells under one line of heads. One column, the first unless wraps says another, takes what width the
// others leave and wraps; the others are as wide as their widest cell. right says which columns stand against their right
// edge.
type table struct {
	heads []string
	rows  [][]string
	right []bool
	wraps int
}

const (
	tableIndent = "  "
	tableGap    = "  "
)

func (t *table) add(cells ...string) { t.rows = append(t.rows, cells) }

// write puts the table on the page.
func (t *table) write(p *page) {
	widths := t.widths(p.width)
	if t.heads != nil {
		t.writeRow(p, t.heads, widths)
	}
	for _, row := range t.rows {
		t.writeRow(p, row, widths)
	}
}

func (t *table) widths(width int) []int {
	widths := make([]int, len(t.right))
	for _, row := range append([][]string{t.heads}, t.rows...) {
		for i, cell := range row {
			widths[i] = max(widths[i], cells(cell))
		}
	}
	left := width - len(tableIndent)
	for i, w := range widths {
		if i != t.wraps {
			left -= w + len(tableGap)
		}
	}
	widths[t.wraps] = min(widths[t.wraps], max(left, leastWrap))
	return widths
}

func (t *table) writeRow(p *page, row []string, widths []int) {
	wrapped := wrap(row[t.wraps], widths[t.wraps])
	line, indent := tableIndent, len(tableIndent)
	for i, cell := range row {
		if i > 0 {
			line += tableGap
		}
		if i == t.wraps {
			indent, cell = cells(line), wrapped[0]
		}
		line += pad(visible.Text(cell), widths[i], t.right[i])
	}
	p.line(line)
	for _, more := range wrapped[1:] {
		p.line(strings.Repeat(" ", indent+len(tableGap)) + more)
	}
}

func pad(text string, width int, right bool) string {
	space := strings.Repeat(" ", max(0, width-cells(text)))
	if right {
		return space + text
	}
	return text + space
}
