package draft_test

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"holdover/loads/home"
	"holdover/planner"
	"holdover/profiles"
	"holdover/ui/screens/draft"
)

const homeText = `holdover: 1

# The house on the hill.
home: {name: Test house, service: 120/240 V}
outage:
  length: 12 h   # a long night

circuits:
  # Cold food first.
  - name: Cold box
    like: refrigerator
    care: keep
    shares_neutral_with: Oven

  - name: Oven
    running: 1200 W   # measured
    care: rotate
    needs: {can_wait: 6 h}
`

// open writes text to a file in a folder of its own and opens it.
func open(t *testing.T, text string) *draft.Draft {
	t.Helper()
	t.Setenv("XDG_STATE_HOME", t.TempDir())
	path := filepath.Join(t.TempDir(), "house.yaml")
	require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
	d, err := draft.Open(path)
	require.NoError(t, err)
	return d
}

func onDisk(t *testing.T, path string) string {
	t.Helper()
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	return string(text)
}

func TestApply_ChangesOneValueAndLeavesTheRestAlone(t *testing.T) {
	d := open(t, homeText)
	require.NoError(t, d.Apply(draft.Change{Path: draft.Path{"circuits", 1, "running"}, Text: "1.5 kW"}))
	require.Equal(t, strings.Replace(homeText, "1200 W   # measured", "1.5 kW   # measured", 1), string(d.Text()))
	require.EqualValues(t, 1500, d.Home().Circuits[1].Running)
	require.EqualValues(t, 12, d.Result().Home.Outage.Length)
	require.True(t, d.Unsaved())
}

// A plan of the home before an edit does not become the plan of the home after it.
func TestTake_OnlyAPlanOfThisHome(t *testing.T) {
	d := open(t, homeText)
	require.Equal(t, planner.Want{}, d.Result().Has, "the demand is there before anybody has planned")
	early, err := d.Result().More(context.Background(), planner.Verdict())
	require.NoError(t, err)
	require.NoError(t, d.Apply(draft.Change{Path: draft.Path{"circuits", 1, "running"}, Text: "1.5 kW"}))
	d.Take(early)
	require.Same(t, d.Home(), d.Result().Home)
	require.False(t, d.Result().Has.Choice)
	late, err := d.Result().More(context.Background(), planner.Verdict())
	require.NoError(t, err)
	d.Take(late)
	require.Same(t, late, d.Result())
}

func TestApply_EmptyTextInheritsAgain(t *testing.T) {
	d := open(t, homeText)
	like := draft.Path{"circuits", 0, "running"}
	require.NoError(t, d.Apply(draft.Change{Path: like, Text: "90 W"}))
	require.EqualValues(t, 90, d.Home().Circuits[0].Running)
	require.NoError(t, d.Apply(draft.Change{Path: like, Text: ""}))
	require.Equal(t, homeText, string(d.Text()))
	require.False(t, d.Unsaved())
}

func TestApply_RefusesAFaultAndChangesNothing(t *testing.T) {
	d := open(t, homeText)
	err := d.Apply(
		draft.Change{Path: draft.Path{"circuits", 1, "count"}, Text: "2"},
		draft.Change{Path: draft.Path{"circuits", 1, "running"}, Text: "1.5 kWh"})
	var faults home.Faults
	require.ErrorAs(t, err, &faults)
	require.Equal(t, "circuits[1].running", faults[0].Field)
	require.Equal(t, homeText, string(d.Text()))
	require.False(t, d.Undo(), "a refused change is no step")
}

func TestApply_TheNewNameGoesToThePartner(t *testing.T) {
	d := open(t, homeText)
	require.NoError(t, d.Apply(draft.Change{Path: draft.Path{"circuits", 1, "name"}, Text: "Big oven"}))
	require.Equal(t, "Big oven", d.Home().Circuits[0].SharesWith)
	require.True(t, d.Undo())
	require.Equal(t, homeText, string(d.Text()), "the two changes are one step")
}

func TestApply_TheLastNeedTakesTheWholeKeyAlong(t *testing.T) {
	d := open(t, homeText)
	require.NoError(t, d.Apply(draft.Change{Path: draft.Path{"circuits", 1, "needs", "can_wait"}, Text: ""}))
	require.NotContains(t, string(d.Text()), "needs")
}

