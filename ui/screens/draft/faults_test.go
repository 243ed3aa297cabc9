//go:build unix

package draft_test

import (
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"math/rand/v2"
	"net"
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
	"holdover/ui/screens/draft"
	"holdover/ui/screens/draft/drafttest"
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
var other = strings.Replace(home, "care: keep", "care: rotate", 1)

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

func killedWhileSaving(t *testing.T) {
	t.Setenv("XDG_STATE_HOME", t.TempDir())
	path := filepath.Join(t.TempDir(), "house.yaml")
	texts := []string{home + strings.Repeat("# first\n", 8000), other + strings.Repeat("# second\n", 12000)}
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
	d := open(t, home)
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
		assert.Contains(t, []string{home, other}, onDisk(t, d.Path()))
	case errors.Is(err, disk.ErrUnconfirmed):
		assert.Equal(t, other, onDisk(t, d.Path()))
	default:
		assert.ErrorContains(t, err, d.Path())
		assert.Equal(t, home, onDisk(t, d.Path()))
		assert.True(t, d.Unsaved())
	}
	assert.Equal(t, other, string(d.Text()))
	assert.Equal(t, other, kept(t, d))
	if r.how == once {
		assert.Empty(t, strays(t, folderOf(d)))
	}
}

func faultyEdit(t *testing.T, r *rigged) {
	d := open(t, home)
	t.Cleanup(d.Close)
	require.NoError(t, d.NextCare(0))
	d.Rig(r)
	require.NoError(t, d.NextCare(0), "an edit is made whether or not it can be kept")
	third := string(d.Text())
	require.NotEqual(t, other, third)
	assert.Equal(t, home, onDisk(t, d.Path()))
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
	d := open(t, home)
	t.Cleanup(d.Close)
	require.NoError(t, d.NextCare(0))
	all := &rigged{at: never}
	require.NoError(t, disk.Replace(all, d.Path(), []byte(home)))
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
	before := home + strings.Repeat("# nearly half of it\n", 1000)
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
	require.NoError(t, os.WriteFile(path, []byte(home), 0o644))
	told := start(t, role{Do: "edit", Path: path, Edits: 1, Save: true, Tight: true}, state(t.TempDir())).told
	require.Equal(t, other, told.Text)
	require.Contains(t, told.Save, "file too large")
	require.Contains(t, told.Recovery, "file too large", "and that it is nowhere safe is said")
	require.Equal(t, home, onDisk(t, path))
	entries, err := os.ReadDir(filepath.Dir(path))
	require.NoError(t, err)
	require.Len(t, entries, 1)
}

func damagedRecovery(t *testing.T) {
	d := open(t, home)
	require.NoError(t, d.NextCare(0))
	path := drafttest.Die(t, d)
	require.NoError(t, os.Truncate(path, 40))
	again := reopened(t, d.Path())
	require.Empty(t, again.Around().Left)
	require.Len(t, again.Around().Strange, 1)
	require.Contains(t, again.Around().Strange[0], path)
	require.FileExists(t, path, "a person may still make something of it")
}

func twoSessions(t *testing.T) {
	d := open(t, home)
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
	d := open(t, home)
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
	d := open(t, home)
	d.Close()
	link := filepath.Join(t.TempDir(), "link.yaml")
	require.NoError(t, os.Symlink(d.Path(), link))
	start(t, role{Do: "edit", Path: link, Stay: true})
	require.Len(t, reopened(t, d.Path()).Around().Others, 1)
}

// doctored is the recovery file of a session of this process with something else in its first line.
func doctored(t *testing.T, old, new string) (d *draft.Draft, path string) {
	t.Helper()
	d = open(t, home)
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
	again := reopened(t, d.Path())
	around := again.Around()
	require.Empty(t, around.Left, "nobody here can know whether it lives")
	require.Len(t, around.Others, 1)
	require.False(t, around.Others[0].Lives)
	require.Equal(t, "elsewhere", around.Others[0].Process.Host)
	require.FileExists(t, path)
	around.Forget()
	require.Empty(t, around.Others)
	require.Equal(t, other, string(around.Left[0].Text), "a person knows")
}

func changedSinceRead(t *testing.T) {
	d := open(t, home)
	t.Cleanup(d.Close)
	require.NoError(t, d.NextCare(0))
	const theirs = home + "# theirs\n"
	require.NoError(t, os.WriteFile(d.Path(), []byte(theirs), 0o644))
	require.ErrorIs(t, d.Save(), draft.ErrChanged)
	unhurt(t, d, theirs)
}

