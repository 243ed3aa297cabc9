package text

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"holdover/loads/units"
	"holdover/ui/document"
)

// plotMargin is the room left of a chart whose labels are short.
const plotMargin = leastLabel + 1

func drawn(c document.Chart, width, height int, g Glyphs) string {
	return String(document.Document{c}, Style{Width: width, Height: height, Glyphs: g})
}

// A battery runs down for six hours, stays empty for three, and is charged for three.
var sample = document.Chart{Start: 21, Length: 12, Unit: "kWh", Top: 6,
	Curve: []document.Segment{{FromH: 0, ToH: 6, Begin: 6}, {FromH: 6, ToH: 9}, {FromH: 9, ToH: 12, End: 6}},
	Rows:  []document.Marks{{Label: "generator", Spans: []document.Span{{FromH: 9, ToH: 12}}}, {Label: "short", Spans: []document.Span{{FromH: 6, ToH: 9}}}}}

// Worked by hand: each of the 24 columns is half an hour, so column c of the fall has the mean 6·(1 − (c + 0.5)/12), drawn to the
// nearest of 32 levels: 31, 28, 25, …, 1.
func TestPlot_APictureToLookAt(t *testing.T) {
	assert.Equal(t, strings.TrimLeft(`
     6 kWh│▇▄▁                    ▅
          │███▇▄▁               ▃██
          │██████▇▄▁           ▅███
     0 kWh│█████████▇▄▁      ▃█████
 generator ··················▄▄▄▄▄▄
     short ············▄▄▄▄▄▄······
           ┬─────┬───────┬───────┬─
           21:00 00:00   04:00
           day 1 day 2
`, "\n"), drawn(sample, plotMargin+24, 4, Blocks))
	assert.Equal(t, strings.TrimLeft(`
     6 kWh|#:.                   .:
          |#####:.             .:##
     0 kWh|#########:..      .:####
 generator ..................######
     short ............######......
           +-----+-------+-------+-
           21:00 00:00   04:00
           day 1 day 2
`, "\n"), drawn(sample, plotMargin+24, 3, ASCII))
}

// A stretch far shorter than a column still shows, as less than half of it.
func TestPlot_NothingIsTooShortToShow(t *testing.T) {
	p := document.Chart{Length: 720, Unit: "kW", Top: 1, Curve: []document.Segment{{FromH: 0, ToH: 0.01, Begin: 1, End: 1}}, Rows: []document.Marks{{Label: "short", Spans: []document.Span{{FromH: 360, ToH: 360.01}}}}}
	lines := strings.Split(drawn(p, 80, 1, Blocks), "\n")
	assert.Contains(t, lines[0], "│▁")
	assert.Equal(t, 1, strings.Count(lines[1], Blocks.Some))
	assert.Zero(t, strings.Count(lines[1], Blocks.Whole))
}

// The means over the columns add up to the area under the curve, whatever the width: a trapezium for each piece.
func TestPlot_MeansKeepTheArea(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := document.Chart{Top: 10}
		at, area := 0.0, 0.0
		for range rapid.IntRange(1, 20).Draw(t, "pieces") {
			s := document.Segment{FromH: at, ToH: at + rapid.Float64Range(0.001, 30).Draw(t, "hours"),
				Begin: rapid.Float64Range(0, 10).Draw(t, "begin"), End: rapid.Float64Range(0, 10).Draw(t, "end")}
			p.Curve = append(p.Curve, s)
			at, area = s.ToH, area+(s.ToH-s.FromH)*(s.Begin+s.End)/2
		}
		p.Length = units.Hours(at)
		columns, sum := rapid.IntRange(1, 200).Draw(t, "columns"), 0.0
		for _, mean := range (plot{Chart: p, columns: columns}).means() {
			require.False(t, mean < -1e-9 || mean > 10+1e-9)
			sum += mean * at / float64(columns)
		}
		require.InDelta(t, area, sum, 1e-9*math.Max(1, area))
	})
}

