// Package disk answers: how does a text reach the disk, whole or not at all, on every system?
//
// [Replace] saves a person's file and [Private] a file of our own. Both write a new file aside, bring it to the disk, and
// rename it over the old one, so that whoever reads, and whatever kills us, finds the old text or the new one and never a
// part of one. [ReadPrivate] reads our own files and nothing that somebody else may have put in their place. [Process]
// tells a process that lives from one that is gone, and [Sweep] clears up after those that are gone.
//
// What is promised on an error: the old file is there, byte for byte, and nothing is left beside it. The one exception says
// so itself: see [ErrUnconfirmed].
//
// Linux, macOS and FreeBSD: the file is flushed (on macOS by F_FULLFSYNC, which os.File.Sync asks for), renamed over the old
// one, and its folder is flushed. Windows: the file is flushed and moved by MoveFileEx with replace and write-through, which
// needs no flush of the folder. Not kept are hard links (another name of the file keeps the old text), extended attributes,
// and access lists but for those of Linux.
package disk

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// ErrUnconfirmed says that the new text is in place under its name, but that the disk did not confirm to have stored that:
// after a power failure the old text might be there again.
var ErrUnconfirmed = errors.New("the text is in place, but the disk did not confirm it")

const (
	ownerOnly = fs.FileMode(0o600)
	forAll    = fs.FileMode(0o644) // of a new file; the person's umask takes from it
)

// Replace puts text in the place of the file at path, or makes that file. A symbolic link keeps pointing where it points.
// Permissions, owner, group and on Linux the access list of an old file are kept; where the system does not let us keep one of
// them, the permissions are narrowed so that nobody gains by it. Refused are what is not a regular file, what may not be written, and a
// link that leads nowhere. The error names path.
func Replace(s Steps, path string, text []byte) error {
	target, err := follow(path)
	if err != nil {
		return fmt.Errorf("%s cannot be saved: %w", path, err)
	}
	old, err := writable(target)
	if err != nil {
		return fmt.Errorf("%s cannot be saved: %w", path, err)
	}
	Sweep(filepath.Dir(target))
	mode := forAll
	if old != nil {
		mode = ownerOnly
	}
	err = put(s, target, text, mode, old)
	switch {
	case errors.Is(err, ErrUnconfirmed):
		return fmt.Errorf("%s: %w", path, err)
	case err != nil:
		return fmt.Errorf("%s cannot be saved: %w", path, Cause(err))
	}
	return nil
}

// Private puts text in the place of our own file at path, or makes it, for its owner alone. It never writes through a link:
// what stands there and is not a regular file of ours is left alone and [ErrForeign] returned.
func Private(s Steps, path string, text []byte) error {
	info, err := os.Lstat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
	case err != nil:
		return err
	case foreign(info) != "":
		return fmt.Errorf("%s: %w: it %s", path, ErrForeign, foreign(info))
	}
	return put(s, path, text, ownerOnly, nil)
}

// put is the one way by which a text reaches the disk. mode is that of the file while it is written; where old is not nil, it
// then gets what old has.
func put(s Steps, target string, text []byte, mode fs.FileMode, old fs.FileInfo) error {
	temp, file, err := createAside(s, target, mode)
	if err != nil {
		return err
	}
	if err := fill(file, text, target, old); err != nil {
		s.Remove(temp)
		return err
	}
	if err := s.Rename(temp, target); err != nil {
		s.Remove(temp)
		return err
	}
	if err := s.SyncFolder(filepath.Dir(target)); err != nil {
		return fmt.Errorf("%w: %w", ErrUnconfirmed, Cause(err))
	}
	return nil
}

// fill writes the text, gives the file what the old one had, brings it to the disk and closes it.
func fill(file File, text []byte, target string, old fs.FileInfo) error {
	_, err := file.Write(text)
	if err == nil && old != nil {
		err = inherit(file, target, old)
	}
	if err == nil {
		err = file.Sync()
	}
	return errors.Join(err, file.Close())
}

// inherit gives the new file the owner, the group and the permissions of the old one, as far as the system allows.
func inherit(file File, target string, old fs.FileInfo) error {
	ownerKept, groupKept := file.Own(target, old)
	return file.Chmod(narrowed(old.Mode().Perm(), ownerKept, groupKept))
}

// narrowed is what is left of permissions when the owner or the group of a file could not be kept. Those who were in the old
// group count among all others now, and those in the new group may have been among them, so either gets what both had; so
// with the old owner.
func narrowed(mode fs.FileMode, ownerKept, groupKept bool) fs.FileMode {
	owner, group, others := mode>>6&7, mode>>3&7, mode&7
	if !groupKept {
		group, others = group&others, group&others
	}
	if !ownerKept {
		group, others = group&owner, others&owner
	}
	return owner<<6 | group<<3 | others
}

// Cause is what went wrong without the name of the file written aside, which says nothing to the person.
func Cause(err error) error {
	var pathError *fs.PathError
	var linkError *os.LinkError
	switch {
	case errors.As(err, &pathError):
		return pathError.Err
	case errors.As(err, &linkError):
		return linkError.Err
	}
	return err
}
