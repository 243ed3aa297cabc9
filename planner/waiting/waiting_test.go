package waiting

import (
	"context"
	"os"
	"strings"
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

// turnsOf is the timetable of a home, from the hour that its plan begins at.
func turnsOf(house *home.Home) Timetable {
	carried, sorting := Carried(house)
	return Turns(effort.New(context.Background(), Looks), sorting, house.Outage.Length, loads.AtBest(carried).Start)
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
	plan := Work(house, &d, turnsOf(house))
	table := plan.Turns
	require.True(t, table.Found && table.Proven, table.Says())
	assert.Equal(t, []string{"Chest freezer"}, table.WaitOut)
	assert.InDelta(t, float64(table.Bound), float64(table.Energy), 1e-6)
	holds(t, table)
	require.Len(t, plan.Levels, 3)
	for _, f := range plan.Sheet.All() {
		for _, id := range f.From {
			_, ok := plan.Sheet.Get(id)
			assert.True(t, ok, "%s comes from %s", f.ID, id)
		}
	}
}

// holds checks a timetable from its turns alone: one at a time, no wait too long, and in every stretch the time on makes up for the
// time off but for what the longest wait leaves: since any moment before, off·d − on·(1 − d) is no more than wait·d.
func holds(t require.TestingT, table Timetable) {
	for i, turn := range table.Turns {
		require.Greater(t, turn.To, turn.From)
		require.LessOrEqual(t, turn.To, table.Length)
		if i > 0 {
			require.GreaterOrEqual(t, float64(turn.From), float64(table.Turns[i-1].To)-1e-9, "two at a time")
		}
	}
	for _, r := range table.Rounds {
		edges := []units.Hours{0}
		for _, turn := range table.Turns {
			if turn.Circuit == r.Circuit {
				edges = append(edges, turn.From, turn.To)
			}
		}
		edges = append(edges, table.Length)
		for i := 0; i < len(edges); i += 2 { // a stretch of debt begins with a wait and ends with one
			debt := 0.0
			for k := i; k < len(edges)-1; k++ {
				if length := float64(edges[k+1] - edges[k]); k%2 == 0 {
					require.LessOrEqual(t, length, float64(r.Wait)+1e-9, r.Circuit)
					debt += length * r.Duty
				} else {
					debt -= length * (1 - r.Duty)
				}
				require.LessOrEqual(t, debt, float64(r.Wait)*r.Duty+1e-4, "%s owes too much", r.Circuit)
			}
		}
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
		if table := turnsOf(house); table.Found {
			found++
			holds(r, table)
		}
	})
	assert.Positive(t, found)
}

