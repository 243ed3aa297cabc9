package waiting

import (
	"context"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"holdover/loads"
	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/planner/effort"
)

func read(t require.TestingT, text string) *home.Home {
	house, err := home.Read([]byte("holdover: 1\n"+text), "home.yaml")
	require.NoError(t, err)
	return house
}

// Each kind of limit: USDA times for food, the pit by its inflow, the house by its cooling, medical equipment never, whatever
// the file says.
func TestLimits_ByKind(t *testing.T) {
	house := read(t, `home: {heat_loss: 220 W/K, heat_capacity: 9 kWh/K}
site: {coldest: -15 C, daily_range: 0 K}
circuits:
  - {name: Refrigerator, like: refrigerator}
  - {name: Freezer, like: freezer-chest}
  - {name: Freezer of ours, like: freezer-chest, needs: {can_wait: 30 h}}
  - {name: Sump, like: sump-pump-third-hp, pit: {room: 60 L, inflow: 20 L/h}}
  - {name: Sump unknown, like: sump-pump-third-hp}
  - {name: Breathing, like: cpap, needs: {can_wait: 5 h}}
  - {name: Boiler, like: boiler-gas}
  - {name: Lamp, running: 10 W}
`)
	limits := Limits(house, 18)
	for i, want := range []units.Hours{4, 24, 30, 3, 1, 0, 13.765} {
		assert.InDelta(t, float64(want), float64(limits[i].Hours), 0.01, limits[i].Circuit)
		assert.NotEmpty(t, limits[i].Source)
	}
	assert.True(t, limits[5].Never())
	assert.Equal(t, units.Hours(48), limits[1].Full)
	assert.False(t, limits[7].Known())
}

// A whole home: the timetable keeps every waiting limit, is proven, and leaves out what can wait and what can not.
func TestTurns_OfAHome(t *testing.T) {
	text, err := os.ReadFile("../../testdata/homes/fit-owned.yaml")
	require.NoError(t, err)
	house, err := home.Read(text, "fit-owned.yaml")
	require.NoError(t, err)
	d := loads.Work(house)
	plan := Work(house, &d, Turns(effort.New(context.Background(), Looks), house, &d, 0))
	table := plan.Turns
	require.True(t, table.Found && table.Proven, table.Says())
	assert.Equal(t, []string{"Chest freezer"}, table.WaitOut)
	assert.InDelta(t, float64(table.Bound), float64(table.Energy), 1e-6)
	holds(t, table)
	require.Len(t, plan.Levels, 3)
	for _, f := range plan.Sheet.Figures() {
		for _, id := range f.From {
			_, ok := plan.Sheet.Get(id)
			assert.True(t, ok, "%s comes from %s", f.ID, id)
		}
	}
}

// holds checks a timetable from its turns alone: limits, and what is on at a time.
func holds(t require.TestingT, table Timetable) {
	for _, r := range table.Rounds {
		last := units.Hours(0)
		for _, turn := range table.Turns {
			if turn.Circuit == r.Circuit {
				require.LessOrEqual(t, float64(turn.From-last), float64(r.Wait)+1e-9, r.Circuit)
				require.Greater(t, turn.To, turn.From)
				last = turn.To
			}
		}
		require.LessOrEqual(t, float64(table.Length-last), float64(r.Wait)+1e-9, "%s at the end", r.Circuit)
	}
	va := map[string]units.VoltAmps{}
	for _, r := range table.Rounds {
		va[r.Circuit] = r.VA
	}
	for _, at := range table.Turns {
		sum := units.VoltAmps(0)
		for _, turn := range table.Turns {
			if turn.From <= at.From && at.From < turn.To-1e-9 {
				sum += va[turn.Circuit]
			}
		}
		require.LessOrEqual(t, float64(sum), float64(table.Allowed)*(1+1e-6))
	}
}

// No waiting limit is ever broken, whatever the home.
func TestTurns_NeverBreakALimit(t *testing.T) {
	found := 0
	rapid.Check(t, func(r *rapid.T) {
		text := "outage: {length: " + rapid.SampledFrom([]string{"5 h", "24 h", "37 h", "80 h", "300 h"}).Draw(r, "length") + ", start: \"13:20\"}\ncircuits:\n"
		for _, like := range []string{"refrigerator", "well-pump-half-hp", "septic-pump", "circulation-pump", "freezer-chest", "sump-pump-third-hp"}[:rapid.IntRange(1, 6).Draw(r, "circuits")] {
			text += "  - {name: " + like + ", like: " + like + ", care: rotate}\n"
		}
		house := read(r, text)
		d := loads.Work(house)
		if table := Turns(effort.New(context.Background(), Looks), house, &d, units.VoltAmps(rapid.SampledFrom([]float64{0, 1000, 3000}).Draw(r, "allowed"))); table.Found {
			found++
			holds(r, table)
		}
	})
	assert.Positive(t, found)
}

