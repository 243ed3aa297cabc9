package draft

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"holdover/loads/home/edit"
)

func named(t *testing.T, name string) *Draft {
	t.Helper()
	d, err := begin("holdover: 1\nhome: {name: "+edit.Quote(name)+"}\ncircuits: [{name: Lamp, running: 5 W}]\n", "")
	require.NoError(t, err)
	return d
}

func TestOffer_IsMadeOfTheHomesName(t *testing.T) {
	for name, want := range map[string]string{
		"Alder Row 12": "alder-row-12.yaml", "  Über/../Straße #5 ": "über-straße-5.yaml", "???": "home.yaml", "Hut\u3164\u202e2": "hut-2.yaml", "-": "home.yaml",
		"one two three four five six seven eight nine": "one-two-three-four-five-six-seven-eight.yaml",
	} {
		assert.Equal(t, want, named(t, name).Offer(), name)
	}
}

func TestCompleted_AddsWhatWasNotTyped(t *testing.T) {
	folder := t.TempDir()
	require.NoError(t, os.Mkdir(filepath.Join(folder, "homes"), 0o755))
	t.Chdir(folder)
	d := named(t, "Hut")
	for typed, want := range map[string]string{
		"": "hut.yaml", "first": "first.yaml", "first.yaml": "first.yaml", "first.yml": "first.yml", "first.txt": "first.txt",
		"my.d/first": "my.d/first.yaml", "homes": filepath.Join("homes", "hut.yaml"), "none/": filepath.Join("none", "hut.yaml"),
	} {
		assert.Equal(t, want, d.Completed(typed), typed)
	}
}
