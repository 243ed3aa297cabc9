//go:build unix

package draft_test

import (
	"net"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"holdover/ui/screens/draft"
)

// The rows of [TestFaults] about what stands under a name.

func makePipe(path string) error { return syscall.Mkfifo(path, 0o666) }

// makeDevice makes a device of the test's own where it may, for who may make one may also destroy one; anybody else gets a link
// to the system's.
func makeDevice(path string) error {
	const numbers = 1<<8 | 5
	if os.Geteuid() == 0 {
		return syscall.Mknod(path, syscall.S_IFCHR|0o666, numbers)
	}
	return os.Symlink("/dev/zero", path)
}

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
	require.NoError(t, os.WriteFile(path, []byte(homeText), 0o644))
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
	d := open(t, homeText)
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
	d := open(t, homeText)
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
	d := open(t, homeText)
	t.Cleanup(d.Close)
	require.NoError(t, d.NextCare(0))
	require.NoError(t, os.Chmod(d.Path(), 0o444))
	require.ErrorContains(t, d.Save(), "read-only")
	unhurt(t, d, homeText)
}

func readOnlyFolder(t *testing.T) {
	folder, change := asNobody(t)
	inner := filepath.Join(folder, "locked")
	require.NoError(t, os.Mkdir(inner, 0o755))
	path := filepath.Join(inner, "house.yaml")
	require.NoError(t, os.WriteFile(path, []byte(homeText), 0o666))
	require.NoError(t, os.Chmod(path, 0o666))
	require.NoError(t, os.Chmod(inner, 0o555))
	t.Cleanup(func() { os.Chmod(inner, 0o755) })
	told := start(t, role{Do: "edit", Path: path, Edits: 1, Save: true}, change, state(filepath.Join(folder, "state"))).told
	require.Empty(t, told.Open+told.Edit+told.Recovery, "no mark, and no failure")
	require.Contains(t, told.Save, "permission denied")
	require.Equal(t, homeText, onDisk(t, path))
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
	require.NoError(t, os.WriteFile(path, []byte(homeText), 0o666))
	require.NoError(t, os.Chmod(folder, 0o555))
	t.Cleanup(func() { os.Chmod(folder, 0o755) })
	told := start(t, role{Do: "edit", Path: path, Edits: 1, Save: true}, change, state(filepath.Join(folder, "state"))).told
	require.Empty(t, told.Open+told.Edit)
	require.Contains(t, told.Recovery, "permission denied")
	require.NotEmpty(t, told.Save)
	require.Equal(t, other, told.Text)
	require.Equal(t, homeText, onDisk(t, path))
}

func goneFile(t *testing.T) {
	d := open(t, homeText)
	t.Cleanup(d.Close)
	require.NoError(t, d.NextCare(0))
	require.NoError(t, os.Remove(d.Path()))
	require.NoError(t, d.Save(), "there is nothing that would be lost")
	require.Equal(t, other, onDisk(t, d.Path()))
	require.Empty(t, strays(t, folderOf(d)))
}

func goneFolder(t *testing.T) {
	d := open(t, homeText)
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
	require.NoError(t, os.WriteFile(path, []byte(homeText), 0o644))
	d := reopened(t, path)
	require.NoError(t, d.NextCare(0))
	require.NoError(t, d.RecoveryError())
	require.Equal(t, other, kept(t, d))
	require.NoError(t, d.Save())
	require.Equal(t, other, onDisk(t, path))
}
