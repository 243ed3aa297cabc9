package text

import (
	"fmt"
	"math"
	"strings"

	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/loads/visible"
	"holdover/ui/document"
)

// The room for labels at the left of a chart, in columns, and the height of its curve where the style does not say.
const (
	leastLabel  = 10
	mostLabel   = 22
	paperHeight = 7
)

// A plot is a chart with the room that it has.
type plot struct {
	document.Chart
	glyphs  Glyphs
	label   int // columns for labels
	columns int // columns of time
}

// chart draws a chart. Each column shows the mean of the curve over its time; the smallest mean above zero shows the lowest level,
// and the shortest mark shows.
func (w *writer) chart(c document.Chart) {
	p := plot{Chart: c, glyphs: w.Glyphs, label: leastLabel}
	for _, row := range c.Rows {
		p.label = min(mostLabel, max(p.label, Cells(visible.Text(row.Label))))
	}
	p.columns = max(8, w.Width-p.label-1)
	height := w.Height
	if height == 0 {
		height = paperHeight
	}
	if len(c.Curve) > 0 {
		for _, line := range p.curve(height) {
			w.add(plain(line)...)
		}
	}
	for _, row := range c.Rows {
		line, tone := p.left(row.Label, " "), document.Plain
		for _, share := range p.shares(row.Spans) {
			line += w.Glyphs.mark(share)
		}
		if len(row.Spans) > 0 {
			tone = row.Tone
		}
		w.add(Piece{line, tone})
	}
	for _, line := range p.axis() {
		w.add(plain(line)...)
	}
}

// left is what stands left of a line.
func (p plot) left(text, side string) string {
	return Pad(p.glyphs.Cut(text, p.label), p.label, true) + side
}

// curve draws the bars, the top row first.
func (p plot) curve(height int) []string {
	means := p.means()
	for i := range means {
		means[i] /= p.Top
	}
	rows := p.glyphs.upright(means, height)
	for i, row := range rows {
		label := ""
		switch i {
		case 0:
			label = units.Quantity(p.Top, p.Unit)
		case height - 1:
			label = units.Quantity(0, p.Unit)
		}
		rows[i] = p.left(label, p.glyphs.Side) + row
	}
	return rows
}

// upright draws shares of a height as bars one cell wide, so many rows high, the top row first.
func (g Glyphs) upright(shares []float64, height int) []string {
	steps := len(g.Levels)
	rows := make([]string, height)
	for r := range rows {
		foot := (height - 1 - r) * steps
		for _, share := range shares {
			rows[r] += g.bar(level(share, height*steps) - foot)
		}
	}
	return rows
}

// level is how many of all levels a share fills: none only for nothing.
func level(share float64, levels int) int {
	if share <= 1e-9 {
		return 0
	}
	return max(1, int(math.Round(share*float64(levels))))
}

// means is the mean of the curve over the time of each column, exact because the curve is straight between its events.
func (p plot) means() []float64 {
	return p.spread(len(p.Curve), func(i int) (document.Span, func(float64) float64) {
		s := p.Curve[i]
		return document.Span{FromH: s.FromH, ToH: s.ToH}, func(atH float64) float64 {
			return s.Begin + (s.End-s.Begin)*(atH-s.FromH)/(s.ToH-s.FromH)
		}
	})
}

// shares is what share of each column's time the spans cover.
func (p plot) shares(spans []document.Span) []float64 {
	return p.spread(len(spans), func(i int) (document.Span, func(float64) float64) {
		return spans[i], func(float64) float64 { return 1 }
	})
}

// spread averages straight pieces over the columns that they pass through.
func (p plot) spread(pieces int, piece func(int) (document.Span, func(atH float64) float64)) []float64 {
	means, each := make([]float64, p.columns), float64(p.Length)/float64(p.columns)
	for i := range pieces {
		span, value := piece(i)
		for c := max(0, int(span.FromH/each)); c < p.columns && float64(c)*each < span.ToH; c++ {
			from, to := max(span.FromH, float64(c)*each), min(span.ToH, float64(c+1)*each)
			if to > from {
				means[c] += value((from+to)/2) * (to - from) / each
			}
		}
	}
	return means
}

// tickMinutes are the distances between clock times along an axis.
var tickMinutes = []float64{1, 5, 15, 30, 60, 120, 180, 240, 360, 720, day, 2 * day, 5 * day, 10 * day, 20 * day, 50 * day}

const (
	day      = 24 * 60.0 // min
	tickRoom = 8         // columns for a clock time or a day, and a gap
)

// axis is the time axis: a line with ticks, the clock times under it, and the days where it goes past midnight.
func (p plot) axis() []string {
	perMinute := float64(p.columns) / (float64(p.Length) * 60)
	begin := float64(p.Start) * 60 // minutes after the first midnight
	end := begin + float64(p.Length)*60
	step := tickStep(perMinute)
	line := []string{p.glyphs.Tick}
	for range p.columns - 1 {
		line = append(line, p.glyphs.Line)
	}
	clocks, days := newLabels(p.columns), newLabels(p.columns)
	clocks.put(0, home.Clock(p.Start))
	days.put(0, "day 1")
	for at := math.Ceil(begin/step) * step; at < end; at += step {
		column := int((at - begin) * perMinute)
		line[min(column, p.columns-1)] = p.glyphs.Tick
		clocks.put(column, home.Clock(units.Hours(at/60)))
	}
	stride := max(step, day)
	for at := math.Floor(begin/stride+1) * stride; at < end; at += stride {
		days.put(int((at-begin)*perMinute), fmt.Sprintf("day %d", int(at/day)+1))
	}
	in := p.left("", " ")
	out := []string{in + strings.Join(line, ""), in + string(clocks)}
	if end > day {
		out = append(out, in+string(days))
	}
	return out
}

// tickStep is the smallest distance, in minutes, that leaves room for the labels.
func tickStep(columnsPerMinute float64) float64 {
	for _, minutes := range tickMinutes {
		if minutes*columnsPerMinute >= tickRoom {
			return minutes
		}
	}
	return tickMinutes[len(tickMinutes)-1]
}

// labels is one line of labels, ASCII all of them.
type labels []byte

func newLabels(columns int) labels { return labels(strings.Repeat(" ", columns)) }

// put writes a label where it has room and a gap before it.
func (l labels) put(column int, text string) {
	if column+len(text) > len(l) || strings.TrimSpace(string(l[max(0, column-1):column+len(text)])) != "" {
		return
	}
	copy(l[column:], text)
}
