package report

import (
	"fmt"
	"math"
	"strings"

	"holdover/loads/home"
	"holdover/loads/units"
)

// tickMinutes are the distances between clock times along an axis.
var tickMinutes = []float64{1, 5, 15, 30, 60, 120, 180, 240, 360, 720, day, 2 * day, 5 * day, 10 * day, 20 * day, 50 * day}

const (
	day      = 24 * 60.0 // min
	tickRoom = 8         // columns for a clock time or a day, and a gap
)

// axis is the time axis: a line with ticks, the clock times under it, and the days where the run goes past midnight.
func (p Plot) axis(columns int, g Glyphs) []string {
	perMinute := float64(columns) / (float64(p.Length) * 60)
	begin := float64(p.Start) * 60 // minutes after the first midnight
	end := begin + float64(p.Length)*60
	step := tickStep(perMinute)
	line := []string{g.Tick}
	for range columns - 1 {
		line = append(line, g.Line)
	}
	clocks, days := newLabels(columns), newLabels(columns)
	clocks.put(0, home.Clock(p.Start))
	days.put(0, "day 1")
	for at := math.Ceil(begin/step) * step; at < end; at += step {
		column := int((at - begin) * perMinute)
		line[min(column, columns-1)] = g.Tick
		clocks.put(column, home.Clock(units.Hours(at/60)))
	}
	stride := max(step, day)
	for at := math.Floor(begin/stride+1) * stride; at < end; at += stride {
		days.put(int((at-begin)*perMinute), fmt.Sprintf("day %d", int(at/day)+1))
	}
	indent := plotLabel("", " ")
	out := []string{indent + strings.Join(line, ""), indent + string(clocks)}
	if end > day {
		out = append(out, indent+string(days))
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
