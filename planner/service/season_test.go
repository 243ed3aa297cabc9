package service

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// NEC 220.60 and 220.61, worked by hand: on the lines the heat of 9 kW counts; on the neutral, where it is not, the cooler of
// 12 A at 115 V does with a quarter of its motor, 5100 + 1380 + 345 VA, 5100/240 + 12 + 3 = 36.25 A.
func TestNEC220_61_TheNeutralHasItsOwnSeason(t *testing.T) {
	sheet, _ := sheetOf(t, `
holdover: 1
home: {floor_area: 1500 ft2}
circuits:
  - {name: Strips, care: shed, volts: 240 V, class: space-heat, nameplate: 9 kW}
  - {name: Cooler, care: shed, volts: 115 V, class: air-conditioning, running_amps: 12 A}
`)
	assert.Equal(t, 9000.0, sheet.Value("service.hvac_va"))
	assert.Equal(t, 14100.0, sheet.Value("service.standard_va"))
	assert.InDelta(t, 1380, sheet.Value("service.neutral_other_va"), 1e-9)
	assert.InDelta(t, 345, sheet.Value("service.neutral_largest_motor_va"), 1e-9)
	assert.InDelta(t, 6825, sheet.Value("service.neutral_va"), 1e-9)
	assert.Equal(t, 36.0, sheet.Value("service.neutral_a"))
}

// A heat pump that its supplemental heat locks out puts nothing on the neutral while that is on, and nothing on the lines.
func TestNEC220_60_WhatIsLockedOutIsNotOn(t *testing.T) {
	sheet, _ := sheetOf(t, `
holdover: 1
home: {floor_area: 1500 ft2}
circuits:
  - {name: Strips, care: shed, volts: 240 V, class: supplemental-heat, nameplate: 10 kW}
  - {name: Pump, care: shed, volts: 240 V, class: heat-pump, running_amps: 20 A, locked_out: true}
`)
	assert.Equal(t, 10000.0, sheet.Value("service.hvac_va"))
	assert.Equal(t, 63.0, sheet.Value("service.standard_a"), "15 100 VA / 240 V = 62.9 A")
	assert.Equal(t, 5100.0, sheet.Value("service.neutral_va"))
}

// NEC 220.82(C)(1), from memory: on a hot day the heat pump cools beside the air conditioner. 10 kVA and 40 % of the rest of
// 9 kVA general load is 9 kVA; 5 + 4 kVA of cooling on top.
func TestNEC220_82_AHeatPumpCoolsToo(t *testing.T) {
	sheet, _ := sheetOf(t, `
holdover: 1
home: {floor_area: 1500 ft2}
circuits:
  - {name: Cooler, care: shed, volts: 240 V, class: air-conditioning, nameplate: 5 kVA}
  - {name: Pump, care: shed, volts: 240 V, class: heat-pump, nameplate: 4 kVA}
`)
	assert.Equal(t, 9000.0, sheet.Value("service.optional_hvac_va"))
	assert.Equal(t, 18000.0, sheet.Value("service.optional_va"))
}
