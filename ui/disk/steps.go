package disk

import (
	"io"
	"io/fs"
	"os"
)

// Steps are the single steps of a save. [OS] carries them out; tests put others in between that fail at one of them.
type Steps interface {
	// Create makes a file that must not be there yet, not even as a link.
	Create(path string, mode fs.FileMode) (File, error)
	// Rename puts a file in the place of another at once.
	Rename(from, to string) error
	// SyncFolder brings the names in a folder to the disk. A file system that cannot do that is no error.
	SyncFolder(folder string) error
	Remove(path string) error
}

// A File is a new file that is being written.
type File interface {
	io.Writer
	// Own gives the file the owner and the group, with the access list, of the one at a path, and says which it has then.
	Own(path string, like fs.FileInfo) (owner, group bool)
	Chmod(mode fs.FileMode) error
	Sync() error
	Close() error
}

// OS is the system's own disk.
var OS Steps = system{}

type system struct{}

type systemFile struct{ *os.File }

// Create implements [Steps].
func (system) Create(path string, mode fs.FileMode) (File, error) {
	file, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL|noFollow, mode)
	if err != nil {
		return nil, err
	}
	return systemFile{file}, nil
}

// Rename implements [Steps].
func (system) Rename(from, to string) error { return rename(from, to) }

// SyncFolder implements [Steps].
func (system) SyncFolder(folder string) error { return syncFolder(folder) }

// Remove implements [Steps].
func (system) Remove(path string) error { return os.Remove(path) }

// Own implements [File].
func (f systemFile) Own(path string, like fs.FileInfo) (owner, group bool) {
	return own(f.File, path, like)
}
