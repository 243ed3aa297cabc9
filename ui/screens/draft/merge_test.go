package draft_test

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"holdover/profiles"
	"holdover/ui/disk"
	"holdover/ui/screens/draft"
)

// lines says each difference on a line.
func lines(differences []draft.Difference) []string {
	var out []string
	for _, d := range differences {
		out = append(out, fmt.Sprintf("%s (%s): %s | %s", d.Field, d.Of, d.Here, d.There))
	}
	return out
}

const theirs = `holdover: 1
home: {name: Test house, service: 120/240 V}
outage:
  length: 2 h
  start: "06:00"
circuits:
  - {name: Cooker, running: 1200 W, care: rotate, needs: {can_wait: 6 h}}   # the oven, renamed
  - name: Cold box
    like: refrigerator
    care: rotate
    use: {hours_per_day: 3 h}
    shares_neutral_with: Cooker
  - {name: Lamp, running: 10 W}
gear:
  - {name: Unit 1, kind: ups, watts: 300 W}
`

func TestDifferences_FieldByField(t *testing.T) {
	d := open(t, homeText)
	differences, err := d.Differences([]byte(theirs))
	require.NoError(t, err)
	require.Equal(t, []string{
		"outage.length (): 12 h | 2 h",
		"outage.start ():  | 06:00",
		"circuits[0].care (Cold box): keep | rotate",
		"circuits[0].shares_neutral_with (Cold box): Oven | Cooker",
		"circuits[0].use (Cold box):  | {hours_per_day: 3 h}",
		"circuits[1].name (Oven): Oven | Cooker",
		"circuits (Lamp):  | {name: Lamp, running: 10 W}",
		"circuits (order): Cold box, Oven | Cooker, Cold box, Lamp",
		"gear (Unit 1):  | {name: Unit 1, kind: ups, watts: 300 W}",
	}, lines(differences))

	back, err := open(t, theirs).Differences([]byte(homeText))
	require.NoError(t, err)
	require.Len(t, back, len(differences), "the same things, the other way round")
}

func TestDifferences_WritingMakesNone(t *testing.T) {
	d := open(t, homeText)
	for _, text := range []string{
		strings.ReplaceAll(homeText, "#", "# or rather"),
		strings.Replace(homeText, "1200 W", "\"1200 W\"", 1),
		strings.Replace(homeText, "    needs: {can_wait: 6 h}", "    needs:\n      can_wait: 6 h", 1),
	} {
		require.NotEqual(t, homeText, text)
		differences, err := d.Differences([]byte(text))
		require.NoError(t, err)
		require.Empty(t, differences)
	}
	_, err := d.Differences([]byte("holdover: 1\ncircuits: [{nam: x}]\n"))
	require.Error(t, err, "what reads with faults is not compared")
}

// Only what is ticked is taken, comments stay, and it is one step.
func TestMerge_TakesWhatIsTickedAndNoMore(t *testing.T) {
	d := open(t, homeText)
	differences, err := d.Differences([]byte(theirs))
	require.NoError(t, err)
	length, lamp, unit := differences[0], differences[6], differences[8]
	require.NoError(t, d.Merge([]byte(theirs), []draft.Difference{length, lamp, unit}))
	want := strings.Replace(homeText, "length: 12 h   # a long night", "length: 2 h    # a long night", 1)
	want = strings.Replace(want, "  - name: Oven", "  - name: Lamp\n    running: 10 W\n\n  - name: Oven", 1) // behind the cold box, as there
	want += "\ngear:\n  - name: Unit 1\n    kind: ups\n    watts: 300 W\n"
	require.Equal(t, want, string(d.Text()))
	require.True(t, d.Undo())
	require.Equal(t, homeText, string(d.Text()))
	require.False(t, d.Undo())
}

// What together would be a faulty file is refused as a whole.
func TestMerge_RefusesAFault(t *testing.T) {
	d := open(t, homeText)
	differences, err := d.Differences([]byte(theirs))
	require.NoError(t, err)
	require.Error(t, d.Merge([]byte(theirs), differences[3:4]), "the neutral of a circuit that is not there")
	require.Equal(t, homeText, string(d.Text()))
	require.NoError(t, d.Merge([]byte(theirs), append(differences[3:4:4], differences[5])))
}