func TestTurns_WhatCannotTakeTurns(t *testing.T) {
	house := read(t, "outage: {length: 24 h}\ncircuits:\n  - {name: Breathing, like: cpap, care: rotate}\n  - {name: Modem, like: modem, care: rotate, needs: {can_wait: 2 h}}\n  - {name: Kettle, like: kettle, care: keep}\n")
	table := turnsOf(house)
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
// 14/24 of the time, so an hour off is made up for by 1.4 h on, and of 24 h it is on in 14/24 of all but the last hour.
func TestTurns_MakeUpForFrostHeaters(t *testing.T) {
	house := read(t, "site: {coldest: -10 C, daily_range: 0 K}\noutage: {length: 24 h}\ncircuits: [{name: Outside, like: gas-instant-heater-outdoor, care: rotate}]\n")
	table := turnsOf(house)
	require.Len(t, table.Rounds, 1)
	assert.InDelta(t, 14.0/24, table.Rounds[0].Duty, 1e-9)
	assert.InDelta(t, 1.4, float64(table.Rounds[0].Turn), 0.25)
	on := units.Hours(0)
	for _, turn := range table.Turns {
		on += turn.To - turn.From
	}
	assert.InDelta(t, 23*14.0/24, float64(on), 0.25)
	holds(t, table)
}

// A circuit of which nothing says how long it can wait is not said to wait; one that can wait longer than the table but not
// through the outage is not either.
func TestTurns_SayWhatIsNotKnown(t *testing.T) {
	house := read(t, "outage: {length: 300 h}\ncircuits:\n  - {name: Lamp, running: 40 W, care: rotate}\n"+
		"  - {name: Well, running: 800 W, care: rotate, needs: {can_wait: 200 h}}\n  - {name: Tool, running: 800 W, care: rotate, needs: {can_wait: 400 h}}\n")
	table := turnsOf(house)
	assert.Equal(t, []string{"Lamp"}, table.Unknown)
	assert.Equal(t, []string{"Well (within 200 h)"}, table.Later)
	assert.Equal(t, []string{"Tool"}, table.WaitOut)
	assert.Contains(t, table.Says(), "first 7 days")
}

// The refrigerator and the freezer of a small flat: were each turn as long as the longest wait wants, the freezer's of 10 h would
// keep the refrigerator waiting for more than its 4. Shorter waits of the freezer want shorter turns, and there is a timetable.
// Three that leave a tenth of the time have one too, though one of them can wait for half an hour only.
func TestTurns_AreShorterAfterAShorterWait(t *testing.T) {
	for _, text := range []string{`outage: {length: 72 h, start: "08:00", season: mild}
circuits:
  - {name: Refrigerator, care: rotate, running: 180 W, use: {duty: 0.35}, needs: {can_wait: 4 h}}
  - {name: Freezer, care: rotate, running: 120 W, use: {duty: 0.30}, needs: {can_wait: 24 h}}
`, `outage: {length: 24 h, start: "18:00", season: winter}
circuits:
  - {name: Refrigerator, care: rotate, running: 180 W, use: {duty: 0.35}, needs: {can_wait: 1 h}}
  - {name: Sump pump, care: rotate, running: 650 W, use: {duty: 0.25}, needs: {can_wait: 30 min}}
  - {name: Furnace, care: rotate, running: 600 W, use: {duty: 0.3}, needs: {can_wait: 2 h}}
`} {
		house := read(t, text)
		table := turnsOf(house)
		require.True(t, table.Found, table.Says())
		holds(t, table)
	}
}

// Where the rules of thumb find nothing in slots of any length, the search still may.
func TestTurns_BySearch(t *testing.T) {
	table := turnsOf(read(t, `outage: {length: 8 h}
circuits:
  - {name: A, care: rotate, running: 100 W, use: {duty: 0.35}, needs: {can_wait: 2 h}}
  - {name: B, care: rotate, running: 100 W, use: {duty: 0.40}, needs: {can_wait: 30 min}}
  - {name: C, care: rotate, running: 100 W, use: {duty: 0.45}, needs: {can_wait: 2 h}}
`))
	require.True(t, table.Found)
	holds(t, table)
	for _, table.Slot = range slots {
		require.Nil(t, byRule(nil, table.jobs(), table.count()).on)
	}
}

// Where slots of 15 min are too long a shorter one is taken: four that hardly draw anything and can wait for 20 min have a slot of
// 5 min each in every 20. Five have none, which is proven, but of slots of 5 min only; and it says which waits least.
func TestTurns_InShorterSlots(t *testing.T) {
	circuits := "  - {name: A, running: 10 W, use: {duty: 0.01}, care: rotate, needs: {can_wait: 20 min}}\n"
	text := "outage: {length: 10 h}\ncircuits:\n" + circuits
	for _, name := range []string{"B", "C", "D", "E"} {
		text += strings.Replace(circuits, "A", name, 1)
	}
	house := read(t, text)
	table := turnsOf(house)
	require.True(t, table.Found)
	assert.InDelta(t, 1.0/12, float64(table.Slot), 1e-9)
	holds(t, table)
	house = read(t, text+"  - {name: Least, running: 10 W, use: {duty: 0.01}, care: rotate, needs: {can_wait: 15 min}}\n")
	table = turnsOf(house)
	require.False(t, table.Found)
	assert.True(t, table.Proven)
	assert.Contains(t, table.Says(), "in slots of 5 min: set Least, which waits least,")
}

// Where the outage ends within a slot, what fails only in the minutes after its end proves nothing: four that can wait for 10 min
// do not all get one of three slots, the last of which begins 1 min before the end.
func TestTurns_AtAnEndWithinASlot(t *testing.T) {
	for length, proven := range map[string]bool{"11 min": false, "15 min": true} {
		text := "outage: {length: " + length + "}\ncircuits:\n"
		for _, name := range []string{"A", "B", "C", "D"} {
			text += "  - {name: " + name + ", running: 10 W, use: {duty: 0.01}, care: rotate, needs: {can_wait: 10 min}}\n"
		}
		house := read(t, text)
		table := turnsOf(house)
		assert.False(t, table.Found)
		assert.Equal(t, proven, table.Proven, length)
	}
}

// What carries a home is sized for the circuits that get a turn, and for those that cannot wait as kept, just as the timetable has
// them: equipment that somebody breathes by is kept whatever the file says, and what gets no turn sizes nothing.
func TestCarried_IsWhatTheTimetableHas(t *testing.T) {
	house := read(t, "outage: {length: 24 h}\ncircuits:\n  - {name: Breathing, like: cpap, care: rotate}\n  - {name: Modem, like: modem, care: rotate, needs: {can_wait: 2 h}}\n"+
		"  - {name: Freezer, like: freezer-chest, care: rotate}\n  - {name: Lamp, running: 40 W, care: rotate}\n  - {name: Refrigerator, like: refrigerator, care: rotate}\n"+
		"  - {name: Kettle, like: kettle, care: shed}\n")
	carried, _ := Carried(house)
	for i, want := range []home.Care{home.Keep, home.Keep, home.Shed, home.Keep, home.Rotate, home.Shed} {
		assert.Equal(t, want, carried.Circuits[i].Care, carried.Circuits[i].Name)
	}
	assert.Equal(t, home.Rotate, house.Circuits[0].Care, "the home itself stays as it is")
	table := turnsOf(house)
	require.Len(t, table.Rounds, 1)
	assert.Equal(t, "Refrigerator", table.Rounds[0].Circuit)
	again, _ := Carried(carried)
	assert.Same(t, carried, again, "sorted once, nothing is left to sort")
}
