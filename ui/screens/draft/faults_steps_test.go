//go:build unix

package draft_test

import (
	"errors"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"holdover/ui/disk"
	"holdover/ui/screens/draft/drafttest"
)

// The rows of [TestFaults] in which a process or a disk ends in the middle.

func killedWhileSaving(t *testing.T) {
	t.Setenv("XDG_STATE_HOME", t.TempDir())
	path := filepath.Join(t.TempDir(), "house.yaml")
	texts := []string{homeText + strings.Repeat("# first\n", 8000), other + strings.Repeat("# second\n", 12000)}
	require.NoError(t, os.WriteFile(path, []byte(texts[0]), 0o640))
	halfWritten, seen := 0, [2]int{}
	for range *kills {
		c := start(t, role{Do: "save", Path: path, Texts: texts})
		require.Empty(t, c.told.Save)
		time.Sleep(time.Duration(rand.IntN(20_000)) * time.Microsecond)
		c.kill()
		if len(strays(t, filepath.Dir(path))) > 0 {
			halfWritten++
		}
		switch onDisk(t, path) {
		case texts[0]:
			seen[0]++
		case texts[1]:
			seen[1]++
		default:
			t.Fatal("the file is neither of the texts")
		}
		info, err := os.Stat(path)
		require.NoError(t, err)
		require.EqualValues(t, 0o640, info.Mode().Perm())
		d := reopened(t, path)
		require.Empty(t, strays(t, filepath.Dir(path)), "the next to open clears up")
		d.Close()
	}
	t.Logf("%d kills: %d found the first text, %d the second, %d left a file half written aside", *kills, seen[0], seen[1], halfWritten)
	require.Positive(t, halfWritten, "not one kill came in the middle of a save: this has tried nothing")
}

// faultyStep tries a step that fails at each place in turn, until none is left to fail.
func faultyStep(t *testing.T, how failing, try func(*testing.T, *rigged)) {
	for n := 1; ; n++ {
		r := &rigged{at: n, how: how}
		t.Run(strconv.Itoa(n), func(t *testing.T) { try(t, r) })
		if r.step < n {
			require.Greater(t, n, 5, "there are more steps than that")
			return
		}
	}
}

func faultySave(t *testing.T, r *rigged) {
	d := open(t, homeText)
	t.Cleanup(d.Close)
	require.NoError(t, d.NextCare(0))
	d.Rig(r)
	err := d.Save()
	switch {
	case err == nil:
		assert.Contains(t, []string{"", "own"}, r.what, "a step failed, and that is not said")
		assert.Equal(t, other, onDisk(t, d.Path()))
		assert.False(t, d.Unsaved())
		assert.NoFileExists(t, d.Recovery())
		return
	case r.how == stopDead && r.step >= r.at:
		assert.Contains(t, []string{homeText, other}, onDisk(t, d.Path()))
	case errors.Is(err, disk.ErrUnconfirmed):
		assert.Equal(t, other, onDisk(t, d.Path()))
	default:
		assert.ErrorContains(t, err, d.Path())
		assert.Equal(t, homeText, onDisk(t, d.Path()))
		assert.True(t, d.Unsaved())
	}
	assert.Equal(t, other, string(d.Text()))
	assert.Equal(t, other, kept(t, d))
	if r.how == once {
		assert.Empty(t, strays(t, folderOf(d)))
	}
}

func faultyEdit(t *testing.T, r *rigged) {
	d := open(t, homeText)
	t.Cleanup(d.Close)
	require.NoError(t, d.NextCare(0))
	d.Rig(r)
	require.NoError(t, d.NextCare(0), "an edit is made whether or not it can be kept")
	third := string(d.Text())
	require.NotEqual(t, other, third)
	assert.Equal(t, homeText, onDisk(t, d.Path()))
	if d.RecoveryError() == nil {
		if r.how == stopDead && r.step >= r.at {
			assert.Contains(t, []string{other, third}, kept(t, d))
		} else {
			assert.Equal(t, third, kept(t, d))
		}
		return
	}
	assert.Contains(t, []string{other, third}, kept(t, d), "the edit before is still there, whole")
}

func unconfirmed(t *testing.T) {
	d := open(t, homeText)
	t.Cleanup(d.Close)
	require.NoError(t, d.NextCare(0))
	all := &rigged{at: never}
	require.NoError(t, disk.Replace(all, d.Path(), []byte(homeText)))
	d.Rig(&rigged{at: all.step, how: once}) // the last step
	err := d.Save()
	require.ErrorIs(t, err, disk.ErrUnconfirmed)
	require.Equal(t, other, onDisk(t, d.Path()))
	require.False(t, d.Unsaved())
	require.Equal(t, other, kept(t, d), "until the disk confirms it, the edits are kept here too")
}

func fullDisk(t *testing.T) {
	folder := t.TempDir()
	if !smallDisk(t, folder) {
		t.Skip("no small disk can be mounted here; see the row after this")
	}
	t.Setenv("XDG_STATE_HOME", t.TempDir())
	path := filepath.Join(folder, "house.yaml")
	before := homeText + strings.Repeat("# nearly half of it\n", 1000)
	require.NoError(t, os.WriteFile(path, []byte(before), 0o644))
	d := reopened(t, path)
	filler := make([]byte, 64<<10)
	require.ErrorIs(t, os.WriteFile(filepath.Join(folder, "filler"), filler, 0o600), syscall.ENOSPC)
	require.NoError(t, d.NextCare(0))
	require.ErrorContains(t, d.Save(), "no space left")
	unhurt(t, d, before)
	require.NotEqual(t, folder, filepath.Dir(d.Recovery()), "the edits are kept on another disk")

	require.NoError(t, os.Remove(filepath.Join(folder, "filler")))
	require.NoError(t, d.Save())
	require.Equal(t, string(d.Text()), onDisk(t, path))
}

func noFileMayGrow(t *testing.T) {
	path := filepath.Join(t.TempDir(), "house.yaml")
	require.NoError(t, os.WriteFile(path, []byte(homeText), 0o644))
	told := start(t, role{Do: "edit", Path: path, Edits: 1, Save: true, Tight: true}, state(t.TempDir())).told
	require.Equal(t, other, told.Text)
	require.Contains(t, told.Save, "file too large")
	require.Contains(t, told.Recovery, "file too large", "and that it is nowhere safe is said")
	require.Equal(t, homeText, onDisk(t, path))
	entries, err := os.ReadDir(filepath.Dir(path))
	require.NoError(t, err)
	require.Len(t, entries, 1)
}

func damagedRecovery(t *testing.T) {
	d := open(t, homeText)
	require.NoError(t, d.NextCare(0))
	path := drafttest.Die(t, d)
	require.NoError(t, os.Truncate(path, 40))
	again := reopened(t, d.Path())
	require.Empty(t, again.Around().Left)
	require.Len(t, again.Around().Strange, 1)
	require.Contains(t, again.Around().Strange[0], path)
	require.FileExists(t, path, "a person may still make something of it")
}
