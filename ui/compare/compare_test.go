package compare

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"holdover/loads/home"
	"holdover/loads/units"
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
func TestInputs_NameEachFieldThatDiffers(t *testing.T) {
	first, second := read(t, firstHome), read(t, secondHome)
	says := func(d Differing, first bool) string {
		f := d.Second
		if first {
			f = d.First
		}
		switch {
		case f == nil:
			return "not given"
		case f.Word != "":
			return f.Word
		}
		return units.InSystem(f.Value, f.Unit, units.US)
	}
	got := map[string]string{}
	for _, d := range Inputs(first, second) {
		got[d.ID] = says(d, true) + " | " + says(d, false)
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
	assert.Empty(t, Inputs(first, first))
}

func TestInputs_OfTheHomeFilesForms(t *testing.T) {
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
