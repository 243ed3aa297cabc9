package service

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"holdover/loads"
	"holdover/loads/home"
	"holdover/loads/units"
)

// wanted is what a source must give by the 2020 edition.
func wanted(t testing.TB, text string, way home.TransferMode) Want {
	house := readHome(t, text)
	d := loads.Work(house)
	return Wanted(house, house.Code(), &d, way)
}

const mixed = `
holdover: 1
home: {floor_area: 1500 ft2}
circuits:
  - {name: Lamps, care: keep, running: 300 W, class: lighting}
  - {name: Pump, care: keep, volts: 240 V, running: 1 kW, start: none, class: motor}
  - {name: Range, care: rotate, volts: 240 V, running: 3 kW, nameplate: 12 kW, start: none, class: range}
  - {name: Water, care: rotate, volts: 240 V, running: 4.5 kW, start: none, class: water-heater}
  - {name: Strips, care: shed, volts: 240 V, running: 9 kW, start: none, class: space-heat}
`

// By hand, the lowest of the methods, which is 220.83 in each: automatic 8000 + 40 % of (9000 + 1000 + 12 000 + 4500 + 9000 − 8000) =
// 19 000 VA; managed with the range, the worse of the turns, 8000 + 40 % of (9000 + 1000 + 12 000 − 8000) = 13 600, and by the
// standard method 5100 + 8000 + 1000 + 250 = 14 350; with the water heater 8000 + 0.4 · 6500 = 10 600 VA. home.Manual: the chosen circuits
// alone, 300 + 1000 + 4500 W.
func TestWanted_ByWay(t *testing.T) {
	manual := wanted(t, mixed, home.Manual)
	assert.True(t, manual.Known)
	assert.Equal(t, units.VoltAmps(5800), manual.VA)
	assert.Equal(t, units.Watts(5800), manual.W)
	automatic := wanted(t, mixed, home.Automatic)
	assert.InDelta(t, 19000, float64(automatic.VA), 1e-6)
	assert.InDelta(t, 19000, float64(automatic.W), 1e-6, "a kVA counts as a kW")
	managed := wanted(t, mixed, home.Managed)
	assert.InDelta(t, 13600, float64(managed.VA), 1e-6)
	assert.Equal(t, []string{"home.floor_area", "circuits[1].nameplate", "circuits[2].nameplate"}, managed.From)
	for _, w := range []Want{manual, automatic, managed} {
		assert.Equal(t, "NEC 702.4, 2020 edition, from memory", w.Rule.Source())
		assert.NotEmpty(t, w.Why)
	}
}

// An automatic transfer asks the calculated load and no more, whatever the plates add up to: here 8 · 5 kW and lamps are 40.3 kW,
// and 8000 + 40 % of (9000 + 40 000 − 8000) = 24 400 VA are asked.
func TestWanted_AutomaticIsNeverTheSumOfPlates(t *testing.T) {
	text := "holdover: 1\nhome: {floor_area: 1500 ft2}\ncircuits:\n  - {name: Lamps, care: keep, running: 300 W, class: lighting}\n  - {name: Dryers, care: keep, count: 8, volts: 240 V, running: 5 kW, start: none, class: other}\n"
	assert.InDelta(t, 24400, float64(wanted(t, text, home.Automatic).VA), 1e-6)
	assert.InDelta(t, 40300, float64(wanted(t, text, home.Manual).VA), 1e-6)
	assert.InDelta(t, 24400, float64(wanted(t, text, home.Managed).VA), 1e-6, "nothing is left off")
}

// Lighting and receptacles stay on whatever their care, since nothing manages them. Of a class the larger turn counts.
func TestWanted_WhatCannotBeManagedStays(t *testing.T) {
	off := strings.Replace(mixed, "{name: Lamps, care: keep", "{name: Lamps, care: shed", 1)
	assert.Equal(t, wanted(t, mixed, home.Managed).VA, wanted(t, off, home.Managed).VA)
	smaller := mixed + "  - {name: Tank, care: rotate, volts: 240 V, running: 2 kW, start: none, class: range}\n"
	assert.Equal(t, wanted(t, mixed, home.Managed).VA, wanted(t, smaller, home.Managed).VA)
	measured := strings.Replace(mixed, "1500 ft2", "1500 ft2, measured_demand: 8 kW", 1)
	assert.InDelta(t, 10000, float64(wanted(t, measured, home.Automatic).VA), 1e-6, "125 % of 8 kW")
	assert.InDelta(t, 10000, float64(wanted(t, measured, home.Managed).VA), 1e-6, "never more than the whole")
}

// Where the code or the file does not say, neither does the answer; what a person chooses is known everywhere.
func TestWanted_NotKnown(t *testing.T) {
	noArea := strings.Replace(mixed, "floor_area: 1500 ft2", "name: No area", 1)
	elsewhere := "holdover: 1\nhome: {service: 230 V, floor_area: 140 m2}\ncircuits: [{name: Lamps, care: keep, running: 300 W}]\n"
	for _, text := range []string{noArea, elsewhere} {
		assert.True(t, wanted(t, text, home.Manual).Known)
		assert.False(t, wanted(t, text, home.Automatic).Known)
		assert.False(t, wanted(t, text, home.Managed).Known)
		assert.NotEmpty(t, wanted(t, text, home.Automatic).Why)
	}
}