// Whatever two people made of one home: taking everything leaves no difference, and taking some leaves exactly the others.
func TestMerge_Laws(t *testing.T) {
	t.Setenv("XDG_STATE_HOME", t.TempDir())
	path := filepath.Join(t.TempDir(), "house.yaml")
	rapid.Check(t, func(rt *rapid.T) {
		require.NoError(t, os.WriteFile(path, []byte(homeText+"\n  - {name: Lamp, running: 10 W}\n  - {name: Fan, running: 20 W}   # of the attic\n"), 0o644))
		mine, other := reopen(t, path), reopen(t, path)
		change(rt, mine, "mine")
		change(rt, other, "other")
		differences, err := mine.Differences(other.Text())
		require.NoError(t, err)
		var taken, left []draft.Difference
		for _, d := range differences {
			if rapid.Bool().Draw(rt, "take") {
				taken = append(taken, d)
			} else {
				left = append(left, d)
			}
		}
		before := string(mine.Text())
		if err := mine.Merge(other.Text(), taken); err != nil {
			require.Equal(t, before, string(mine.Text()))
		} else if again, err := mine.Differences(other.Text()); err != nil || len(taken) > 0 {
			require.NoError(t, err)
			require.LessOrEqual(t, len(again), len(left)+2, "%v", lines(again)) // an order of each list may come or go with its items
			for _, field := range again {
				require.True(t, field.Of == "order" || has(left, field), "%s\n%v", lines([]draft.Difference{field}), lines(left))
			}
		}
		rest, err := mine.Differences(other.Text())
		require.NoError(t, err)
		require.NoError(t, mine.Merge(other.Text(), rest))
		rest, err = mine.Differences(other.Text())
		require.NoError(t, err)
		require.Empty(t, lines(rest))
		require.Equal(t, other.Home().Circuits, mine.Home().Circuits)
	})
}

// reopen opens a home whose session ends at once.
func reopen(t *testing.T, path string) *draft.Draft {
	t.Helper()
	d, err := draft.Open(path)
	require.NoError(t, err)
	d.Close()
	d.Rig(unsynced{disk.OS})
	t.Cleanup(d.Discard)
	return d
}

// has says whether a difference is among others, wherever its item stands by now.
func has(all []draft.Difference, one draft.Difference) bool {
	for _, d := range all {
		if d.Of == one.Of && d.Here == one.Here && d.There == one.There {
			return true
		}
	}
	return false
}

// change does a few things that a person may do.
func change(rt *rapid.T, d *draft.Draft, who string) {
	for range rapid.IntRange(0, 5).Draw(rt, who+" steps") {
		at := rapid.IntRange(0, len(d.Home().Circuits)-1).Draw(rt, "at")
		to := rapid.IntRange(0, len(d.Home().Circuits)-1).Draw(rt, "to")
		field := func(text string, path ...any) error { return d.Apply(draft.Change{Path: path, Text: text}) }
		var err error
		switch rapid.IntRange(0, 7).Draw(rt, "what") {
		case 0:
			err = d.NextCare(at)
		case 1:
			err = d.Move(at, to)
		case 2:
			err = d.Remove(at)
		case 3:
			err = d.AddLike(rapid.SampledFrom(profiles.Circuits()).Draw(rt, "profile"), at)
		case 4:
			err = field(fmt.Sprint(rapid.IntRange(1, 3).Draw(rt, "count")), "circuits", at, "count")
		case 5:
			err = field("2 h", "circuits", at, "needs", "can_wait")
		case 6:
			err = field(rapid.SampledFrom([]string{"6 h", "", "36 h"}).Draw(rt, "length"), "outage", "length")
		case 7:
			_, err = d.AddUnit()
		}
		_ = err // what the draft refuses is no change
	}
}

// BenchmarkDifferences sets two homes of a thousand circuits side by side that have not one name in common.
func BenchmarkDifferences(b *testing.B) {
	house := func(name string) []byte {
		text := "holdover: 1\ncircuits:\n"
		for i := range 1000 {
			text += fmt.Sprintf("  - {name: %s %d, running: %d W}\n", name, i, len(name)*1000+i)
		}
		return []byte(text)
	}
	b.Setenv("XDG_STATE_HOME", b.TempDir())
	d, err := draft.New(house("Lamp"))
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if found, err := d.Differences(house("Kettle")); err != nil || len(found) != 2000 {
			b.Fatal(len(found), err)
		}
	}
}