func TestPlot_EveryLineKeepsItsWidth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := sample
		p.Start = units.Hours(rapid.Float64Range(0, 23.99).Draw(t, "start"))
		p.Length = units.Hours(rapid.Float64Range(0.02, 2160).Draw(t, "length"))
		width, height := rapid.IntRange(plotMargin+8, 200).Draw(t, "width"), rapid.IntRange(1, 30).Draw(t, "height")
		lines := strings.Split(strings.TrimSuffix(drawn(p, width, height, Blocks), "\n"), "\n")
		days := 0
		if float64(p.Start+p.Length) > 24 {
			days = 1
		}
		require.Len(t, lines, height+len(p.Rows)+2+days)
		for _, line := range lines {
			require.LessOrEqual(t, Cells(line), width, line)
		}
	})
}

// Ticks stand where their clock time is: under each label the column's time, to a column.
func TestPlot_LabelsStandAtTheirTime(t *testing.T) {
	for _, length := range []float64{0.5, 5, 24, 60, 240, 2160} {
		const columns = 69
		p := plot{Chart: document.Chart{Start: 16.75, Length: units.Hours(length)}, glyphs: ASCII, label: leastLabel, columns: columns}
		axis := p.axis()
		line, clocks := axis[0][plotMargin:], axis[1]
		require.GreaterOrEqual(t, strings.Count(line, "+"), 3, "%v h", length)
		for at := plotMargin; at+5 <= len(clocks); at++ {
			if text := clocks[at : at+5]; text[2] == ':' {
				shown := clockHours(t, text)
				at := 16.75 + float64(at-plotMargin)*length/columns
				off := math.Mod(shown-at+2400, 24)
				assert.True(t, off <= length/columns+0.01 || off > 23.98, "%s at column of %.2f h, %v h", text, at, length)
			}
		}
	}
}

func clockHours(t *testing.T, text string) float64 {
	require.Regexp(t, `^\d\d:\d\d$`, text)
	digit := func(i int) float64 { return float64(text[i] - '0') }
	return 10*digit(0) + digit(1) + (10*digit(3)+digit(4))/60
}

// A chart of rows alone has no curve, and as much room for its labels as they need, up to a limit.
func TestChart_OfTurns(t *testing.T) {
	c := document.Chart{Start: 22, Length: 6, Rows: []document.Marks{
		{Label: "Pump", Spans: []document.Span{{FromH: 2, ToH: 2.5}, {FromH: 4.5, ToH: 5}}},
		{Label: "A name that is much too long for a chart", Spans: []document.Span{{FromH: 2.5, ToH: 3.5}}}}}
	assert.Equal(t, strings.TrimLeft(`
                  Pump ········▄▄········▄▄····
A name that is much t… ··········▄▄▄▄··········
                       ┬───────┬───────┬───────
                       22:00   00:00   02:00
                       day 1   day 2
`, "\n"), drawn(c, mostLabel+1+24, 0, Blocks))
}

func TestBars_HeightsAreShares(t *testing.T) {
	bars := func(values []float64, width, height int, g Glyphs) []string {
		w := &writer{Style: Style{Width: width, Height: height, Glyphs: g}}
		w.bars(document.Bars{Values: values, Labels: []string{"00", "01", "02"}[:len(values)], At: 1})
		var lines []string
		for _, line := range w.lines {
			lines = append(lines, strings.TrimRight(line.String(), " "))
		}
		return lines
	}
	assert.Equal(t, []string{
		"      4     █",
		"          ▄ █",
		"        ▄ █ █",
		"      0 █ █ █",
		"        0 1 2",
	}, bars([]float64{1.5, 2.5, 4}, 0, 4, Blocks))
	assert.Equal(t, []string{"      3 ## .. ::", "        00 01 02"}, bars([]float64{3, 0.001, 2}, 17, 1, ASCII), "a little is never nothing")
	assert.Equal(t, []string{"      0", "        0 1"}, bars([]float64{0, 0}, 0, 1, Blocks))
}

// Each bar answers where it is drawn, and nothing beside them does.
func TestBarAt_IsWhereTheBarIsDrawn(t *testing.T) {
	for _, width := range []int{80, 120, 200} {
		for column := range width {
			at, ok := BarAt(column, width, 24)
			assert.Equal(t, column >= barMargin && column < barMargin+24*(BarWidth(width, 24)+1), ok)
			if ok {
				assert.Equal(t, (column-barMargin)/(BarWidth(width, 24)+1), at)
			}
		}
	}
}
