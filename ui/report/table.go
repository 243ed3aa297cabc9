package report

import "strings"

// A table is rows of cells under one line of heads. The first column takes what width the others leave and wraps; the
// others are as wide as their widest cell. right says which columns stand against their right edge.
type table struct {
	heads []string
	rows  [][]string
	right []bool
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
	for _, w := range widths[1:] {
		left -= w + len(tableGap)
	}
	widths[0] = min(widths[0], max(left, leastWrap))
	return widths
}

func (t *table) writeRow(p *page, row []string, widths []int) {
	lines := wrap(row[0], widths[0])
	var b strings.Builder
	b.WriteString(tableIndent + pad(lines[0], widths[0], false))
	for i, cell := range row[1:] {
		b.WriteString(tableGap + pad(printable(cell), widths[i+1], t.right[i+1]))
	}
	p.line(b.String())
	for _, more := range lines[1:] {
		p.line(tableIndent + tableGap + more)
	}
}

func pad(text string, width int, right bool) string {
	space := strings.Repeat(" ", max(0, width-cells(text)))
	if right {
		return space + text
	}
	return text + space
}
