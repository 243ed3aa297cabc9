package disk

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
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

func TestReplace_KeepsPermissions(t *testing.T) {
	for _, mode := range []os.FileMode{0o600, 0o640, 0o644, 0o755, 0o666} {
		path := write(t, "old", mode)
		require.NoError(t, Replace(OS, path, []byte("new")))
		info, err := os.Stat(path)
		require.NoError(t, err)
		assert.Equal(t, mode, info.Mode().Perm())
		assert.Equal(t, "new", content(t, path))
		alone(t, path, 1)
	}
}

func TestReplace_MakesANewFile(t *testing.T) {
	path := filepath.Join(t.TempDir(), "new.yaml")
	require.NoError(t, Replace(OS, path, []byte("text")))
	assert.Equal(t, "text", content(t, path))
	alone(t, path, 1)
}

// A symbolic link goes on pointing where it points, over two links too, and its file is written.
func TestReplace_FollowsALink(t *testing.T) {
	path := write(t, "old", 0o640)
	folder := t.TempDir()
	first, second := filepath.Join(folder, "first.yaml"), filepath.Join(folder, "second.yaml")
	require.NoError(t, os.Symlink(path, first))
	require.NoError(t, os.Symlink("first.yaml", second))
	require.NoError(t, Replace(OS, second, []byte("new")))
	assert.Equal(t, "new", content(t, path))
	for _, link := range []string{first, second} {
		info, err := os.Lstat(link)
		require.NoError(t, err)
		assert.NotZero(t, info.Mode()&os.ModeSymlink, "%s is no link any more", link)
	}
	alone(t, path, 1)
}

// Our own files are for their owner alone, and never written through a link.
func TestPrivate_OwnerAloneAndNoLink(t *testing.T) {
	path := filepath.Join(t.TempDir(), "kept")
	for _, text := range []string{"first", "second"} {
		require.NoError(t, Private(OS, path, []byte(text)))
		read, info, err := ReadPrivate(path, 100)
		require.NoError(t, err)
		assert.Equal(t, text, string(read))
		assert.EqualValues(t, 0o600, info.Mode().Perm())
	}
	victim := write(t, "precious", 0o644)
	link := path + "2"
	require.NoError(t, os.Symlink(victim, link))
	require.ErrorIs(t, Private(OS, link, []byte("new")), ErrForeign)
	_, _, err := ReadPrivate(link, 100)
	require.ErrorIs(t, err, ErrForeign)
	require.ErrorIs(t, RemovePrivate(link), ErrForeign)
	assert.Equal(t, "precious", content(t, victim))
	_, _, err = ReadPrivate(path, 3)
	require.ErrorIs(t, err, ErrForeign, "what is too large is none of ours")
}

// A told disk notes the steps of a save.
type told struct {
	Steps
	steps []string
}

type toldFile struct {
	File
	disk *told
}

func (d *told) Create(path string, mode fs.FileMode) (File, error) {
	d.steps = append(d.steps, "create "+mode.String())
	file, err := d.Steps.Create(path, mode)
	return toldFile{file, d}, err
}

func (d *told) Rename(from, to string) error {
	d.steps = append(d.steps, "rename")
	return d.Steps.Rename(from, to)
}

func (d *told) SyncFolder(folder string) error {
	d.steps = append(d.steps, "sync folder")
	return d.Steps.SyncFolder(folder)
}

func (f toldFile) Write(text []byte) (int, error) {
	f.disk.steps = append(f.disk.steps, "write")
	return f.File.Write(text)
}

func (f toldFile) Own(path string, like fs.FileInfo) (owner, group bool) {
	f.disk.steps = append(f.disk.steps, "own")
	return f.File.Own(path, like)
}

func (f toldFile) Chmod(mode fs.FileMode) error {
	f.disk.steps = append(f.disk.steps, "chmod "+mode.String())
	return f.File.Chmod(mode)
}

func (f toldFile) Sync() error {
	f.disk.steps = append(f.disk.steps, "sync")
	return f.File.Sync()
}

func (f toldFile) Close() error {
	f.disk.steps = append(f.disk.steps, "close")
	return f.File.Close()
}

