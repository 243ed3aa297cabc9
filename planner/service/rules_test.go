package service

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// NEC 220.53: four or more of 500 VA and up at 75 %, from memory.
func TestNEC220_53_Fastened(t *testing.T) {
	const head = "holdover: 1\nhome: {floor_area: 1500 ft2}\ncircuits:\n"
	const one = "  - {name: F%d, care: shed, volts: 240 V, class: fastened, nameplate: %d VA}\n"
	three := fmt.Sprintf(one+one+one, 1, 1000, 2, 2000, 3, 3000)
	for extra, want := range map[string]float64{
		"":                                   6000, // three
		fmt.Sprintf(one, 4, 500):             0.75 * 6500,
		fmt.Sprintf(one, 4, 400):             6400, // too small to count
		fmt.Sprintf(one+one, 4, 500, 5, 400): 0.75*6500 + 400,
		"  - {name: W, care: shed, volts: 240 V, class: water-heater, nameplate: 4.5 kW}\n":      0.75 * 10500,
		"  - {name: R, care: shed, volts: 240 V, class: range, nameplate: 12 kW}\n":              6000, // not of them
		"  - {name: C, care: shed, count: 2, volts: 240 V, class: cooktop, nameplate: 1.5 kW}\n": 0.75 * 9000,
	} {
		sheet, _ := sheetOf(t, head+three+extra)
		assert.InDelta(t, want, sheet.Value("service.fastened_va"), 1e-6, extra)
	}
}

// NEC Table 220.54, from memory: the first rows and its formulas.
func TestNEC220_54_Dryers(t *testing.T) {
	for number, want := range map[int]float64{1: 1, 4: 1, 5: 0.85, 6: 0.75, 7: 0.65, 8: 0.60, 9: 0.55, 10: 0.50, 11: 0.47, 12: 0.46, 23: 0.35, 24: 0.345, 42: 0.255, 43: 0.25, 100: 0.25} {
		assert.InDelta(t, want, nec(t, "nec-2020").Dryers().Share(number), 1e-9, "%d", number)
	}
	sheet, _ := sheetOf(t, "holdover: 1\nhome: {floor_area: 1500 ft2}\ncircuits: [{name: D, care: shed, count: 5, volts: 240 V, class: dryer, nameplate: 4 kW}]\n")
	assert.InDelta(t, 0.85*5*5000, sheet.Value("service.dryer_va"), 1e-6, "5000 VA each at least")
}

// NEC Table 220.55, every row to 25 of column C and of the shares, typed a second time, from memory.
func TestNEC220_55_EveryRow(t *testing.T) {
	a := []float64{80, 75, 70, 66, 62, 59, 56, 53, 51, 49, 47, 45, 43, 41, 40, 39, 38, 37, 36, 35, 34, 33, 32, 31, 30}
	b := []float64{80, 65, 55, 50, 45, 43, 40, 36, 35, 34, 32, 32, 32, 32, 32, 28, 28, 28, 28, 28, 26, 26, 26, 26, 26}
	c := []float64{8, 11, 14, 17, 20, 21, 22, 23, 24, 25, 26, 27, 28, 29, 30, 31, 32, 33, 34, 35, 36, 37, 38, 39, 40}
	rules := nec(t, "nec-2020").Cooking()
	for i := range a {
		row := rules.Row(i + 1)
		assert.Equal(t, [3]float64{a[i] / 100, b[i] / 100, c[i]}, [3]float64{row.A, row.B, row.ColumnCKW(i + 1)}, "%d", i+1)
	}
	for number, want := range map[int][3]float64{26: {0.30, 0.24, 41}, 30: {0.30, 0.24, 45}, 31: {0.30, 0.22, 46}, 40: {0.30, 0.22, 55}, 41: {0.30, 0.20, 55.75},
		50: {0.30, 0.20, 62.5}, 51: {0.30, 0.18, 63.25}, 60: {0.30, 0.18, 70}, 61: {0.30, 0.16, 70.75}} {
		row := rules.Row(number)
		assert.InDeltaSlice(t, want[:], []float64{row.A, row.B, row.ColumnCKW(number)}, 1e-9, "%d", number)
	}
}

// NEC 220.55 notes 1 to 3, worked by hand.
func TestNEC220_55_Notes(t *testing.T) {
	for _, c := range []struct {
		all  []cooker
		want float64 // VA
	}{
		{[]cooker{{12, 1}}, 8000},
		{[]cooker{{9, 1}}, 8000},
		{[]cooker{{8.75, 1}}, 7000},                // note 3: 80 % of 8.75 kW is less than 8 kW
		{[]cooker{{8, 1}}, 6400},                   // note 3
		{[]cooker{{12.4, 1}}, 8000},                // less than a major fraction above 12
		{[]cooker{{12.6, 1}}, 8400},                // note 1, 5 %
		{[]cooker{{16, 1}}, 9600},                  // 20 %
		{[]cooker{{27, 1}}, 14000},                 // 75 %
		{[]cooker{{30, 1}}, 30000},                 // beyond the table
		{[]cooker{{3, 2}}, 4500},                   // column A, 75 % of 6 kW
		{[]cooker{{3, 1}, {5, 1}}, 6400},           // columns A and B, each for one: 80 % of both
		{[]cooker{{12, 1}, {6, 1}}, 11000},         // column C for two is less than 8 + 4.8
		{[]cooker{{4, 2}, {5.1, 1}}, 7205},         // as in Annex D2(b)
		{[]cooker{{2, 1}}, 1600},                   // never more than its share
		{[]cooker{{16, 2}}, 11000 * 1.2},           // note 1 for two
		{[]cooker{{10, 1}, {14, 1}}, 11000 * 1.05}, // note 2: they average 13 with the 10 taken for 12
	} {
		got, how := cookingVA(nec(t, "nec-2020"), c.all)
		assert.InDelta(t, c.want, got, 1e-6, "%v: %s", c.all, how)
	}
}

