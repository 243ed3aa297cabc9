package screens

import (
	"math"
	"strings"
)

// bars draws values as upright bars, each barWidth cells wide with a gap of one, height rows high, the top row first. The
// tallest value fills the height; every value above zero shows at least the lowest level. Values must not be negative.
func bars(values []float64, barWidth, height int, g glyphs) []string {
	top := 0.0
	for _, v := range values {
		top = max(top, v)
	}
	steps := len(g.levels)
	rows := make([]string, height)
	for r := range rows {
		var b strings.Builder
		floor := (height - 1 - r) * steps // levels below this row
		for _, v := range values {
			b.WriteString(strings.Repeat(barCell(barLevel(v, top, height*steps)-floor, g), barWidth))
			b.WriteByte(' ')
		}
		rows[r] = b.String()
	}
	return rows
}

// barLevel is how many of the levels a value fills.
func barLevel(value, top float64, levels int) int {
	if value <= 0 || top <= 0 {
		return 0
	}
	return max(1, int(math.Round(value/top*float64(levels))))
}

func barCell(level int, g glyphs) string {
	switch {
	case level <= 0:
		return " "
	case level >= len(g.levels):
		return g.levels[len(g.levels)-1]
	}
	return g.levels[level-1]
}
