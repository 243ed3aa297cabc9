//go:build unix

package draft_test

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"holdover/ui/disk"
	"holdover/ui/screens/draft"
	"holdover/ui/screens/draft/drafttest"
)

// The rows of [TestFaults] in which there is somebody else.

func twoSessions(t *testing.T) {
	d := open(t, homeText)
	d.Close()
	first := start(t, role{Do: "edit", Path: d.Path(), Stay: true})
	second := reopened(t, d.Path())
	others := second.Around().Others
	require.Len(t, others, 1)
	require.Equal(t, first.Process.Pid, others[0].Process.PID)
	require.WithinDuration(t, time.Now(), others[0].Since, time.Minute)
	require.True(t, others[0].Lives)
	require.False(t, others[0].Unsaved)
	second.Close()

	first.kill()
	third := reopened(t, d.Path())
	require.Empty(t, third.Around().Others, "the mark of a dead process counts no more")
	third.Close()
	entries, err := os.ReadDir(folderOf(d))
	require.NoError(t, err)
	require.Len(t, entries, 1, "and is removed")
}

func twoSessionsWithEdits(t *testing.T) {
	d := open(t, homeText)
	d.Close()
	first := start(t, role{Do: "edit", Path: d.Path(), Edits: 1, Stay: true})
	theirs := onDisk(t, first.told.RecoveryFile)

	second := reopened(t, d.Path())
	require.True(t, second.Around().Others[0].Unsaved)
	require.Empty(t, second.Around().Left)
	require.NoError(t, second.NextCare(1))
	require.NotEqual(t, first.told.RecoveryFile, second.Recovery())
	require.NoError(t, second.Save())
	require.NoError(t, second.NextCare(1))
	second.Discard()
	second.Close()
	require.Equal(t, theirs, onDisk(t, first.told.RecoveryFile), "nothing of the first session is touched")

	first.kill()
	third := reopened(t, d.Path())
	require.Len(t, third.Around().Left, 1)
	require.Equal(t, first.told.Text, string(third.Around().Left[0].Text))
	require.False(t, third.IsBase(third.Around().Left[0]), "the second session saved meanwhile")
}

func twoSessionsOverALink(t *testing.T) {
	d := open(t, homeText)
	d.Close()
	link := filepath.Join(t.TempDir(), "link.yaml")
	require.NoError(t, os.Symlink(d.Path(), link))
	start(t, role{Do: "edit", Path: link, Stay: true})
	require.Len(t, reopened(t, d.Path()).Around().Others, 1)
}

// doctored is the recovery file of a session of this process with something else in its first line.
func doctored(t *testing.T, old, new string) (d *draft.Draft, path string) {
	t.Helper()
	d = open(t, homeText)
	require.NoError(t, d.NextCare(0))
	content := strings.Replace(onDisk(t, d.Recovery()), old, new, 1)
	require.NotEqual(t, onDisk(t, d.Recovery()), content, old)
	path = d.Recovery() + "0"
	d.Close()
	d.Discard()
	require.NoError(t, os.WriteFile(path, []byte(content), 0o600))
	return d, path
}

func quoted(text string) string {
	q, _ := json.Marshal(text)
	return string(q)
}

func numberUsedAgain(t *testing.T) {
	if disk.Self().Start == "" {
		t.Skip("this system does not say when a process started")
	}
	d, path := doctored(t, `"start":`+quoted(disk.Self().Start), `"start":"1"`)
	again := reopened(t, d.Path())
	require.Empty(t, again.Around().Others, "a living process has the number, but it is another one")
	require.Len(t, again.Around().Left, 1)
	require.Equal(t, path, again.Around().Left[0].Path)
}

func diedBeforeTheBoot(t *testing.T) {
	if disk.Self().Boot == "" {
		t.Skip("this system does not name its boot")
	}
	d, _ := doctored(t, quoted(disk.Self().Boot), `"another"`)
	require.Len(t, reopened(t, d.Path()).Around().Left, 1)
}

func sessionElsewhere(t *testing.T) {
	d, path := doctored(t, `"host":`+quoted(disk.Self().Host), `"host":"elsewhere"`)
	if boot := disk.Self().Boot; boot != "" {
		require.NoError(t, os.WriteFile(path, []byte(strings.Replace(onDisk(t, path), quoted(boot), `"another"`, 1)), 0o600))
	}
	mark := strings.Replace(path, ".unsaved-", ".open-", 1)
	require.NoError(t, os.WriteFile(mark, []byte(onDisk(t, path)), 0o600))
	again := reopened(t, d.Path())
	around := again.Around()
	require.Empty(t, around.Left, "nobody here can know whether it lives")
	require.Len(t, around.Others, 1)
	require.False(t, around.Others[0].Lives)
	require.Equal(t, "elsewhere", around.Others[0].Process.Host)
	require.FileExists(t, path)
	require.FileExists(t, mark)
	around.Forget()
	require.Empty(t, around.Others)
	require.NoFileExists(t, mark)
	require.Equal(t, other, string(around.Left[0].Text), "a person knows")
}

func changedSinceRead(t *testing.T) {
	d := open(t, homeText)
	t.Cleanup(d.Close)
	require.NoError(t, d.NextCare(0))
	const theirs = homeText + "# theirs\n"
	require.NoError(t, os.WriteFile(d.Path(), []byte(theirs), 0o644))
	require.ErrorIs(t, d.Save(), draft.ErrChanged)
	unhurt(t, d, theirs)
}

