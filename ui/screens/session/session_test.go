package session

import (
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"holdover/ui/disk"
)

// Only our own finished files of this one home are taken for such.
func TestSpot_KnowsItsFiles(t *testing.T) {
	s := spot{"/folder", ".home.yaml"}
	for name, want := range map[string]string{
		".home.yaml.open-1-ab":                       open,
		".home.yaml.unsaved-1-ab":                    unsaved,
		".home.yaml.unsaved-1-ab.aside":              "",
		".home.yaml.unsaved-1-ab.aside2":             "",
		".home.yaml.unsaved-1-ab.holdover-1-2-3.tmp": "",
		".home.yaml.unsaved":                         "",
		".home.yaml.backup-1":                        "",
		".home.yaml2.unsaved-1-ab":                   "",
		".other.yaml.unsaved-1-ab":                   "",
		"home.yaml":                                  "",
	} {
		kind, ok := s.kindOf(name)
		assert.Equal(t, want != "", ok, name)
		if ok {
			assert.Equal(t, want, kind, name)
		}
	}
}

// A home without a file has a name of its own in the state folder, and one with a file the same place by whichever path.
func TestPlace_Spots(t *testing.T) {
	state := t.TempDir()
	t.Setenv("XDG_STATE_HOME", state)
	assert.Equal(t, []spot{{filepath.Join(state, "holdover"), "demo"}}, Without("demo").spots())
	folder := t.TempDir()
	at := At(filepath.Join(folder, "x", "..", "home.yaml"))
	assert.Equal(t, At(filepath.Join(folder, "home.yaml")), at)
	require.Len(t, at.spots(), 2)
	assert.Equal(t, ".home.yaml", at.spots()[0].prefix)
	assert.NotEqual(t, at.spots()[1], At(filepath.Join(folder, "other.yaml")).spots()[1])
}

func TestAbout_IsReadBackAndNothingElseIs(t *testing.T) {
	a := about{Format: format, Process: disk.Self(), Since: time.Now().Round(time.Second), Home: "/a \"b\"\n\x1b[31m", Base: Sum([]byte("x"))}
	assert.Equal(t, 1, strings.Count(string(a.line()), "\n"), "whatever the path, one line")
	assert.NotContains(t, string(a.line()), "\x1b")
	content := append(a.line(), "text\nmore"...)
	read, text, err := parse(content)
	require.NoError(t, err)
	assert.True(t, a.Since.Equal(read.Since))
	read.Since = a.Since
	assert.Equal(t, a, read)
	assert.Equal(t, "text\nmore", string(text))
	for _, wrong := range []string{"", "text", lead, lead + "{}\ntext", strings.Replace(string(content), `"format":1`, `"format":2`, 1), string(a.line()[:40])} {
		_, _, err := parse([]byte(wrong))
		assert.ErrorIs(t, err, errFormat, wrong)
	}
}
