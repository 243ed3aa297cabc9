package document

import (
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"holdover/loads/home"
	"holdover/planner"
	"holdover/planner/derive"
	"holdover/planner/waiting"
	"holdover/profiles"
)

func TestDifference_HasASignAndTheHomesUnits(t *testing.T) {
	us := &home.Home{House: home.House{Units: "us"}}
	figure := func(value float64, unit string) derive.Figure { return derive.Figure{Value: value, Unit: unit} }
	for _, c := range []struct {
		first, second derive.Figure
		want          string
	}{
		{figure(100, "W"), figure(350, "W"), "+250 W"},
		{figure(350, "W"), figure(100, "W"), "-250 W"},
		{figure(0, "C"), figure(10, "C"), "+18 °F difference"},
		{figure(20147, "USD"), figure(27402, "USD"), "+7,260 USD"},
		{figure(1, "L"), figure(1, "m3"), ""},
		{derive.Figure{Word: "sine"}, derive.Figure{Word: "any"}, ""},
	} {
		assert.Equal(t, c.want, difference(us, c.first, c.second, true))
	}
	assert.Empty(t, difference(us, figure(1, "W"), figure(2, "W"), false))
}

func TestTheRunnerUpIsNamedWithWhatItCostsMore(t *testing.T) {
	r := planned(t, string(profiles.Demo()))
	r.Outlook.RunnerUp = planner.Battery
	r.Options[0].Cost, r.Options[2].Cost = 27402, 20147
	assert.Equal(t, "The runner-up is a battery: about 7,260 USD more over the planning years (about 27,400 USD in place of about 20,100 USD).", runnerUpText(r))
	r.Outlook.RunnerUp = planner.None
	assert.Equal(t, "There is no runner-up: no other option is open to choose.", runnerUpText(r))
}

var table = waiting.Timetable{Start: 22, Length: 6, Slot: 0.5, Found: true, Proven: true,
	Sorting: waiting.Sorting{Rounds: []waiting.Round{{Circuit: "Pump", Wait: 2, Turn: 0.5, Count: 2}, {Circuit: "A name that is much too long for a chart", Wait: 3, Turn: 1, Count: 1}}},
	Turns:   []waiting.Turn{{Circuit: "Pump", From: 2, To: 2.5}, {Circuit: "A name that is much too long for a chart", From: 2.5, To: 3.5}, {Circuit: "Pump", From: 4.5, To: 5}}}

// What is switched when, and no OFF at the end, when supply is back.
func TestCard_OfASmallTimetable(t *testing.T) {
	assert.Equal(t, Entries{
		{Lead: "00:00 on day 2", Text: "ON Pump"},
		{Lead: "00:30 on day 2", Text: "OFF Pump; ON A name that is much too long for a chart"},
		{Lead: "01:30 on day 2", Text: "OFF A name that is much too long for a chart"},
		{Lead: "02:30 on day 2", Text: "ON Pump"},
		{Lead: "03:00 on day 2", Text: "OFF Pump"},
	}, Card(Worked{Wait: &waiting.Plan{Turns: table}})[1])
	assert.Equal(t, []Marks{
		{Label: "Pump", Spans: []Span{{2, 2.5}, {4.5, 5}}},
		{Label: "A name that is much too long for a chart", Spans: []Span{{2.5, 3.5}}},
	}, turnsChart(table).Rows)
}

// Every turn of a real timetable is on the card.
func TestCard_HasEveryTurn(t *testing.T) {
	house, err := home.ReadFile("../../testdata/homes/fit-owned.yaml")
	require.NoError(t, err)
	r, err := planner.Plan(t.Context(), house, planner.Verdict())
	require.NoError(t, err)
	wait := planner.Wait(t.Context(), r)
	require.NotEmpty(t, wait.Turns.Turns)
	ons := 0
	for _, step := range Card(Worked{Wait: &wait})[1].(Entries) {
		if _, on, is := strings.Cut(step.Text, "ON "); is {
			ons += 1 + strings.Count(on, ", ")
		}
	}
	assert.Equal(t, len(wait.Turns.Turns), ons)
}

// A part of a plan that has nothing to say says nothing, not even its heading; every one is found by its name.
func TestSubjects_OfAHomeThatNeedsNothing(t *testing.T) {
	w := Worked{Plan: planned(t, "holdover: 1\ncircuits:\n  - {name: Pump, running: 1 W, care: shed}\n")}
	seen := map[string]bool{}
	for _, s := range Subjects {
		assert.False(t, seen[s.Name], s.Name)
		seen[s.Name] = true
		says := s.Name == "verdict" || s.Name == "left-off" || s.Name == "cautions"
		assert.Equal(t, says, len(s.Of(w)) > 0, s.Name)
	}
}

// Every table has a name of its own in its document, and a cell for each column, on homes of every kind.
func TestTables_AreNamedAndWhole(t *testing.T) {
	files, err := filepath.Glob("../../testdata/homes/*.yaml")
	require.NoError(t, err)
	for _, file := range files {
		house, err := home.ReadFile(file)
		require.NoError(t, err)
		r, err := planner.Plan(t.Context(), house, planner.Everything())
		require.NoError(t, err)
		w := Worked{Plan: r, Scope: planner.Scope(r)}
		for _, d := range []Document{Plan(w), Scope(w), Figures(r)} {
			names := map[string]bool{}
			for _, block := range d {
				if table, ok := block.(Table); ok {
					assert.Regexp(t, "^[a-z]+$", table.Name, file)
					assert.False(t, names[table.Name], "%s: %s", file, table.Name)
					names[table.Name] = true
					for _, row := range table.Rows {
						assert.Len(t, row, len(table.Columns), "%s: %s", file, table.Name)
					}
				}
			}
		}
	}
}
