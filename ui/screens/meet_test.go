package screens

import (
	"os"
	"strings"
	"testing"
	"time"

	"github.com/gdamore/tcell/v2"
	"github.com/stretchr/testify/require"

	"holdover/ui/disk"
	"holdover/ui/screens/draft"
	"holdover/ui/screens/draft/drafttest"
	"holdover/ui/screens/session"
)

// A second session hears of the first before anything else, and may quit with nothing done.
func TestMeet_ASecondSessionIsTold(t *testing.T) {
	path := demoFile(t)
	newRig(t, Options{Path: demoFile(t)}, 80, 24) // ends the session of an earlier test
	first, err := draft.Open(path)
	require.NoError(t, err)
	defer first.Close()
	r := newRig(t, Options{Path: path}, 80, 24)
	r.has("Another session has this home open (pid ").has("Enter go on  arrows")
	r.hasNot("has unsaved edits.")
	r.press(tcell.KeyEscape)
	require.True(t, r.stopped, "Esc changes nothing")

	require.NoError(t, first.NextCare(0))
	theirs, err := os.ReadFile(first.Recovery())
	require.NoError(t, err)
	r = newRig(t, Options{Path: path}, 80, 24)
	r.has("has unsaved edits.")
	r.press("g").hasNot("Another session").press(" ").has("unsaved *").press("q", "x")
	require.True(t, r.stopped)
	after, err := os.ReadFile(first.Recovery())
	require.NoError(t, err)
	require.Equal(t, string(theirs), string(after))
}

func TestMeet_Words(t *testing.T) {
	now := time.Date(2026, 11, 25, 18, 30, 0, 0, time.Local)
	here := session.Other{Process: disk.Process{PID: 4711, Host: "alder"}, Since: now.Add(-27 * time.Minute), Lives: true}
	there := session.Other{Process: disk.Process{PID: 12, Host: "barn"}, Since: now.AddDate(0, 0, -1), Unsaved: true}
	text, elsewhere := aroundText(session.Around{Others: []session.Other{here}}, now)
	require.Equal(t, "Another session has this home open (pid 4711, since 18:03).", text)
	require.False(t, elsewhere)
	text, elsewhere = aroundText(session.Around{Others: []session.Other{here, there}, Strange: []string{"a: why", "b: why", "c: why", "d: why", "e: why"}}, now)
	require.Equal(t, "Another session has this home open (pid 4711, since 18:03). "+
		"A session on barn may have this home open (pid 12, since 24 Nov 18:30). It has unsaved edits. "+
		"Left alone: a: why. Left alone: b: why. Left alone: c: why. And 2 more such files.", text)
	require.True(t, elsewhere)
	text, _ = aroundText(session.Around{}, now)
	require.Empty(t, text)
}

// changedMeanwhile is a home file that was changed after unsaved edits were begun: a circuit's care by one, the length by the
// other.
func changedMeanwhile(t *testing.T) (path, file, edited string) {
	path = demoFile(t)
	edited = died(t, path, " ")
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	file = strings.Replace(string(text), "length: 24 h", "length: 30 h", 1)
	require.NotEqual(t, string(text), file)
	require.NoError(t, os.WriteFile(path, []byte(file), 0o644))
	return path, file, edited
}

func TestMerge_OnlyWhatIsTickedIsTaken(t *testing.T) {
	path, file, _ := changedMeanwhile(t)
	r := newRig(t, Options{Path: path}, 80, 24).has("alder.yaml was changed after").has("[ ]").hasNot("[x]")
	r.has("outage.length").has("30 h").has("24 h").has("circuits[0].care")
	r.press(tcell.KeyEnter).has("nothing is ticked")
	require.Equal(t, file, string(r.app.draft.Text()))
	r.press(tcell.KeyDown, " ").has("[x]").press(tcell.KeyEnter).has("merged 1 of 2").has("verdict")
	require.Equal(t, strings.Replace(file, "care: keep\n", "care: rotate\n", 1), string(r.app.draft.Text()))
	r.press("u")
	require.Equal(t, file, string(r.app.draft.Text()))
	require.Equal(t, file, r.file())
	newRig(t, Options{Path: path}, 80, 24).hasNot("earlier run")
}

func TestMerge_TheOtherWays(t *testing.T) {
	path, file, edited := changedMeanwhile(t)
	r := newRig(t, Options{Path: path}, 80, 24).press("t").has("recovered")
	require.Equal(t, edited, string(r.app.draft.Text()))
	r.press("u")
	require.Equal(t, file, string(r.app.draft.Text()))

	path, file, _ = changedMeanwhile(t)
	r = newRig(t, Options{Path: path}, 80, 24).press("k").has("kept in")
	require.Equal(t, file, string(r.app.draft.Text()))

	path, file, _ = changedMeanwhile(t)
	r = newRig(t, Options{Path: path}, 80, 24).press("x").has("for good?").press("b").has("was changed after")
	r.press(tcell.KeyEscape).has("offered again")
	r = newRig(t, Options{Path: path}, 80, 24).has("was changed after").press("x", "x").has("gone")
	require.Equal(t, file, string(r.app.draft.Text()))
	newRig(t, Options{Path: path}, 80, 24).hasNot("was changed after")
}

// Of two runs that died, the second is offered after the first is decided, and what was taken is not laid over unseen.
func TestMerge_OfTwoRunsTheSecondIsSetBesideTheFirst(t *testing.T) {
	path := demoFile(t)
	for circuit := range 2 {
		d, err := draft.Open(path)
		require.NoError(t, err)
		require.NoError(t, d.NextCare(circuit))
		drafttest.Die(t, d)
	}
	r := newRig(t, Options{Path: path}, 80, 24).has("of an earlier run").press("r")
	first := string(r.app.draft.Text())
	require.Contains(t, r.squeezed(), "These are more unsaved edits of an earlier run")
	r.has("circuits[0].care").has("circuits[1].care").press(" ", tcell.KeyDown, " ", tcell.KeyEnter).has("merged 2 of 2")
	require.NotEqual(t, first, string(r.app.draft.Text()))
	r.press("u")
	require.Equal(t, first, string(r.app.draft.Text()))
}

func TestMerge_AtEverySize(t *testing.T) {
	path, _, _ := changedMeanwhile(t)
	r := newRig(t, Options{Path: path}, 80, 24)
	for width := 1; width <= 140; width += 23 {
		for height := 1; height <= 50; height += 11 {
			r.screen.SetSize(width, height)
			r.draw()
		}
	}
	r.screen.SetSize(80, 24)
	r.draw()
	r.click("circuits[0]").press(" ").has("[x] circuits[0].care")
}