func TestUndoRedo_GoThroughEveryText(t *testing.T) {
	d := open(t, homeText)
	var texts []string
	for range 7 {
		texts = append(texts, string(d.Text()))
		require.NoError(t, d.NextCare(1))
	}
	last := string(d.Text())
	for i := len(texts) - 1; i >= 0; i-- {
		require.True(t, d.Undo())
		require.Equal(t, texts[i], string(d.Text()))
	}
	require.False(t, d.Undo())
	for range texts {
		require.True(t, d.Redo())
	}
	require.Equal(t, last, string(d.Text()))
	require.False(t, d.Redo())
	require.True(t, d.Undo())
	require.NoError(t, d.Move(0, 1))
	require.False(t, d.Redo(), "a new step forgets what was undone")
}

func TestNextCare_GoesRound(t *testing.T) {
	d := open(t, homeText)
	for _, care := range []home.Care{home.Shed, home.Keep, home.Rotate} {
		require.NoError(t, d.NextCare(1))
		require.Equal(t, care, d.Home().Circuits[1].Care)
	}
}

func TestAdd_NamesAreUniqueAndOrderIsKept(t *testing.T) {
	d := open(t, homeText)
	pump, ok := profiles.FindCircuit("sump-pump-third-hp")
	require.True(t, ok)
	require.NoError(t, d.AddLike(pump, 1))
	require.NoError(t, d.AddLike(pump, 1))
	require.NoError(t, d.AddBlank(4))
	var names []string
	for _, c := range d.Home().Circuits {
		names = append(names, c.Name)
	}
	require.Equal(t, []string{"Cold box", pump.Title + " 2", pump.Title, "Oven", "New circuit"}, names)
}

func TestRemove_TheMentionGoesTooAndTheLastStays(t *testing.T) {
	d := open(t, homeText)
	require.NoError(t, d.Remove(1))
	require.Len(t, d.Home().Circuits, 1)
	require.Empty(t, d.Home().Circuits[0].SharesWith)
	require.Error(t, d.Remove(0))
	require.True(t, d.Undo())
	require.Equal(t, homeText, string(d.Text()))
}

func TestMove_PastTheEndsChangesNothing(t *testing.T) {
	d := open(t, homeText)
	require.NoError(t, d.Move(0, -1))
	require.NoError(t, d.Move(1, 2))
	require.Equal(t, homeText, string(d.Text()))
	require.NoError(t, d.Move(0, 1))
	require.Equal(t, "Oven", d.Home().Circuits[0].Name)
}

func TestOpen_FaultsAreTheError(t *testing.T) {
	path := filepath.Join(t.TempDir(), "bad.yaml")
	require.NoError(t, os.WriteFile(path, []byte("holdover: 1\ncircuits: [{name: A, running: x}, {nam: B}]\n"), 0o644))
	_, err := draft.Open(path)
	var faults home.Faults
	require.ErrorAs(t, err, &faults)
	require.Greater(t, len(faults), 1)
}

func TestInherited_NamesItsSource(t *testing.T) {
	d := open(t, homeText)
	field := func(section, key string) home.Field {
		for _, f := range home.FieldsOf(section) {
			if f.Key == key {
				return f
			}
		}
		t.Fatal("no field " + key)
		return home.Field{}
	}
	for _, c := range []struct {
		path         draft.Path
		section      string
		text, source string
	}{
		{draft.Path{"circuits", 0, "running"}, "circuits", "180 W", "profile refrigerator"},
		{draft.Path{"circuits", 0, "start"}, "circuits", "times: 6", "profile refrigerator"},
		{draft.Path{"circuits", 1, "count"}, "circuits", "1", ""},
		{draft.Path{"circuits", 1, "running_amps"}, "circuits", "", ""}, // running is given
		{draft.Path{"assume", "power_margin"}, "assume", "0.15", "IEEE 485"},
		{draft.Path{"assume", "depth_of_discharge"}, "assume", "0.9", "chemistry lfp"},
		{draft.Path{"limits", "fuels"}, "limits", "gasoline, propane, diesel", ""},
	} {
		text, source := d.Inherited(c.path, field(c.section, c.path[len(c.path)-1].(string)))
		require.Equal(t, c.text, text, draft.FieldName(c.path))
		require.Contains(t, source, c.source, draft.FieldName(c.path))
	}
}