func changedSinceEdits(t *testing.T) {
	d := open(t, homeText)
	require.NoError(t, d.NextCare(0))
	path := drafttest.Die(t, d)
	theirs := strings.Replace(homeText, "1200 W", "900 W", 1)
	require.NoError(t, os.WriteFile(d.Path(), []byte(theirs), 0o644))
	again := reopened(t, d.Path())
	left := again.Around().Left[0]
	require.False(t, again.IsBase(left))
	differences, err := again.Differences(left.Text)
	require.NoError(t, err)
	require.Len(t, differences, 2)
	require.NoError(t, again.Merge(left.Text, differences[:1]))
	require.Equal(t, strings.Replace(theirs, "care: keep", "care: rotate", 1), string(again.Text()), "both are in")
	require.FileExists(t, path)
	require.Equal(t, theirs, onDisk(t, d.Path()))
}

func fileOfAnotherOwner(t *testing.T) {
	superuser(t)
	folder, change := asNobody(t)
	path := filepath.Join(folder, "house.yaml")
	require.NoError(t, os.WriteFile(path, []byte(homeText), 0o600))
	for _, c := range []struct {
		before, after os.FileMode
		says          string
	}{{0o644, 0o644, "may not write"}, {0o666, 0o666, ""}, {0o662, 0, "may not be read"}, {0o646, 0o644, ""}} {
		require.NoError(t, os.WriteFile(path, []byte(homeText), 0o600))
		require.NoError(t, os.Chown(path, stranger, stranger))
		require.NoError(t, os.Chmod(path, c.before))
		told := start(t, role{Do: "edit", Path: path, Edits: 1, Save: true}, change, state(filepath.Join(folder, "state"))).told
		info, err := os.Stat(path)
		require.NoError(t, err)
		if c.says != "" {
			require.Contains(t, told.Open+told.Save, c.says, "%o", c.before)
			require.Equal(t, homeText, onDisk(t, path))
			require.Equal(t, c.before, info.Mode().Perm())
			continue
		}
		require.Empty(t, told.Save)
		require.Equal(t, other, onDisk(t, path))
		require.Equal(t, c.after, info.Mode().Perm(), "owner and group are new: nobody may gain by it")
	}
	require.Empty(t, strays(t, folder))
}

func plantedLink(t *testing.T) {
	d := open(t, homeText)
	t.Cleanup(d.Close)
	victim := filepath.Join(t.TempDir(), "victim")
	require.NoError(t, os.WriteFile(victim, []byte("precious"), 0o644))
	planted := d.Recovery()
	require.NoError(t, os.Symlink(victim, planted))
	require.NoError(t, d.NextCare(0))
	require.NoError(t, d.RecoveryError())
	require.NotEqual(t, planted, d.Recovery())
	require.Equal(t, other, kept(t, d))
	d.Discard()
	require.Equal(t, "precious", onDisk(t, victim))

	again := reopened(t, d.Path())
	require.Len(t, again.Around().Strange, 1, "a link is not read, and it is said")
	require.Contains(t, again.Around().Strange[0], planted)
	_, err := os.Readlink(planted)
	require.NoError(t, err, "nor removed")
}

func plantedInStickyFolder(t *testing.T) {
	superuser(t)
	folder, change := asNobody(t)
	require.NoError(t, os.Chown(folder, 0, 0))
	require.NoError(t, os.Chmod(folder, os.ModeSticky|0o777))
	path := filepath.Join(folder, "house.yaml")
	victim := filepath.Join(folder, "victim")
	for _, name := range []string{path, victim} {
		require.NoError(t, os.WriteFile(name, []byte(homeText), 0o600))
		require.NoError(t, os.Chown(name, nobody, nobody))
	}
	// What another owner might put there: links to what the victim may write, and edits that were never the victim's own.
	_, real := doctored(t, fmt.Sprintf(`"pid":%d`, os.Getpid()), `"pid":999999999`)
	var planted []string
	for _, kind := range []string{"open", "unsaved"} {
		link := filepath.Join(folder, ".house.yaml."+kind+"-1-0000000000000000")
		require.NoError(t, os.Symlink(victim, link))
		require.NoError(t, os.Lchown(link, stranger, stranger))
		file := filepath.Join(folder, ".house.yaml."+kind+"-2-0000000000000000")
		require.NoError(t, os.WriteFile(file, []byte(onDisk(t, real)), 0o644))
		require.NoError(t, os.Chown(file, stranger, stranger))
		planted = append(planted, link, file)
	}
	told := start(t, role{Do: "edit", Path: path, Edits: 2, Save: true}, change, state(filepath.Join(folder, "state"))).told
	require.Empty(t, told.Open+told.Edit+told.Recovery+told.Save)
	require.Zero(t, told.Left, "the edits of somebody else are not offered as one's own")
	require.Zero(t, told.Others)
	require.Len(t, told.Strange, len(planted))
	for _, name := range planted {
		require.Contains(t, strings.Join(told.Strange, "\n"), name)
		_, err := os.Lstat(name)
		require.NoError(t, err)
	}
	require.Equal(t, homeText, onDisk(t, victim))
	require.Equal(t, told.Text, onDisk(t, path))
}

func recoveryOpenToOthers(t *testing.T) {
	d := open(t, homeText)
	require.NoError(t, d.NextCare(0))
	path := drafttest.Die(t, d)
	require.NoError(t, os.Chmod(path, 0o666))
	again := reopened(t, d.Path())
	require.Empty(t, again.Around().Left)
	require.Contains(t, again.Around().Strange[0], "written by others")
}
