package report

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"holdover/loads/home"
	"holdover/planner"
	"holdover/planner/waiting"
)

var table2 = waiting.Timetable{Start: 22, Length: 6, Slot: 0.5, Found: true, Proven: true,
	Sorting: waiting.Sorting{Rounds: []waiting.Round{{Circuit: "Pump", Wait: 2, Turn: 0.5, Count: 2}, {Circuit: "A name that is much too long for a chart", Wait: 3, Turn: 1, Count: 1}}},
	Turns:   []waiting.Turn{{Circuit: "Pump", From: 2, To: 2.5}, {Circuit: "A name that is much too long for a chart", From: 2.5, To: 3.5}, {Circuit: "Pump", From: 4.5, To: 5}}}

// The picture of a small timetable: twelve half hours from 22:00.
func TestChart_OfASmallTimetable(t *testing.T) {
	assert.Equal(t, []string{
		strings.Repeat(" ", 23) + "22h 00h",
		"Pump                   ....#....#..",
		"A name that is much t~ .....##.....",
	}, Chart(table2, 78))
	narrow := Chart(table2, 20)
	assert.Equal(t, "Pump                   ..#.#.", narrow[1], "two half hours a column")
}

// What is switched when, and no OFF at the end, when supply is back.
func TestCard_OfASmallTimetable(t *testing.T) {
	assert.Equal(t, [][2]string{
		{"00:00 day 2", "ON Pump"},
		{"00:30 day 2", "OFF Pump; ON A name that is much too long for a chart"},
		{"01:30 day 2", "OFF A name that is much too long for a chart"},
		{"02:30 day 2", "ON Pump"},
		{"03:00 day 2", "OFF Pump"},
	}, Card(table2))
}

// Every turn of a real timetable is on the card, and the chart has a row for each circuit.
func TestCard_HasEveryTurn(t *testing.T) {
	house, err := home.ReadFile("../../testdata/homes/fit-owned.yaml")
	require.NoError(t, err)
	table := planner.Wait(t.Context(), planAll(t, house)).Turns
	require.NotEmpty(t, table.Turns)
	ons := 0
	for _, line := range Card(table) {
		_, on, is := strings.Cut(line[1], "ON ")
		if is {
			ons += 1 + strings.Count(on, ", ")
		}
	}
	assert.Equal(t, len(table.Turns), ons)
	assert.Len(t, Chart(table, 78), 1+len(table.Rounds))
}
