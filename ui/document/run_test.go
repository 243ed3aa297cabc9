package document

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/planner"
	"holdover/planner/choose"
	"holdover/planner/outage"
	"holdover/planner/sheet"
	"holdover/profiles"
)

// shortOfFuel is carried by nothing: three litres of gasoline last for a part of the night only.
const shortOfFuel = `
holdover: 1
home: {name: Hut, service: 120 V, units: si}
outage: {length: 30 h, start: "18:00", season: mild}
circuits:
  - {name: Pump, care: keep, running: 900 W, start: none, use: {duty: 1}}
limits: {fuels: [gasoline], fuel_store: 3 L, battery_place: none}
`

// ran is an option with a battery of 4 kWh that ran so.
func ran(carried bool, trace ...outage.Step) planner.Option {
	o := planner.Option{Kind: planner.Hybrid, Carried: carried, Trace: trace}
	o.Outcome.Modules, o.Outcome.Start = 1, 18
	o.Outcome.Run = outage.Summary{BeginKWh: 4, ShortAt: math.Inf(1)}
	return o
}

func whats(o planner.Option) (out []string) {
	for _, e := range events(o) {
		out = append(out, clockOn(o, e.atH)+" "+e.what)
	}
	return out
}

func TestEvents_AreReadOffTheTrace(t *testing.T) {
	o := ran(false,
		outage.Step{From: 0, To: 2, BeginKWh: 4, EndKWh: 1},
		outage.Step{From: 2, To: 5, BeginKWh: 1, EndKWh: 4, GeneratorKW: 2, On: true},
		outage.Step{From: 5, To: 6, BeginKWh: 4, EndKWh: 4, GeneratorKW: 1, On: true},
		outage.Step{From: 6, To: 8, BeginKWh: 4, EndKWh: 0},
		outage.Step{From: 8, To: 8.5, ShortKW: 1.5},
		outage.Step{From: 8.5, To: 9, ShortKW: 1},
		outage.Step{From: 9, To: 9.5, GeneratorKW: 1, On: true})
	assert.Equal(t, []string{"20:00 generator starts", "23:00 battery full", "00:00 on day 2 generator stops", "02:00 on day 2 battery empty",
		"02:00 on day 2 short of 1.5 kW", "03:00 on day 2 generator starts", "03:00 on day 2 all supplied again"}, whats(o))
	o.Carried = true // what is short then is rounding
	assert.NotContains(t, strings.Join(whats(o), ""), "short")
}

func TestEvents_FuelGoneIsWhereTheGeneratorRanLast(t *testing.T) {
	o := ran(false, outage.Step{From: 0, To: 3, GeneratorKW: 1, On: true}, outage.Step{From: 3, To: 4, ShortKW: 1})
	o.Outcome.Machine = &choose.Machine{Engine: sheet.Engine{Store: units.AtMost(2)}}
	o.Outcome.Run.Fuel = 2
	assert.Equal(t, []string{"18:00 generator starts", "21:00 fuel gone, generator stops", "21:00 short of 1 kW"}, whats(o))
	o.Outcome.Run.Fuel = 1.9
	assert.Contains(t, whats(o), "21:00 generator stops")
	o.Outcome.Run.Fuel, o.Trace = 2, o.Trace[:1]
	assert.Equal(t, []string{"18:00 generator starts", "21:00 fuel gone"}, whats(o))
	o.Outcome.Machine.Store = units.Limit{} // piped
	assert.Equal(t, []string{"18:00 generator starts"}, whats(o))
}

// Of very many events the grave ones are never among those left out.
func TestEvents_TheGraveOnesAlwaysShow(t *testing.T) {
	var trace []outage.Step
	for h := 0.0; h < 40; h += 2 {
		trace = append(trace, outage.Step{From: h, To: h + 1, BeginKWh: 2, EndKWh: 1}, outage.Step{From: h + 1, To: h + 2, BeginKWh: 1, EndKWh: 2, On: true})
	}
	o := ran(false, append(trace, outage.Step{From: 40, To: 41, BeginKWh: 2, EndKWh: 0}, outage.Step{From: 41, To: 42, ShortKW: 3})...)
	d := runEvents(o)
	require.Len(t, d, 2)
	rows := d[0].(Table).Rows
	assert.Equal(t, "battery empty", rows[len(rows)-2][0].Text)
	assert.Equal(t, "short of 3 kW", rows[len(rows)-1][0].Text)
	assert.Equal(t, Note("and 28 more starts, stops and the like"), d[1])
}

// On homes of every kind: as many starts as the run counts, and the first shortfall where the option says.
func TestEvents_AgreeWithTheSummary(t *testing.T) {
	for name, text := range map[string]string{"demo": string(profiles.Demo()), "short of fuel": shortOfFuel, "small": smallHome} {
		for _, o := range planned(t, text).Options {
			if !o.Outcome.Real() {
				continue
			}
			starts, shortAt := 0, math.Inf(1)
			for _, e := range events(o) {
				if e.what == "generator starts" {
					starts++
				}
				if strings.HasPrefix(e.what, "short of") {
					shortAt = min(shortAt, e.atH)
				}
			}
			assert.Equal(t, o.Outcome.Run.Starts, starts, "%s, %s", name, o.Kind)
			if o.FellShortAt == nil {
				assert.True(t, math.IsInf(shortAt, 1), "%s, %s", name, o.Kind)
			} else {
				assert.InDelta(t, *o.FellShortAt, shortAt, 1e-9, "%s, %s", name, o.Kind)
			}
		}
	}
}

func TestQuietSpans(t *testing.T) {
	night := home.QuietHours{From: 22, To: 7}
	assert.Equal(t, []Span{{4, 13}, {28, 37}, {52, 60}}, quietSpans(night, 18, 60))
	assert.Equal(t, []Span{{0, 4}, {19, 24}}, quietSpans(night, 3, 24), "it begins within them")
	assert.Equal(t, []Span{{12, 14}}, quietSpans(home.QuietHours{From: 12, To: 14}, 0, 24))
	assert.Nil(t, quietSpans(home.QuietHours{}, 0, 24))
	assert.Nil(t, quietSpans(night, 8, 10))
}

const smallHome = `
holdover: 1
home: {name: Hut, service: 230 V, units: si}
outage: {length: 10 h, season: mild}
circuits:
  - {name: A refrigerator whose name is so long that it cannot stand beside its own figures, care: keep, running: 150 W, power_factor: 0.8, start: {times: 4}, use: {duty: 0.5}}
  - {name: Lamps, count: 3, care: rotate, running: 60 W, start: none, use: {duty: 0.1}}
  - {name: Oven, care: shed, running: 2 kW}
`

func planned(t testing.TB, text string) *planner.Result {
	house, err := home.Read([]byte(text), "home.yaml")
	require.NoError(t, err)
	r, err := planner.Plan(t.Context(), house, planner.Everything())
	require.NoError(t, err)
	return r
}
