package home_test

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"holdover/loads/home"
)

// write makes a file in a new folder, open to its owner alone, and gives its path.
func write(t *testing.T, text string, mode os.FileMode) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "home.yaml")
	require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
	require.NoError(t, os.Chmod(path, mode))
	return path
}

func TestReadFile(t *testing.T) {
	house, err := home.ReadFile(write(t, "holdover: 1\ncircuits:\n  - {name: A, running: 1 W}\n", 0o644))
	require.NoError(t, err)
	assert.Equal(t, "A", house.Circuits[0].Name)

	var faults home.Faults
	_, err = home.ReadFile(filepath.Join(t.TempDir(), "none.yaml"))
	require.True(t, errors.As(err, &faults))
	assert.Contains(t, err.Error(), "no such file")
	_, err = home.ReadFile(t.TempDir())
	require.True(t, errors.As(err, &faults))
	assert.Contains(t, err.Error(), "cannot be read")
}

// What is too large is refused before it fills memory.
func TestTextFrom_StopsAtTheLimit(t *testing.T) {
	text, err := home.TextFrom(strings.NewReader(strings.Repeat("#", home.MaxBytes+1000)), "big")
	require.NoError(t, err)
	assert.LessOrEqual(t, len(text), home.MaxBytes+1)
	_, err = home.Read(text, "big")
	assert.ErrorContains(t, err, "no home file")
}
