package report

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"holdover/loads/home"
	"holdover/planner"
	"holdover/planner/working"
	"holdover/profiles"
)

func read(t *testing.T, text string) *home.Home {
	house, err := home.Read([]byte(text), "home.yaml")
	require.NoError(t, err)
	return house
}

const firstHome = `
holdover: 1
home: {name: Hut, heat_loss: 200 W/K}
site: {elevation: 1000 ft}
outage: {length: 10 h}
circuits:
  - {name: Lamp, running: 100 W, care: keep, count: 2, start: none, use: {duty: 0.5}, needs: {wave: sine}}
  - {name: Kiln, running: 2 kW, care: shed}
  - {name: Heater, care: keep, like: gas-instant-heater, heater: {draw: 40 min}}
`

const secondHome = `
holdover: 1
home: {name: Barn}
site: {elevation: 2000 ft}
outage: {length: 10 h}
limits: {quiet: "22:00-07:00"}
circuits:
  - {name: Pump, running: 500 W, care: rotate}
  - {name: Heater, care: keep, like: gas-instant-heater, heater: {draw: 20 min}}
  - {name: Lamp, running: 100 W, care: rotate, count: 3, start: {times: 4}, use: {minutes_per_day: 60 min}}
`

// Every change is named by its path in the file, with both values; what is alike is not, nor the order, nor the name.
func TestInputDifferences_NameEachFieldThatDiffers(t *testing.T) {
	first, second := read(t, firstHome), read(t, secondHome)
	got := map[string]string{}
	for _, d := range inputDifferences(first, second) {
		got[d.id] = d.text(first, d.first) + " | " + d.text(first, d.second)
	}
	assert.Equal(t, map[string]string{
		"home.heat_loss":               "379 Btu/(h·°F) | not given",
		"site.elevation":               "1,000 ft | 2,000 ft",
		"limits.quiet":                 "not given | 22:00-07:00",
		"circuits[Lamp].care":          "keep | rotate",
		"circuits[Lamp].count":         "2 | 3",
		"circuits[Lamp].start":         "none | {times: 4}",
		"circuits[Lamp].use":           "{duty: 0.5} | {duty: 0.042}",
		"circuits[Lamp].needs.wave":    "sine | any",
		"circuits[Kiln]":               "shed | not given",
		"circuits[Heater].heater.draw": "40 min | 20 min",
		"circuits[Pump]":               "not given | rotate",
	}, got)
	assert.Empty(t, inputDifferences(first, first))
}

func TestInputDifferences_OfTheHomeFilesForms(t *testing.T) {
	for want, start := range map[string]home.Start{
		"none": {Kind: home.NoStart}, "{amps: 60 A}": {Kind: home.StartAmps, Amps: 60},
		"{code: G, hp: 0.5}":                {Kind: home.StartLetter, Letter: "G", HP: 0.5},
		"{watts: 800 W, power_factor: 0.5}": {Kind: home.StartWatts, Watts: 800, PowerFactor: 0.5},
	} {
		assert.Equal(t, want, startWords(start))
	}
	assert.Equal(t, "heating", useWords(home.Use{Kind: home.UseHeating}))
	assert.Equal(t, "always on", useWords(home.Use{}))
	assert.Regexp(t, `^\{hours: \[0, 0\.5, 0, .*\]\}$`, useWords(home.Use{Kind: home.UseHours, Hours: [24]float64{1: 0.5}}))
}

func TestDifference_HasASignAndTheHomesUnits(t *testing.T) {
	us := &home.Home{House: home.House{Units: "us"}}
	figure := func(value float64, unit string) working.Figure { return working.Figure{Value: value, Unit: unit} }
	for _, c := range []struct {
		first, second working.Figure
		want          string
	}{
		{figure(100, "W"), figure(350, "W"), "+250 W"},
		{figure(350, "W"), figure(100, "W"), "-250 W"},
		{figure(0, "C"), figure(10, "C"), "+18 °F difference"},
		{figure(20147, "USD"), figure(27402, "USD"), "+7,260 USD"},
		{figure(1, "L"), figure(1, "m3"), ""},
		{working.Figure{Word: "sine"}, working.Figure{Word: "any"}, ""},
	} {
		assert.Equal(t, c.want, difference(us, c.first, c.second, true))
	}
	assert.Empty(t, difference(us, figure(1, "W"), figure(2, "W"), false))
}

