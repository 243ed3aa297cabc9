package draft

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/profiles"
)

// Both beginnings read without fault, are unsaved, and keep apart from the demo's recovery file.
func TestBegin_ReadsAndIsUnsaved(t *testing.T) {
	t.Setenv("XDG_STATE_HOME", t.TempDir())
	for _, p := range profiles.Circuits() {
		d, err := BeginAppliance(p, "")
		require.NoError(t, err, p.Name)
		require.Len(t, d.Home().Circuits, 1)
		require.Len(t, d.Home().Gear, 1)
		require.InDelta(t, 0.5, float64(d.Home().Outage.Length), 1e-9)
	}
	d, err := BeginHouse("")
	require.NoError(t, err)
	assert.True(t, d.Unsaved())
	assert.Equal(t, "new home", d.Name())
	require.NoError(t, d.NextCare(0))
	assert.NotContains(t, d.Recovery(), "demo")
}

// A home begun under a name writes no home before it is saved, and then exactly there; that it is open here, others are told.
func TestBegin_UnderAName(t *testing.T) {
	folder := t.TempDir()
	path := filepath.Join(folder, "first.yaml")
	require.True(t, Free(path))
	d, err := BeginHouse(path)
	require.NoError(t, err)
	assert.Equal(t, "first.yaml", d.Name())
	assert.True(t, d.Unsaved())
	assert.False(t, d.HasFile())
	entries, err := os.ReadDir(folder)
	require.NoError(t, err)
	require.Len(t, entries, 1)
	assert.Regexp(t, `^\.first\.yaml\.open-\d+-[0-9a-f]+$`, entries[0].Name())

	require.NoError(t, d.Save())
	assert.True(t, d.HasFile())
	assert.False(t, d.Unsaved())
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, string(d.Text()), string(text))
	assert.False(t, Free(path))
}

func TestBegin_AFileThatCameMeanwhileIsSpared(t *testing.T) {
	path := filepath.Join(t.TempDir(), "first.yaml")
	d, err := BeginHouse(path)
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(path, []byte("precious"), 0o644))
	require.ErrorIs(t, d.Save(), ErrChanged)
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, "precious", string(text))
}

// Free is no where something stands, a link to nothing too, and where there is no folder.
func TestFree_WhereNothingIs(t *testing.T) {
	folder := t.TempDir()
	require.NoError(t, os.Symlink("gone.yaml", filepath.Join(folder, "link.yaml")))
	for path, want := range map[string]bool{"new.yaml": true, "link.yaml": false, "no/new.yaml": false, "new/": false, ".": false} {
		assert.Equal(t, want, Free(folder+string(filepath.Separator)+path), path)
	}
}

// Runtimes may be typed as a shop page has them.
func TestRuntimes_AsPeopleTypeThem(t *testing.T) {
	t.Setenv("XDG_STATE_HOME", t.TempDir())
	kettle, _ := profiles.FindCircuit("kettle")
	for _, text := range []string{"50% 11 min, 100% 2.5 min", "[50%, 11 min], [100%, 2.5 min]", "[[50%, 11 min], [100%, 2.5 min]]", "0.5 11 min,1 2.5 min"} {
		d, err := BeginAppliance(kettle, "")
		require.NoError(t, err)
		require.NoError(t, d.Apply(Change{Path{"gear", 0, "runtimes"}, text}), text)
		assert.Equal(t, []home.Runtime{{Load: 0.5, Time: 11}, {Load: 1, Time: 2.5}}, d.Home().Gear[0].Runtimes, text)
		at, err := d.AddUnit()
		require.NoError(t, err)
		require.NoError(t, d.Apply(Change{Path{"gear", at, "watts"}, "600 W"}))
		assert.Equal(t, units.Watts(600), d.Home().Gear[1].Watts)
	}
}

func TestRuntimes_SayWhatIsWrong(t *testing.T) {
	t.Setenv("XDG_STATE_HOME", t.TempDir())
	kettle, _ := profiles.FindCircuit("kettle")
	d, err := BeginAppliance(kettle, "")
	require.NoError(t, err)
	assert.Error(t, d.Apply(Change{Path{"gear", 0, "runtimes"}, "half an hour"}))
	assert.Error(t, d.Apply(Change{Path{"gear", 0, "runtimes"}, "50% 5 min, 100% 6 min"}))
	assert.NotContains(t, string(d.Text()), "runtimes")
}