func changedSinceEdits(t *testing.T) {
	d := open(t, home)
	require.NoError(t, d.NextCare(0))
	path := drafttest.Die(t, d)
	theirs := strings.Replace(home, "1200 W", "900 W", 1)
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
	require.NoError(t, os.WriteFile(path, []byte(home), 0o600))
	for _, c := range []struct {
		before, after os.FileMode
		says          string
	}{{0o644, 0o644, "may not write"}, {0o666, 0o666, ""}, {0o662, 0, "may not be read"}, {0o646, 0o644, ""}} {
		require.NoError(t, os.WriteFile(path, []byte(home), 0o600))
		require.NoError(t, os.Chown(path, stranger, stranger))
		require.NoError(t, os.Chmod(path, c.before))
		told := start(t, role{Do: "edit", Path: path, Edits: 1, Save: true}, change, state(filepath.Join(folder, "state"))).told
		info, err := os.Stat(path)
		require.NoError(t, err)
		if c.says != "" {
			require.Contains(t, told.Open+told.Save, c.says, "%o", c.before)
			require.Equal(t, home, onDisk(t, path))
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
	d := open(t, home)
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
		require.NoError(t, os.WriteFile(name, []byte(home), 0o600))
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
	require.Equal(t, home, onDisk(t, victim))
	require.Equal(t, told.Text, onDisk(t, path))
}

func recoveryOpenToOthers(t *testing.T) {
	d := open(t, home)
	require.NoError(t, d.NextCare(0))
	path := drafttest.Die(t, d)
	require.NoError(t, os.Chmod(path, 0o666))
	again := reopened(t, d.Path())
	require.Empty(t, again.Around().Left)
	require.Contains(t, again.Around().Strange[0], "written by others")
}

func makePipe(path string) error { return syscall.Mkfifo(path, 0o666) }

func makeDevice(path string) error { return os.Symlink("/dev/zero", path) }

func makeSocket(path string) error {
	listener, err := net.Listen("unix", path)
	if err == nil {
		listener.(*net.UnixListener).SetUnlinkOnClose(false)
		listener.Close()
	}
	return err
}

// notAFile holds that what is no file is refused when it is read and when it is written, at once, and is still there then.
func notAFile(t *testing.T, kind string, put func(path string) error) {
	t.Setenv("XDG_STATE_HOME", t.TempDir())
	folder, err := os.MkdirTemp("", "h") // the name of a socket must be short
	require.NoError(t, err)
	t.Cleanup(func() { os.RemoveAll(folder) })
	path := filepath.Join(folder, "house.yaml")
	require.NoError(t, os.WriteFile(path, []byte(home), 0o644))
	d := reopened(t, path)
	require.NoError(t, d.NextCare(0))
	require.NoError(t, os.Remove(path))
	require.NoError(t, put(path))
	before, err := os.Lstat(path)
	require.NoError(t, err)
	refused := make(chan error, 4)
	go func() {
		_, err := draft.Open(path)
		refused <- err
		refused <- d.Save()
		refused <- d.Overwrite()
		refused <- d.SaveAs(path, true)
	}()
	for range cap(refused) {
		select {
		case err := <-refused:
			require.ErrorContains(t, err, "a "+kind)
		case <-time.After(20 * time.Second):
			t.Fatal("still waiting for it")
		}
	}
	after, err := os.Lstat(path)
	require.NoError(t, err)
	require.True(t, os.SameFile(before, after))
	require.True(t, d.Unsaved())
	require.Equal(t, other, kept(t, d))
	require.Empty(t, strays(t, folder))
}

func linkToNothing(t *testing.T) {
	d := open(t, home)
	t.Cleanup(d.Close)
	require.NoError(t, d.NextCare(0))
	require.NoError(t, os.Remove(d.Path()))
	require.NoError(t, os.Symlink("gone.yaml", d.Path()))
	require.ErrorContains(t, d.Save(), "link to a file that is not there")
	require.NoFileExists(t, filepath.Join(folderOf(d), "gone.yaml"))
	require.Equal(t, other, kept(t, d))
	_, err := draft.Open(d.Path())
	require.ErrorContains(t, err, "no such file")
}

func linksInACircle(t *testing.T) {
	d := open(t, home)
	t.Cleanup(d.Close)
	require.NoError(t, d.NextCare(0))
	require.NoError(t, os.Remove(d.Path()))
	require.NoError(t, os.Symlink("b.yaml", d.Path()))
	require.NoError(t, os.Symlink(filepath.Base(d.Path()), filepath.Join(folderOf(d), "b.yaml")))
	require.Error(t, d.Save())
	require.ErrorContains(t, d.Overwrite(), "leads nowhere")
	require.Equal(t, other, kept(t, d))
	_, err := draft.Open(d.Path())
	require.Error(t, err)
}

func readOnlyFile(t *testing.T) {
	d := open(t, home)
	t.Cleanup(d.Close)
	require.NoError(t, d.NextCare(0))
	require.NoError(t, os.Chmod(d.Path(), 0o444))
	require.ErrorContains(t, d.Save(), "read-only")
	unhurt(t, d, home)
}

func readOnlyFolder(t *testing.T) {
	folder, change := asNobody(t)
	inner := filepath.Join(folder, "locked")
	require.NoError(t, os.Mkdir(inner, 0o755))
	path := filepath.Join(inner, "house.yaml")
	require.NoError(t, os.WriteFile(path, []byte(home), 0o666))
	require.NoError(t, os.Chmod(path, 0o666))
	require.NoError(t, os.Chmod(inner, 0o555))
	t.Cleanup(func() { os.Chmod(inner, 0o755) })
	told := start(t, role{Do: "edit", Path: path, Edits: 1, Save: true}, change, state(filepath.Join(folder, "state"))).told
	require.Empty(t, told.Open+told.Edit+told.Recovery, "no mark, and no failure")
	require.Contains(t, told.Save, "permission denied")
	require.Equal(t, home, onDisk(t, path))
	require.Contains(t, told.RecoveryFile, filepath.Join(folder, "state", "holdover"))
	require.Contains(t, onDisk(t, told.RecoveryFile), told.Text)
	entries, err := os.ReadDir(inner)
	require.NoError(t, err)
	require.Len(t, entries, 1)

	again := start(t, role{Do: "edit", Path: path}, change, state(filepath.Join(folder, "state"))).told
	require.Equal(t, 1, again.Left, "and the next session finds them")
}

func nowhereToWrite(t *testing.T) {
	folder, change := asNobody(t)
	path := filepath.Join(folder, "house.yaml")
	require.NoError(t, os.WriteFile(path, []byte(home), 0o666))
	require.NoError(t, os.Chmod(folder, 0o555))
	t.Cleanup(func() { os.Chmod(folder, 0o755) })
	told := start(t, role{Do: "edit", Path: path, Edits: 1, Save: true}, change, state(filepath.Join(folder, "state"))).told
	require.Empty(t, told.Open+told.Edit)
	require.Contains(t, told.Recovery, "permission denied")
	require.NotEmpty(t, told.Save)
	require.Equal(t, other, told.Text)
	require.Equal(t, home, onDisk(t, path))
}

func goneFile(t *testing.T) {
	d := open(t, home)
	t.Cleanup(d.Close)
	require.NoError(t, d.NextCare(0))
	require.NoError(t, os.Remove(d.Path()))
	require.NoError(t, d.Save(), "there is nothing that would be lost")
	require.Equal(t, other, onDisk(t, d.Path()))
	require.Empty(t, strays(t, folderOf(d)))
}

func goneFolder(t *testing.T) {
	d := open(t, home)
	t.Cleanup(d.Close)
	require.NoError(t, d.NextCare(0))
	require.NoError(t, os.RemoveAll(folderOf(d)))
	require.ErrorContains(t, d.Save(), "no such file")
	require.NoDirExists(t, folderOf(d))
	require.True(t, d.Unsaved())
	require.NoError(t, d.NextCare(1))
	require.NoError(t, d.RecoveryError())
	require.Equal(t, string(d.Text()), kept(t, d), "the next edit is kept in the state folder, with all before it")
}

func longestName(t *testing.T) {
	t.Setenv("XDG_STATE_HOME", t.TempDir())
	path := filepath.Join(t.TempDir(), strings.Repeat("é", 122)+".yaml")
	require.NoError(t, os.WriteFile(path, []byte(home), 0o644))
	d := reopened(t, path)
	require.NoError(t, d.NextCare(0))
	require.NoError(t, d.RecoveryError())
	require.Equal(t, other, kept(t, d))
	require.NoError(t, d.Save())
	require.Equal(t, other, onDisk(t, path))
}
