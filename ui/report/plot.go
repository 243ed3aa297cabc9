package report

import (
	"math"
	"strings"

	"holdover/loads/units"
)

// A Plot is a picture of a run in plain values: a curve by time, and under it rows that say when something was so. All times
// are hours after the beginning.
type Plot struct {
	Start  units.Hours // clock time of the beginning
	Length units.Hours // > 0
	Unit   string      // of the curve
	Top    float64     // what the full height stands for, > 0
	Curve  []Segment   // straight pieces, not negative
	Rows   []Row
}

// A Segment is a straight piece of a curve.
type Segment struct{ FromH, ToH, Begin, End float64 }

// A Row is one line of marks.
type Row struct {
	Label string
	Spans []Span
}

// A Span is a stretch of time, h.
type Span struct{ FromH, ToH float64 }

// plotMargin is the room for labels at the left of a picture, in columns.
const plotMargin = 11

// Draw writes the picture as lines of a width in columns, its curve so many rows high. Each column shows the mean of the curve
// over its time; the smallest mean above zero shows the lowest level, and the shortest mark shows.
func (p Plot) Draw(width, height int, g Glyphs) []string {
	columns := max(8, width-plotMargin)
	lines := p.curve(columns, max(1, height), g)
	for _, row := range p.Rows {
		line := plotLabel(row.Label, " ")
		for _, share := range p.shares(row.Spans, columns) {
			line += g.mark(share)
		}
		lines = append(lines, line)
	}
	for _, line := range p.axis(columns, g) {
		lines = append(lines, strings.TrimRight(line, " "))
	}
	return lines
}

func plotLabel(text, side string) string { return pad(text, plotMargin-1, true) + side }

// curve draws the bars, the top row first.
func (p Plot) curve(columns, height int, g Glyphs) []string {
	means := p.means(columns)
	steps := len(g.Levels)
	lines := make([]string, height)
	for row := range lines {
		label := ""
		switch row {
		case 0:
			label = amount(p.Top, p.Unit)
		case height - 1:
			label = amount(0, p.Unit)
		}
		foot := (height - 1 - row) * steps
		var b strings.Builder
		for _, mean := range means {
			b.WriteString(g.bar(level(mean/p.Top, height*steps) - foot))
		}
		lines[row] = plotLabel(label, g.Side) + strings.TrimRight(b.String(), " ")
	}
	return lines
}

// level is how many of all levels a share fills: none only for nothing.
func level(share float64, levels int) int {
	if share <= 1e-9 {
		return 0
	}
	return max(1, int(math.Round(share*float64(levels))))
}

// means is the mean of the curve over the time of each column, exact because the curve is straight between its events.
func (p Plot) means(columns int) []float64 {
	return p.spread(columns, len(p.Curve), func(i int) (Span, func(float64) float64) {
		s := p.Curve[i]
		return Span{s.FromH, s.ToH}, func(atH float64) float64 {
			return s.Begin + (s.End-s.Begin)*(atH-s.FromH)/(s.ToH-s.FromH)
		}
	})
}

// shares is what share of each column's time the spans cover.
func (p Plot) shares(spans []Span, columns int) []float64 {
	return p.spread(columns, len(spans), func(i int) (Span, func(float64) float64) {
		return spans[i], func(float64) float64 { return 1 }
	})
}

// spread averages straight pieces over the columns that they pass through.
func (p Plot) spread(columns, pieces int, piece func(int) (Span, func(atH float64) float64)) []float64 {
	means, each := make([]float64, columns), float64(p.Length)/float64(columns)
	for i := range pieces {
		span, value := piece(i)
		for c := max(0, int(span.FromH/each)); c < columns && float64(c)*each < span.ToH; c++ {
			from, to := max(span.FromH, float64(c)*each), min(span.ToH, float64(c+1)*each)
			if to > from {
				means[c] += value((from+to)/2) * (to - from) / each
			}
		}
	}
	return means
}
