package screens

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/gdamore/tcell/v2"
	"github.com/stretchr/testify/require"

	"holdover/loads/visible"
)

const trickHome = `holdover: 1
home: {name: "House\u202e\u200b"}
site: {runs: [{name: "Run\u2066\u00ad", length: 20 m}]}
circuits:
  - {name: "Col\u200dd\u202e", like: refrigerator, care: keep}
  - {name: "\u200dPum\u200dp\u200f\U000E0041", like: well-pump-half-hp, care: rotate}
gear:
  - {name: "Unit\u2069\u3164", kind: ups, watts: 900 W}
`

// No screen sends a hidden character to the terminal, not even the field in which the name that has it is typed.
func TestNothingHiddenIsDrawn(t *testing.T) {
	path := filepath.Join(t.TempDir(), "home\u202e.yaml")
	require.NoError(t, os.WriteFile(path, []byte(trickHome), 0o644))
	r := newRig(t, Options{Path: path}, 100, 40)
	for _, keys := range []any{"", "j", "e", tcell.KeyDown, tcell.KeyEscape, "o", "p", "i", "f", "h", "c", "t", "g", tcell.KeyEnter, "T", "w", tcell.KeyDown,
		tcell.KeyEscape, "l", tcell.KeyEscape, "?", " ", "d", "S", tcell.KeyEscape, "q"} {
		r.press(keys)
		cells, _, _ := r.screen.GetContents()
		for _, c := range cells {
			require.Equal(t, visible.Text(string(c.Runes)), string(c.Runes), "after %v", keys)
		}
	}
}

func TestAHiddenCharacterIsNamedBesideItsField(t *testing.T) {
	path := filepath.Join(t.TempDir(), "home.yaml")
	require.NoError(t, os.WriteFile(path, []byte(trickHome), 0o644))
	r := newRig(t, Options{Path: path}, 100, 40)
	r.has("Col<U+200D>d<U+202E>").press("e").has("reads Col<U+200D>d<U+202E>")
	r.press("r", tcell.KeyTab, tcell.KeyCtrlS)
	require.Contains(t, r.file(), `name: "Col\u200Dd\u202Er"`, "what was typed before stays as it is")
}
