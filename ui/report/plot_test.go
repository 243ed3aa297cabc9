package report

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"holdover/loads/units"
)

// A battery runs down for six hours, stays empty for three, and is charged for three.
var sample = Plot{Start: 21, Length: 12, Unit: "kWh", Top: 6,
	Curve: []Segment{{0, 6, 6, 0}, {6, 9, 0, 0}, {9, 12, 0, 6}},
	Rows:  []Row{{"generator", []Span{{9, 12}}}, {"short", []Span{{6, 9}}}}}

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
`, "\n"), strings.Join(sample.Draw(plotMargin+24, 4, Blocks), "\n")+"\n")
	assert.Equal(t, strings.TrimLeft(`
     6 kWh|#:.                   .:
          |#####:.             .:##
     0 kWh|#########:..      .:####
 generator ..................######
     short ............######......
           +-----+-------+-------+-
           21:00 00:00   04:00
           day 1 day 2
`, "\n"), strings.Join(sample.Draw(plotMargin+24, 3, ASCII), "\n")+"\n")
}

// A stretch far shorter than a column still shows, as less than half of it.
func TestPlot_NothingIsTooShortToShow(t *testing.T) {
	p := Plot{Length: 720, Unit: "kW", Top: 1, Curve: []Segment{{0, 0.01, 1, 1}}, Rows: []Row{{"short", []Span{{360, 360.01}}}}}
	lines := p.Draw(80, 1, Blocks)
	assert.Contains(t, lines[0], "│▁")
	assert.Equal(t, 1, strings.Count(lines[1], Blocks.Some))
	assert.Zero(t, strings.Count(lines[1], Blocks.Whole))
}

// The means over the columns add up to the area under the curve, whatever the width: a trapezium for each piece.
func TestPlot_MeansKeepTheArea(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := Plot{Top: 10}
		at, area := 0.0, 0.0
		for range rapid.IntRange(1, 20).Draw(t, "pieces") {
			s := Segment{FromH: at, ToH: at + rapid.Float64Range(0.001, 30).Draw(t, "hours"),
				Begin: rapid.Float64Range(0, 10).Draw(t, "begin"), End: rapid.Float64Range(0, 10).Draw(t, "end")}
			p.Curve = append(p.Curve, s)
			at, area = s.ToH, area+(s.ToH-s.FromH)*(s.Begin+s.End)/2
		}
		p.Length = units.Hours(at)
		columns, sum := rapid.IntRange(1, 200).Draw(t, "columns"), 0.0
		for _, mean := range p.means(columns) {
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
		lines := p.Draw(width, height, Blocks)
		days := 0
		if float64(p.Start+p.Length) > 24 {
			days = 1
		}
		require.Len(t, lines, height+len(p.Rows)+2+days)
		for _, line := range lines {
			require.LessOrEqual(t, cells(line), width, line)
		}
	})
}

// Ticks stand where their clock time is: under each label the column's time, to a column.
func TestPlot_LabelsStandAtTheirTime(t *testing.T) {
	for _, length := range []float64{0.5, 5, 24, 60, 240, 2160} {
		const columns = 69
		p := Plot{Start: 16.75, Length: units.Hours(length)}
		axis := p.axis(columns, ASCII)
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