// What a power failure cannot undo is an order: the text is on the disk before it has the name, and the name before anybody
// is told that it is saved. Nobody may read it before it has the permissions of the old file.
func TestReplace_InTheOrderThatSurvivesAPowerFailure(t *testing.T) {
	disk := &told{Steps: OS}
	require.NoError(t, Replace(disk, write(t, "old", 0o640), []byte("new")))
	assert.Equal(t, []string{"create -rw-------", "write", "own", "chmod -rw-r-----", "sync", "close", "rename", "sync folder"}, disk.steps)

	disk.steps = nil
	require.NoError(t, Private(disk, filepath.Join(t.TempDir(), "kept"), []byte("new")))
	assert.Equal(t, []string{"create -rw-------", "write", "sync", "close", "rename", "sync folder"}, disk.steps)
}

// Whoever loses nothing by a new owner or group may not win anything either.
func TestNarrowed_NobodyGains(t *testing.T) {
	for _, c := range []struct {
		mode         fs.FileMode
		owner, group bool
		want         fs.FileMode
	}{
		{0o664, true, true, 0o664},
		{0o664, true, false, 0o644}, // the new group may have been anybody
		{0o640, true, false, 0o600},
		{0o604, true, false, 0o600}, // the old group is anybody now
		{0o666, false, true, 0o666},
		{0o466, false, true, 0o444}, // the old owner is one of the others now
		{0o660, false, false, 0o600},
	} {
		assert.Equal(t, c.want, narrowed(c.mode, c.owner, c.group), "%o %v %v", c.mode, c.owner, c.group)
	}
	for mode := range fs.FileMode(0o1000) {
		for _, kept := range [][2]bool{{true, false}, {false, true}, {false, false}} {
			got := narrowed(mode, kept[0], kept[1])
			assert.Zero(t, got&^mode, "%o became %o", mode, got)
		}
	}
}

// What dead processes left half written goes; what a living one is writing, and what is not ours by its name, stays.
func TestSweep_LeavesTheLiving(t *testing.T) {
	folder := t.TempDir()
	make := func(name string, age time.Duration) string {
		path := filepath.Join(folder, name)
		require.NoError(t, os.WriteFile(path, nil, 0o600))
		at := time.Now().Add(-age)
		require.NoError(t, os.Chtimes(path, at, at))
		return name
	}
	dead := Self()
	dead.PID = 1<<31 - 2 // no system numbers so far
	elsewhere := dead
	elsewhere.Host += "x"
	gone := []string{
		make(tempFor("home.yaml", dead), 0),
		make(tempFor(".home.yaml.unsaved-1-2", dead), 0),
		make(tempFor("home.yaml", elsewhere), 2*surelyUnused),
	}
	stay := []string{
		make(tempFor("home.yaml", Self()), 2*surelyUnused),
		make(tempFor("home.yaml", elsewhere), 0),
		make("home.yaml", 2*surelyUnused),
		make(".home.yaml.tmp", 2*surelyUnused),
		make(".home.yaml.holdover-1-2-3-4.tmp", 2*surelyUnused),
	}
	Sweep(folder)
	for _, name := range gone {
		assert.NoFileExists(t, filepath.Join(folder, name))
	}
	for _, name := range stay {
		assert.FileExists(t, filepath.Join(folder, name))
	}
}

func TestProcess_State(t *testing.T) {
	self := Self()
	assert.Equal(t, Living, self.State())
	for name, change := range map[string]func(*Process){
		"no such number": func(p *Process) { p.PID = 1<<31 - 2 },
		"no number":      func(p *Process) { p.PID = 0 },
		"all processes":  func(p *Process) { p.PID = -1 },
	} {
		p := self
		change(&p)
		assert.Equal(t, Dead, p.State(), name)
	}
	if self.Start != "" {
		p := self
		p.Start += "0"
		assert.Equal(t, Dead, p.State(), "the number was given again")
	}
}

func TestCause_SaysNoNameOfOurs(t *testing.T) {
	_, err := os.Open(filepath.Join(t.TempDir(), "none"))
	assert.Equal(t, "no such file or directory", Cause(err).Error())
	err = os.Rename(filepath.Join(t.TempDir(), "none"), "x")
	assert.NotContains(t, Cause(err).Error(), "none")
	plain := errors.New("plain")
	assert.Equal(t, plain, Cause(plain))
}
