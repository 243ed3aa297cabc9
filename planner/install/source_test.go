package install

import (
	"fmt"
	"strings"
	"testing"

	"holdover/loads/home"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// machine is a portable machine of 7.5 kVA and 6 kW.
func machine(neutral string) Source {
	return Source{Name: "generator", Engine: true, RatedKVA: 7.5, SiteKVA: 7.5, SiteKW: 6, EngineKVA: 7.5, Volts: 240, EngineVolts: 240, Legs: 2, Neutral: neutral, Derate: 0.8}
}

const ratedHome = `
holdover: 1
home: {floor_area: 1500 ft2, service_amps: 200 A, transfer: %s}
circuits:
  - {name: Pump, care: keep, volts: 240 V, running: %s, start: none, class: motor}
  - {name: Washer, care: rotate, running: 100 W, start: none}
  - {name: Toaster, care: shed, running: 1 kW, start: none}
  - {name: Strips, care: shed, volts: 240 V, class: space-heat, nameplate: 9 kW}
`

// The pump with the washer's 0.1 kW, worked by hand as √(P² + Q²): 4 kW at 0.7 come to 5785 VA and fit 7.5 kVA and 6 kW; 5 kW
// come to 7213 VA and fit; 5.6 kW to 8070 VA, too many; 6.2 kW at 0.95 to 6622 VA, which fit, and to too many watts.
func TestRule_VAAgainstKVAAndWAgainstKW(t *testing.T) {
	for running, ok := range map[string]bool{"4 kW, power_factor: 0.7": true, "5 kW, power_factor: 0.7": true, "5.6 kW, power_factor: 0.7": false, "6.2 kW, power_factor: 0.95": false} {
		s := scopeOf(t, fmt.Sprintf(ratedHome, home.Manual, running), machine(floating))
		assert.Equal(t, ok, s.Rules[0].OK, running)
		assert.Equal(t, 7500.0, s.Rules[0].HasVA)
		assert.Equal(t, 6000.0, s.Rules[1].HasVA, "Article 220 counts a kVA as a kW")
	}
}

// Load management counts on every circuit left off being off, of 120 V too, and on the turns; whatever the file does not list
// it must keep off as well.
func TestManaged_EveryCircuitThatIsCountedOff(t *testing.T) {
	large := machine(floating)
	large.RatedKVA, large.SiteKVA, large.SiteKW, large.EngineKVA = 24, 24, 24, 24
	s := scopeOf(t, fmt.Sprintf(ratedHome, home.Managed, "4 kW"), large)
	found := false
	for _, item := range s.Equipment {
		if strings.HasPrefix(item.Item, "Load management") {
			found = true
			assert.Equal(t, 3, item.Quantity)
			for _, name := range []string{"Washer", "Toaster", "Strips", "does not list"} {
				assert.Contains(t, item.Detail, name)
			}
			assert.NotContains(t, item.Detail, "Pump")
		}
	}
	assert.True(t, found)
}

// A portable machine does not start by itself, so an automatic switch has nothing to wait for.
func TestAutomatic_AsksWhoStartsTheMachine(t *testing.T) {
	fixed := machine(floating)
	fixed.Fixed = true
	assert.True(t, hasCheck(scopeOf(t, fmt.Sprintf(ratedHome, home.Automatic, "4 kW"), machine(floating)), Needs, "start of generator"))
	assert.False(t, hasCheck(scopeOf(t, fmt.Sprintf(ratedHome, home.Automatic, "4 kW"), fixed), Needs, "start of"))
	assert.False(t, hasCheck(scopeOf(t, fmt.Sprintf(ratedHome, home.Manual, "4 kW"), machine(floating)), Needs, "start of"))
}

// NEC 710.15(C), from memory: a single leg is refused whatever its sheet leaves out; cells alone feed nothing.
func TestNEC710_15C_WhateverTheSheetLeavesOut(t *testing.T) {
	const homeText = "holdover: 1\ncircuits: [{name: Pump, care: keep, volts: 240 V, running: 1 kW}]\ngear:\n  - {name: Small, kind: generator, volts: 120 V}\n  - {name: Untold, kind: power-station}\n  - {name: Cells, kind: battery, volts: 48 V}\n  - {name: Tall, kind: generator, volts: 240 V, legs: 2}\n"
	s := scopeOf(t, homeText, Source{Name: "Small", Offered: true, Volts: 120, Legs: 1}, Source{Name: "Untold", Offered: true, Untold: true, Volts: 120, Legs: 1},
		Source{Name: "Cells", Offered: true, Cells: true, Volts: 48, Legs: 1}, Source{Name: "Tall", Offered: true, Volts: 240, Legs: 2})
	require.Len(t, s.Refusals, 2)
	assert.Equal(t, "Small", s.Refusals[0].Source)
	assert.Contains(t, s.Refusals[1].Reason, "gives no volts")
	for _, c := range s.Cautions {
		if c.ID == "two-pole-on-120" {
			assert.True(t, strings.HasPrefix(c.Text, "Small, Untold: "), c.Text)
		}
	}
}

// Where the source of the job itself is refused, the sheet says so among its checks.
func TestScope_ARefusedSourceFails(t *testing.T) {
	single := machine(floating)
	single.Volts, single.EngineVolts, single.Legs = 120, 120, 1
	assert.True(t, hasCheck(scopeOf(t, fmt.Sprintf(ratedHome, home.Manual, "4 kW"), single), Fail, "source"))
	assert.False(t, hasCheck(scopeOf(t, fmt.Sprintf(ratedHome, home.Manual, "4 kW"), machine(floating)), Fail, "source"))
}