// NEC 220.61(B): the neutral above 200 A at 70 %, worked by hand: 60 kVA on 120 V, no other 120 V load.
func TestNEC220_61_NeutralAbove200A(t *testing.T) {
	sheet, _ := sheetOf(t, "holdover: 1\nhome: {floor_area: 1500 ft2}\ncircuits: [{name: Kiln, care: shed, volts: 120 V, class: other, nameplate: 60 kVA}]\n")
	assert.Equal(t, 65100.0, sheet.Value("service.neutral_va")) // 5100 + 60 000
	assert.Equal(t, 250.0, sheet.Value("service.neutral_a"))    // 200 + 0.7 · 71.25 = 249.9
}

// NEC 220.60 and 430.24: a heat pump counts in both seasons, its supplemental heat in one; a locked-out compressor and its
// strips are not added.
func TestNEC220_60_Seasons(t *testing.T) {
	const pump = "holdover: 1\nhome: {floor_area: 1500 ft2}\ncircuits:\n  - {name: P, care: shed, volts: 240 V, class: heat-pump, nameplate: 5 kVA%s}\n  - {name: S, care: shed, volts: 240 V, class: supplemental-heat, nameplate: 10 kW}\n"
	for locked, want := range map[string][3]float64{ // heating, the larger, a quarter of the motor
		"":                   {15000, 15000, 1250},
		", locked_out: true": {10000, 10000, 0},
	} {
		sheet, _ := sheetOf(t, fmt.Sprintf(pump, locked))
		assert.Equal(t, want[0], sheet.Value("service.heating_va"), locked)
		assert.Equal(t, 5000.0, sheet.Value("service.cooling_va"), locked)
		assert.Equal(t, want[1], sheet.Value("service.hvac_va"), locked)
		assert.Equal(t, want[2], sheet.Value("service.largest_motor_va"), locked)
	}
}

// NEC 220.83, worked by hand on the dwelling of Annex D2(b): 32 800 VA and 10 080 VA of air conditioning.
func TestNEC220_83_Existing(t *testing.T) {
	const homeText = `
holdover: 1
home: {floor_area: 1500 ft2}
circuits:
  - {name: Cooking, care: shed, volts: 240 V, class: range, nameplate: 13.1 kW}
  - {name: Water, care: shed, volts: 240 V, class: water-heater, nameplate: 4.5 kW}
  - {name: Dishes, care: shed, class: fastened, nameplate: 1.2 kW}
  - {name: Dryer, care: shed, volts: 240 V, class: dryer, nameplate: 5 kW}
  - {name: Cooling, care: shed, volts: 240 V, class: air-conditioning, nameplate: 10.08 kVA%s}
`
	sheet, _ := sheetOf(t, fmt.Sprintf(homeText, ""))
	assert.InDelta(t, 8000+0.4*(42880-8000), sheet.Value("service.existing_va"), 1e-6, "(A)")
	sheet, _ = sheetOf(t, fmt.Sprintf(homeText, ", added: true"))
	assert.InDelta(t, 8000+0.4*(32800-8000)+10080, sheet.Value("service.existing_va"), 1e-6, "(B)")
}

// NEC 220.87, worked by hand: 125 % of 9.6 kW and 4 kVA that is new. Thirty days may not be used with solar panels.
func TestNEC220_87_Measured(t *testing.T) {
	const homeText = "holdover: 1\nhome: {floor_area: 1500 ft2, service_amps: 100 A, measured_demand: 9.6 kW%s}\nsite: {%s}\ncircuits: [{name: New, care: shed, volts: 240 V, class: other, nameplate: 4 kVA, added: true}]\n"
	sheet, out := sheetOf(t, fmt.Sprintf(homeText, "", ""))
	assert.Equal(t, 16000.0, sheet.Value("service.measured_va"))
	assert.Equal(t, 67.0, sheet.Value("service.measured_a"))
	assert.Equal(t, "service.standard_va", out.LeastBy, "5100 + 4000 VA is less")
	_, out = sheetOf(t, strings.Replace(fmt.Sprintf(homeText, ", measured_over: 30-days", "sun: {kwh_per_day: 10}"), "9.6", "1", 1))
	assert.NotEqual(t, "service.measured_va", out.LeastBy)
}
