//go:build unix

package draft_test

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"holdover/ui/screens/draft"
)

// kills is how often a saving process is killed: go test ./ui/screens/draft -run Faults/kill -kills 1000 -v
var kills = flag.Int("kills", 100, "how often to kill a process while it saves")

// TestFaults is the table of what has been tried against a person's text. What holds in every row: the home file is the whole
// old or the whole new text, the edits are in the draft and in a recovery file or it is said that they are not, and nothing is
// left half written.
func TestFaults(t *testing.T) {
	for _, fault := range []struct {
		name string
		try  func(*testing.T)
	}{
		// A process or a disk that ends in the middle.
		{"kill -9 while saving", killedWhileSaving},
		{"a save: step N fails once", func(t *testing.T) { faultyStep(t, once, faultySave) }},
		{"a save: step N fails and all after it", func(t *testing.T) { faultyStep(t, onwards, faultySave) }},
		{"a save: dead after step N", func(t *testing.T) { faultyStep(t, stopDead, faultySave) }},
		{"an edit: step N fails once", func(t *testing.T) { faultyStep(t, once, faultyEdit) }},
		{"an edit: step N fails and all after it", func(t *testing.T) { faultyStep(t, onwards, faultyEdit) }},
		{"an edit: dead after step N", func(t *testing.T) { faultyStep(t, stopDead, faultyEdit) }},
		{"the folder is not flushed", unconfirmed},
		{"small full disk", fullDisk},
		{"no file may grow", noFileMayGrow},
		{"recovery file damaged", damagedRecovery},

		// Somebody else.
		{"two sessions, the first without an edit", twoSessions},
		{"two sessions, both with edits, then kill -9", twoSessionsWithEdits},
		{"two sessions over a link", twoSessionsOverALink},
		{"process number used again", numberUsedAgain},
		{"died before the last boot", diedBeforeTheBoot},
		{"session elsewhere", sessionElsewhere},
		{"file changed on disk since it was read", changedSinceRead},
		{"file changed since the lost edits were begun", changedSinceEdits},
		{"file of another owner in a shared folder", fileOfAnotherOwner},
		{"link planted under the name of the recovery file", plantedLink},
		{"links and files planted by another owner in a sticky folder", plantedInStickyFolder},
		{"recovery file that others may write", recoveryOpenToOthers},

		// What stands under a name.
		{"pipe", func(t *testing.T) { notAFile(t, "pipe", makePipe) }},
		{"device", func(t *testing.T) { notAFile(t, "device", makeDevice) }},
		{"socket", func(t *testing.T) { notAFile(t, "socket", makeSocket) }},
		{"folder", func(t *testing.T) { notAFile(t, "folder", func(path string) error { return os.Mkdir(path, 0o755) }) }},
		{"link to nothing", linkToNothing},
		{"links in a circle", linksInACircle},
		{"file is read-only", readOnlyFile},
		{"folder is read-only", readOnlyFolder},
		{"folder and state folder are read-only", nowhereToWrite},
		{"file is gone", goneFile},
		{"folder is gone", goneFolder},
		{"longest name", longestName},
	} {
		t.Run(fault.name, fault.try)
	}
}

// other is home with one edit, as NextCare(0) makes it.
var other = strings.Replace(homeText, "care: keep", "care: rotate", 1)

func folderOf(d *draft.Draft) string { return filepath.Dir(d.Path()) }

// reopened is the home at path as the next to open it finds it.
func reopened(t *testing.T, path string) *draft.Draft {
	t.Helper()
	d, err := draft.Open(path)
	require.NoError(t, err)
	t.Cleanup(d.Close)
	return d
}

// unhurt holds what must hold after a save that failed.
func unhurt(t *testing.T, d *draft.Draft, before string) {
	t.Helper()
	assert.Equal(t, before, onDisk(t, d.Path()))
	assert.True(t, d.Unsaved())
	assert.NoError(t, d.RecoveryError())
	assert.Equal(t, string(d.Text()), kept(t, d))
	assert.Empty(t, strays(t, folderOf(d)))
}
