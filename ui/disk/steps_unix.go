//go:build unix

package disk

import (
	"errors"
	"io/fs"
	"os"
	"syscall"
)

const (
	noFollow = syscall.O_NOFOLLOW // a link is refused, not followed
	noWait   = syscall.O_NONBLOCK // a pipe without another end is opened or refused at once
)

func rename(from, to string) error { return os.Rename(from, to) }

// syncFolder leaves folders that may not be read, and file systems that do not flush folders, as they are.
func syncFolder(folder string) error {
	f, err := os.Open(folder)
	if errors.Is(err, fs.ErrPermission) {
		return nil
	} else if err != nil {
		return err
	}
	defer f.Close()
	if err := f.Sync(); err != nil && !errors.Is(err, syscall.EINVAL) && !errors.Is(err, errors.ErrUnsupported) {
		return err
	}
	return nil
}

// own asks for owner and group together and, where that is refused, for the group alone: a person may give a file to a group
// that they are in.
func own(f *os.File, path string, like fs.FileInfo) (owner, group bool) {
	want, ok := like.Sys().(*syscall.Stat_t)
	if !ok {
		return false, false
	}
	if f.Chown(int(want.Uid), int(want.Gid)) != nil {
		f.Chown(-1, int(want.Gid))
	}
	info, err := f.Stat()
	if err != nil {
		return false, false
	}
	got, ok := info.Sys().(*syscall.Stat_t)
	return ok && got.Uid == want.Uid, ok && got.Gid == want.Gid && copyACL(path, f)
}

// ownerOf is the user that a file belongs to.
func ownerOf(info fs.FileInfo) (user int, known bool) {
	stat, ok := info.Sys().(*syscall.Stat_t)
	if !ok {
		return 0, false
	}
	return int(stat.Uid), true
}

func ours(info fs.FileInfo) bool {
	user, known := ownerOf(info)
	return known && user == os.Geteuid()
}

// openToOthers says whether anybody but the owner may have written a file.
func openToOthers(mode fs.FileMode) bool { return mode.Perm()&0o022 != 0 }
