package text

import (
	"strings"

	"holdover/loads/visible"
	"holdover/ui/document"
)

// gap is the room between two columns, and leastGiving what the column that gives way needs to be read.
const (
	gap         = "  "
	leastGiving = 16
)

// table lays a table out: the column that gives way takes what room the others leave and wraps, the others are as wide as their
// widest cell. Where there is no room even so, each row is running text.
func (w *writer) table(t document.Table) {
	rows := make([][]string, 0, len(t.Rows)+1)
	heads := make([]string, len(t.Columns))
	for i, c := range t.Columns {
		heads[i] = c.Head
	}
	if strings.Join(heads, "") != "" {
		rows = append(rows, heads)
	}
	headed := len(rows)
	for _, row := range t.Rows {
		texts := make([]string, len(row))
		for i, cell := range row {
			texts[i] = visible.Text(cell.Text)
		}
		rows = append(rows, texts)
	}
	giving := givesWay(t.Columns)
	widths, fits := w.widths(rows, giving)
	if !fits {
		w.stacked(heads, rows[headed:])
		return
	}
	for i, row := range rows {
		w.row(t.Columns, row, widths, giving, i < headed)
	}
}

// givesWay is the column that gives way to the others.
func givesWay(columns []document.Column) int {
	for i, c := range columns {
		if c.Kind == document.Prose {
			return i
		}
	}
	return 0
}

// widths are those of the columns; fits says whether the table has room in them.
func (w *writer) widths(rows [][]string, giving int) (widths []int, fits bool) {
	for _, row := range rows {
		for i, cell := range row {
			if i == len(widths) {
				widths = append(widths, 0)
			}
			widths[i] = max(widths[i], Cells(cell))
		}
	}
	if len(widths) == 0 {
		return nil, true
	}
	room := w.Width - len(indent)
	for i, wide := range widths {
		if i != giving {
			room -= wide + len(gap)
		}
	}
	least := min(widths[giving], leastGiving)
	widths[giving] = min(widths[giving], max(room, least))
	return widths, room >= least
}

func (w *writer) row(columns []document.Column, row []string, widths []int, giving int, head bool) {
	wrapped := []string{row[giving]}
	if Cells(row[giving]) > widths[giving] {
		wrapped = Wrap(row[giving], widths[giving]-len(gap), true) // what goes on stands further in
	}
	line, under := plain(indent), 0
	for i, cell := range row {
		if i > 0 {
			line = append(line, Piece{gap, document.Plain})
		}
		if i == giving {
			under, cell = Cells(line.String()), wrapped[0]
		}
		tone := columns[i].Tone
		if head {
			tone = document.Strong
		}
		line = append(line, Piece{Pad(cell, widths[i], columns[i].Kind == document.Number), tone})
	}
	w.add(line...)
	for _, more := range wrapped[1:] {
		w.add(Piece{strings.Repeat(" ", under+len(gap)), document.Plain}, Piece{more, columns[giving].Tone})
	}
}

// stacked writes each row as running text: what its first cell says, and behind it the others with their heads.
func (w *writer) stacked(heads []string, rows [][]string) {
	for _, row := range rows {
		var rest []string
		for i, cell := range row[1:] {
			if cell != "" {
				rest = append(rest, strings.TrimSpace(heads[i+1]+" "+cell))
			}
		}
		w.hang(plain(indent), indent+indent, row[0]+": "+strings.Join(rest, "; "), document.Plain)
	}
}