func TestTurns_WhatCannotTakeTurns(t *testing.T) {
	house := read(t, "outage: {length: 24 h}\ncircuits:\n  - {name: Breathing, like: cpap, care: rotate}\n  - {name: Modem, like: modem, care: rotate, needs: {can_wait: 2 h}}\n  - {name: Kettle, like: kettle, care: keep}\n")
	d := loads.Work(house)
	table := Turns(effort.New(context.Background(), Looks), house, &d, 0)
	assert.Equal(t, []string{"Breathing", "Modem"}, table.Keep)
	assert.Empty(t, table.Turns)
}

// A heater without frost heaters in a garage that freezes: what its profile says of hot water (12 h) is no answer to frost. One
// that can wait less still waits less; indoors, or without frost, or where it draws nothing, nothing changes.
func TestLimits_AHeaterInFrostCannotWaitLong(t *testing.T) {
	circuits := `circuits:
  - {name: In the garage, like: gas-instant-heater, heater: {stands_in: garage, garage_temp: -10 C}}
  - {name: For half an hour, like: gas-instant-heater, needs: {can_wait: 30 min}, heater: {stands_in: garage, garage_temp: -10 C}}
  - {name: Said to wait, like: gas-instant-heater-outdoor, needs: {can_wait: 9 h}}
  - {name: Indoors, like: gas-instant-heater}
  - {name: Pilot, like: gas-tank-pilot, heater: {stands_in: garage, garage_temp: -10 C}}
  - {name: Own words, heater: {firing: 90 W, standby: 5 W, draw: 40 min, stands_in: outdoors}}
`
	limits := Limits(read(t, "site: {coldest: -15 C, daily_range: 0 K}\n"+circuits), 18)
	for i, want := range []units.Hours{1, 0.5, 1, 12, 720, 1} {
		assert.Equal(t, want, limits[i].Hours, limits[i].Circuit)
	}
	mild := Limits(read(t, "site: {coldest: 5 C, daily_range: 0 K}\n"+circuits), 18)
	assert.Equal(t, units.Hours(9), mild[2].Hours, "outdoors at 5 °C")
}

// What takes turns with frost heaters is on as much as the coldest hour wants: at −10 °C, 14 of 24 K below the cut-in, they are on
// 14/24 of the time, so an hour off is made up for by 1.4 h on, which is a turn of six quarter hours.
func TestTurns_MakeUpForFrostHeaters(t *testing.T) {
	house := read(t, "site: {coldest: -10 C, daily_range: 0 K}\noutage: {length: 24 h}\ncircuits: [{name: Outside, like: gas-instant-heater-outdoor, care: rotate}]\n")
	d := loads.Work(house)
	table := Turns(effort.New(context.Background(), Looks), house, &d, 0)
	require.Len(t, table.Rounds, 1)
	assert.InDelta(t, 1.5, float64(table.Rounds[0].Turn), 1e-9)
	holds(t, table)
}

// A circuit of which nothing says how long it can wait is not said to wait; one that can wait longer than the table but not
// through the outage is not either.
func TestTurns_SayWhatIsNotKnown(t *testing.T) {
	house := read(t, "outage: {length: 300 h}\ncircuits:\n  - {name: Lamp, running: 40 W, care: rotate}\n"+
		"  - {name: Well, running: 800 W, care: rotate, needs: {can_wait: 200 h}}\n  - {name: Tool, running: 800 W, care: rotate, needs: {can_wait: 400 h}}\n")
	d := loads.Work(house)
	table := Turns(effort.New(context.Background(), Looks), house, &d, 0)
	assert.Equal(t, []string{"Lamp"}, table.Unknown)
	assert.Equal(t, []string{"Well (within 200 h)"}, table.Later)
	assert.Equal(t, []string{"Tool"}, table.WaitOut)
	assert.Contains(t, table.Says(), "first 7 days")
}

// By default no two are on together that start harder, or want more watts, than what a plan counts on.
func TestTurns_StayWithinThePlansWorstMoment(t *testing.T) {
	house := read(t, "outage: {length: 24 h}\ncircuits:\n  - {name: Kettle, running: 1500 W, use: {duty: 0.05}, care: rotate, needs: {can_wait: 6 h}}\n"+
		"  - {name: Pump, running: 500 W, power_factor: 0.7, start: {times: 5}, use: {duty: 0.2}, care: rotate, needs: {can_wait: 2 h}}\n"+
		"  - {name: Cooler, running: 400 W, power_factor: 0.7, start: {times: 5}, use: {duty: 0.3}, care: rotate, needs: {can_wait: 3 h}}\n")
	d := loads.Work(house)
	table := Turns(effort.New(context.Background(), Looks), house, &d, 0)
	require.True(t, table.Found)
	holds(t, table)
	for _, a := range table.Turns {
		for _, b := range table.Turns {
			if a.Circuit == "Pump" && b.Circuit == "Cooler" {
				assert.False(t, a.From < b.To-1e-9 && b.From < a.To-1e-9, "the pump's start beside the cooler is not in the plan: %v %v", a, b)
			}
		}
	}
	assert.InDelta(t, 500/0.7*5, float64(d.WorstVA), 0.1)
}
