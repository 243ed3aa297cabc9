package loads_test

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"holdover/loads"
)

// write makes a file in a new folder, open to its owner alone, and gives its path.
func write(t *testing.T, text string, mode os.FileMode) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "home.yaml")
	require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
	require.NoError(t, os.Chmod(path, mode))
	return path
}

func content(t *testing.T, path string) string {
	t.Helper()
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	return string(text)
}

// alone holds that nothing was left behind in the folder of path.
func alone(t *testing.T, path string, names int) {
	t.Helper()
	entries, err := os.ReadDir(filepath.Dir(path))
	require.NoError(t, err)
	assert.Len(t, entries, names, "%v", entries)
}

func TestWriteFile_KeepsPermissions(t *testing.T) {
	for _, mode := range []os.FileMode{0o600, 0o640, 0o644, 0o755} {
		path := write(t, "old", mode)
		require.NoError(t, loads.WriteFile(path, []byte("new")))
		info, err := os.Stat(path)
		require.NoError(t, err)
		assert.Equal(t, mode, info.Mode().Perm())
		assert.Equal(t, "new", content(t, path))
		alone(t, path, 1)
	}
}

func TestWriteFile_MakesANewFile(t *testing.T) {
	path := filepath.Join(t.TempDir(), "new.yaml")
	require.NoError(t, loads.WriteFile(path, []byte("text")))
	assert.Equal(t, "text", content(t, path))
	alone(t, path, 1)
}

// A symbolic link goes on pointing where it points, over two links too, and its file is written.
func TestWriteFile_FollowsALink(t *testing.T) {
	path := write(t, "old", 0o640)
	folder := t.TempDir()
	first, second := filepath.Join(folder, "first.yaml"), filepath.Join(folder, "second.yaml")
	require.NoError(t, os.Symlink(path, first))
	require.NoError(t, os.Symlink("first.yaml", second))
	require.NoError(t, loads.WriteFile(second, []byte("new")))
	assert.Equal(t, "new", content(t, path))
	for _, link := range []string{first, second} {
		info, err := os.Lstat(link)
		require.NoError(t, err)
		assert.NotZero(t, info.Mode()&os.ModeSymlink, "%s is no link any more", link)
	}
	alone(t, path, 1)
}

// A link whose file does not exist yet makes that file.
func TestWriteFile_LinkToNothing(t *testing.T) {
	folder := t.TempDir()
	link, target := filepath.Join(folder, "link.yaml"), filepath.Join(folder, "target.yaml")
	require.NoError(t, os.Symlink("target.yaml", link))
	if err := loads.WriteFile(link, []byte("new")); err != nil {
		assert.NoFileExists(t, target)
		return
	}
	info, err := os.Lstat(link)
	require.NoError(t, err)
	assert.NotZero(t, info.Mode()&os.ModeSymlink, "the link was replaced by a file")
	assert.Equal(t, "new", content(t, target))
}

// What may not be written stays as it was, byte for byte, and nothing is left beside it.
func TestWriteFile_FailureLeavesTheOldBytes(t *testing.T) {
	readOnly := write(t, "old", 0o444)
	err := loads.WriteFile(readOnly, []byte("new"))
	require.ErrorContains(t, err, "read-only")
	assert.Contains(t, err.Error(), readOnly)
	assert.Equal(t, "old", content(t, readOnly))
	alone(t, readOnly, 1)

	folder := t.TempDir()
	require.ErrorContains(t, loads.WriteFile(folder, []byte("new")), "not a regular file")

	nowhere := filepath.Join(t.TempDir(), "none", "home.yaml")
	require.ErrorContains(t, loads.WriteFile(nowhere, []byte("new")), "cannot be saved")
	assert.NoFileExists(t, nowhere)

	locked := write(t, "old", 0o644)
	require.NoError(t, os.Chmod(filepath.Dir(locked), 0o500))
	t.Cleanup(func() { os.Chmod(filepath.Dir(locked), 0o700) })
	if err := loads.WriteFile(locked, []byte("new")); err != nil { // the superuser may write even here
		assert.Equal(t, "old", content(t, locked))
	}
	alone(t, locked, 1)
}

func TestReadFile(t *testing.T) {
	home, err := loads.ReadFile(write(t, "holdover: 1\ncircuits:\n  - {name: A, running: 1 W}\n", 0o644))
	require.NoError(t, err)
	assert.Equal(t, "A", home.Circuits[0].Name)

	var faults loads.Faults
	_, err = loads.ReadFile(filepath.Join(t.TempDir(), "none.yaml"))
	require.True(t, errors.As(err, &faults))
	assert.Contains(t, err.Error(), "no such file")
	_, err = loads.ReadFile(t.TempDir())
	require.True(t, errors.As(err, &faults))
	assert.Contains(t, err.Error(), "cannot be read")
}

// What is too large is refused before it fills memory.
func TestTextFrom_StopsAtTheLimit(t *testing.T) {
	text, err := loads.TextFrom(strings.NewReader(strings.Repeat("#", loads.MaxBytes+1000)), "big")
	require.NoError(t, err)
	assert.LessOrEqual(t, len(text), loads.MaxBytes+1)
	_, err = loads.Read(text, "big")
	assert.ErrorContains(t, err, "no home file")
}
