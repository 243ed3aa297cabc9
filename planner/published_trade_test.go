package planner_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"holdover/loads/units"
	"holdover/planner/battery"
	"holdover/profiles"
)

func facts(t *testing.T) {
	var p struct {
		Source string
		Facts  []string
	}
	published(t, "trade", &p)
	require.Equal(t, "common practice, no source", p.Source)
	require.Len(t, p.Facts, 4)
}

// Common practice, no source: a gas heater with a control board needs sine; one that lives off its pilot does not care.
func TestTrade_GasHeaterWithControlBoardNeedsSine(t *testing.T) {
	facts(t)
	found := 0
	for _, c := range profiles.Circuits() {
		if c.Group != "water-heating" || !strings.HasPrefix(c.Name, "gas-") || c.Name == "gas-tank-pilot" {
			continue
		}
		found++
		r := planOf(t, "  - {name: Heater, like: "+c.Name+"}\n")
		wave, _ := r.Sheet.Get("load.wave")
		assert.Equal(t, "sine", wave.Word, c.Name)
	}
	assert.GreaterOrEqual(t, found, 4)
}

// Common practice, no source: a modem and a router are content with a stepped wave.
func TestTrade_ModemAndRouterTakeASteppedWave(t *testing.T) {
	facts(t)
	for _, like := range []string{"modem", "router", "modem-and-router"} {
		r := planOf(t, "  - {name: Net, like: "+like+"}\n")
		wave, _ := r.Sheet.Get("load.wave")
		assert.Equal(t, "any", wave.Word, like)
	}
}

// runtimeOf is how long so many usable Wh carry a steady draw through a small unit's own electronics: 85 % and 5 W idle,
// common practice, no source.
func runtimeOf(usable units.WattHours, draw units.Watts) units.Hours {
	var hourly [24]units.Watts
	for i := range hourly {
		hourly[i] = draw
	}
	return battery.Runtime(usable, hourly, 18, 0.85, 5)
}

// Common practice, no source: 30 minutes are ample to finish a shower, and about 0.3 kWh carry a firing heater for it.
func TestTrade_SmallBatteryBridgesAShower(t *testing.T) {
	facts(t)
	for _, like := range []string{"gas-instant-heater", "gas-instant-heater-guarded", "gas-instant-heater-outdoor"} {
		r := planOf(t, "  - {name: Heater, like: "+like+", heater: {stands_in: indoors}}\n")
		firing := units.Watts(r.Demand.Loads[0].Heater.Firing)
		assert.Greater(t, float64(runtimeOf(300, firing)), 0.5, like)
	}
}

// Common practice, no source: on its freeze guard a heater empties a small unit of 100 to 150 Wh in about an hour or less.
func TestTrade_FreezeGuardEmptiesASmallUnitInAnHour(t *testing.T) {
	facts(t)
	r := planOf(t, "  - {name: Heater, like: gas-instant-heater-guarded}\n")
	guard := r.Demand.Loads[0].Heater.FreezeGuard
	for _, usable := range []units.WattHours{100, 125, 150} {
		assert.Less(t, float64(runtimeOf(usable, guard)), 1.1, "%v Wh", float64(usable))
	}
}
