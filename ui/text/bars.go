package text

import (
	"strings"

	"holdover/loads/units"
	"holdover/ui/document"
)

// barMargin is the room for the scale at the left of bars, in columns.
const barMargin = 8

// BarWidth is how wide each of so many bars is drawn, without the gap of one behind it.
func BarWidth(width, bars int) int { return max(1, min(6, (width-barMargin)/bars-1)) }

// BarAt is the bar drawn in a column; ok is false beside them.
func BarAt(column, width, bars int) (at int, ok bool) {
	at = (column - barMargin) / (BarWidth(width, bars) + 1)
	return at, column >= barMargin && at < bars
}

// bars draws values side by side: the tallest fills the height, every one above zero shows, and under each stands its label.
func (w *writer) bars(b document.Bars) {
	top := 0.0
	for _, v := range b.Values {
		top = max(top, v)
	}
	wide, height := BarWidth(w.Width, len(b.Values)), w.Height
	if height == 0 {
		height = paperHeight
	}
	var shares []float64
	for _, v := range b.Values {
		share := 0.0
		if top > 0 {
			share = v / top
		}
		for range wide {
			shares = append(shares, share)
		}
		shares = append(shares, 0)
	}
	for i, row := range w.Glyphs.upright(shares, height) {
		scale := ""
		switch i {
		case 0:
			scale = units.Format(top)
		case height - 1:
			scale = "0"
		}
		w.add(plain(Pad(scale, barMargin-1, true) + " " + row)...)
	}
	line := plain(strings.Repeat(" ", barMargin))
	for i, label := range b.Labels {
		label = label[max(0, len(label)-wide):]
		tone := document.Plain
		if i == b.At {
			tone = document.Chosen
		}
		line = append(line, Piece{Pad(label, wide, false), tone}, Piece{" ", document.Plain})
	}
	w.add(line...)
}