func TestAgainst_TwoHomes(t *testing.T) {
	longer := strings.Replace(string(profiles.Demo()), "length: 24 h", "length: 48 h", 1)
	first, second := planned(t, string(profiles.Demo())), planned(t, longer)
	text := Against(ChosenSide(first), ChosenSide(second), 80)
	assert.Contains(t, text, "\n  - outage.length: first 24 h, second 48 h\n")
	assert.Regexp(t, `\n  Energy over the outage +[0-9,]+ Wh +[0-9,]+ Wh +\+[0-9,]+ Wh\n`, text)
	assert.Regexp(t, `\n  Choice +hybrid +hybrid\n`, text)
	assert.Regexp(t, `\n  In all, estimate +about [0-9,]+ USD +about [0-9,]+ USD +\+[0-9,]+ USD\n`, text)
	assert.Regexp(t, `\n  Outages carried +[0-9.]+ % +[0-9.]+ % +[-+][0-9.]+ points\n`, text)
	assert.NotContains(t, text, "Running draw, all together", "it is the same")
	for _, line := range strings.Split(text, "\n") {
		assert.LessOrEqual(t, cells(line), 80, line)
	}
	same := Against(ChosenSide(first), ChosenSide(planned(t, string(profiles.Demo()))), 80)
	assert.Contains(t, same, "Nothing that the plan rests on.")
}

func TestAgainst_TwoOptionsOfOneHome(t *testing.T) {
	r := planned(t, string(profiles.Demo()))
	battery, _ := r.Option(planner.Battery)
	text := Against(ChosenSide(r), Side{r, battery}, 80)
	assert.Contains(t, text, "Alder Row 12: a hybrid against a battery.\n")
	assert.Regexp(t, `\n  Battery +15 kWh +35 kWh +\+20 kWh\n`, text)
	assert.Contains(t, text, "Why not a battery\n")
	assert.NotContains(t, text, "What differs")
}

// What stands in the differences of the JSON are exactly the figures that differ, and both plans are whole.
func TestAgainstJSON_HoldsBothPlansAndEveryDifference(t *testing.T) {
	first, second := planned(t, firstHome), planned(t, secondHome)
	text, err := AgainstJSON(ChosenSide(first), ChosenSide(second))
	require.NoError(t, err)
	var got struct {
		First, Second json.RawMessage
		Differences   []struct {
			ID            string
			First, Second any
			Unit          *string
		}
	}
	require.NoError(t, json.Unmarshal([]byte(text), &got))
	for i, r := range []*planner.Result{first, second} {
		plan, err := JSON(r)
		require.NoError(t, err)
		assert.JSONEq(t, plan, string([]json.RawMessage{got.First, got.Second}[i]))
	}
	seen := map[string]bool{}
	for _, d := range got.Differences {
		require.False(t, seen[d.ID], d.ID)
		seen[d.ID] = true
		assert.NotEqual(t, d.First, d.Second, d.ID)
		require.NotNil(t, d.Unit)
	}
	for _, f := range first.Sheet.Figures() {
		other, ok := second.Sheet.Get(f.ID)
		assert.Equal(t, !ok || other.Value != f.Value || other.Word != f.Word, seen[f.ID], f.ID)
	}
	for _, id := range []string{"site.elevation", "circuits[Lamp].care", "circuits[Pump]", "circuit.pump.running_w", "option.cost"} {
		assert.True(t, seen[id], id)
	}
	assert.NotContains(t, text, "null,\n          \"second\"")
}
