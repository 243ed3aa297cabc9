package draft_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"holdover/loads/home"
	"holdover/ui/screens/draft"
)

// formOf makes a form on some fields of circuit 1, in the order given.
func formOf(d *draft.Draft, keys ...string) *draft.Form {
	var fields []draft.FormField
	for _, key := range keys {
		for _, f := range home.FieldsOf("circuits") {
			if f.Key == key {
				fields = append(fields, draft.FormField{Path: draft.Path{"circuits", 1, key}, Field: f})
			}
		}
	}
	return draft.NewForm(d, fields)
}

func TestForm_AFaultIsSaidAndNothingTypedIsLost(t *testing.T) {
	d := open(t, homeText)
	f := formOf(d, "running", "breaker")
	f.Type(0, "1.5 kWh")
	require.Contains(t, f.Fields[0].Fault, "a power is wanted")
	require.Empty(t, f.Fields[1].Fault)
	require.False(t, f.Commit())
	require.Equal(t, "1.5 kWh", f.Text(0))
	require.Equal(t, homeText, string(d.Text()))

	f.Type(1, "20 A")
	require.False(t, f.Commit(), "the bad one still waits")
	require.EqualValues(t, 20, d.Home().Circuits[1].Breaker, "the good one went in")
	require.NotEmpty(t, f.Fields[0].Fault)
	require.True(t, d.Undo())
	require.Empty(t, f.Text(1), "what went in no longer waits here")
	require.True(t, d.Redo())

	f.Type(0, "1.5 kW")
	require.Empty(t, f.Fields[0].Fault)
	require.True(t, f.Commit())
	require.EqualValues(t, 1500, d.Home().Circuits[1].Running)
}

func TestForm_TwoFieldsThatAreOnlyGoodTogetherGoInTogether(t *testing.T) {
	d := open(t, homeText)
	f := formOf(d, "running", "running_amps")
	f.Type(1, "10 A")
	require.Contains(t, f.Fields[1].Fault+f.Fields[0].Fault, "both running and running_amps")
	require.False(t, f.Commit())
	f.Type(0, "")
	require.Empty(t, f.Fields[0].Fault+f.Fields[1].Fault)
	require.True(t, f.Commit())
	require.EqualValues(t, 10, d.Home().Circuits[1].RunningAmps)
	require.True(t, d.Undo())
	require.Equal(t, homeText, string(d.Text()))
}

func TestForm_OuterBracketsMayBeLeftOff(t *testing.T) {
	for typed, want := range map[string]string{
		"times: 4":         "start: {times: 4}",
		"{times: 4}":       "start: {times: 4}",
		"code: G, hp: 0.5": "start: {code: G, hp: 0.5}",
		"none":             "start: none",
	} {
		d := open(t, homeText)
		f := formOf(d, "start")
		f.Type(0, typed)
		require.Empty(t, f.Fields[0].Fault, typed)
		require.True(t, f.Commit())
		require.Contains(t, string(d.Text()), want)
	}
}

func TestForm_YAMLTypedByMischanceStaysText(t *testing.T) {
	for _, typed := range []string{"# no", "a: b", "[x]", "{", "- y", "*z", "&w", "\"", "'", "!!int 3", "yes", "null", "a # b", "é☃"} {
		d := open(t, homeText)
		f := formOf(d, "name")
		f.Type(0, typed)
		require.True(t, f.Commit(), "%q: %s", typed, f.Fields[0].Fault)
		require.Equal(t, typed, d.Home().Circuits[1].Name)
		require.Len(t, d.Home().Circuits, 2)
	}
	for _, typed := range []string{"{", "times: [", "times: 4}, x: {", "a: &b 1", "times: 4, times: 5", ": :", "times: 4 # x"} {
		d := open(t, homeText)
		f := formOf(d, "start")
		f.Type(0, typed)
		require.NotEmpty(t, f.Fields[0].Fault, typed)
		require.False(t, f.Commit(), typed)
		require.Equal(t, homeText, string(d.Text()))
	}
}

func TestForm_DropPutsBackWhatTheFileHas(t *testing.T) {
	f := formOf(open(t, homeText), "running")
	f.Type(0, "lots")
	f.Drop()
	require.Equal(t, "1200 W", f.Text(0))
	require.Empty(t, f.Fields[0].Fault)
	require.True(t, f.Commit())
}

// A clock time has a colon and is no mapping; a mapping may be typed without its colon.
func TestForm_MappingsAsPeopleTypeThem(t *testing.T) {
	d := open(t, homeText)
	start, use := draft.Path{"circuits", 1, "start"}, draft.Path{"circuits", 1, "use"}
	for _, c := range []struct {
		path        draft.Path
		typed, want string
	}{
		{draft.Path{"outage", "start"}, "19:30", "19:30"}, {draft.Path{"outage", "start"}, "worst", "worst"},
		{start, "times 4", "times: 4"}, {start, "{times: 5}", "times: 5"}, {start, "code G, hp 0.5", "code: \"G\", hp: 0.5"},
		{start, "amps: 30 A", "amps: \"30 A\""}, {start, "none", "none"},
		{use, "hours_per_day 3 h", "hours_per_day: \"3 h\""}, {use, "minutes_per_day: 40 min", "minutes_per_day: \"40 min\""},
	} {
		require.NoError(t, d.Apply(draft.Change{Path: c.path, Text: c.typed}), c.typed)
		got, _ := d.Typed(c.path)
		require.Equal(t, strings.ReplaceAll(c.want, `"`, ""), strings.ReplaceAll(got, `"`, ""), c.typed)
	}
	require.ErrorContains(t, d.Apply(draft.Change{Path: use, Text: "now and then"}), `unknown key "now"`)
}
