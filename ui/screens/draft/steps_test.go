package draft_test

import (
	"errors"
	"io/fs"

	"holdover/ui/disk"
)

// A rigged disk does what it is asked until one step, and then fails.
type rigged struct {
	at   int // which step fails, counted from 1
	how  failing
	step int    // steps asked for so far
	what string // the step that failed
}

// never is later than any step.
const never = 1 << 30

type failing int

const (
	once     failing = iota // the step fails, those after it are carried out
	onwards                 // it fails and all after it
	stopDead                // it is carried out, a write by half, and nothing after it, as if the process had ended there
)

var errRigged = errors.New("rigged to fail")

// next says whether the step that begins now is to be carried out.
func (r *rigged) next(what string) bool {
	r.step++
	switch {
	case r.step < r.at:
		return true
	case r.step == r.at:
		if r.how == stopDead {
			return true
		}
		r.what = what
		return false
	}
	return r.how == once
}

// isLast says whether the process ends with the step that has just begun.
func (r *rigged) isLast() bool { return r.how == stopDead && r.step == r.at }

func (r *rigged) do(what string, step func() error) error {
	if !r.next(what) {
		return errRigged
	}
	return step()
}

func (r *rigged) Create(path string, mode fs.FileMode) (file disk.File, err error) {
	err = r.do("create", func() error { file, err = disk.OS.Create(path, mode); return err })
	return riggedFile{file, r}, err
}

func (r *rigged) Rename(from, to string) error {
	return r.do("rename", func() error { return disk.OS.Rename(from, to) })
}

func (r *rigged) SyncFolder(folder string) error {
	return r.do("sync folder", func() error { return disk.OS.SyncFolder(folder) })
}

func (r *rigged) Remove(path string) error {
	return r.do("remove", func() error { return disk.OS.Remove(path) })
}

type riggedFile struct {
	disk.File
	rig *rigged
}

// Write writes half of the text where it fails, and where the process ends in the middle of it.
func (f riggedFile) Write(text []byte) (int, error) {
	if f.rig.next("write") && !f.rig.isLast() {
		return f.File.Write(text)
	}
	n, _ := f.File.Write(text[:len(text)/2])
	return n, errRigged
}

func (f riggedFile) Own(path string, like fs.FileInfo) (owner, group bool) {
	if f.rig.do("own", func() error { owner, group = f.File.Own(path, like); return nil }) != nil {
		return false, false
	}
	return owner, group
}

func (f riggedFile) Chmod(mode fs.FileMode) error {
	return f.rig.do("chmod", func() error { return f.File.Chmod(mode) })
}

func (f riggedFile) Sync() error { return f.rig.do("sync", f.File.Sync) }

// Close lets no file stay open, whatever it says.
func (f riggedFile) Close() error {
	err := f.rig.do("close", func() error { return nil })
	return errors.Join(err, f.File.Close())
}

// An unsynced disk waits for no disk, for tests of something else that make many edits.
type unsynced struct{ disk.Steps }

type unsyncedFile struct{ disk.File }

func (u unsynced) Create(path string, mode fs.FileMode) (disk.File, error) {
	file, err := u.Steps.Create(path, mode)
	return unsyncedFile{file}, err
}

func (unsynced) SyncFolder(string) error { return nil }

func (unsyncedFile) Sync() error { return nil }
