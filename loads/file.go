package loads

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"github.com/google/renameio/v2/maybe"
)

// ReadFile reads a home file from disk. A file that cannot be opened is a [Faults] too, so that callers have one kind of
// error to show.
func ReadFile(path string) (*Home, error) {
	text, err := TextOf(path)
	if err != nil {
		return nil, err
	}
	return Read(text, path)
}

// TextOf gives the bytes of a home file, refusing what is too large to be one before it fills memory.
func TextOf(path string) ([]byte, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, Faults{{File: path, Message: openMessage(err)}}
	}
	defer f.Close()
	return TextFrom(f, path)
}

// TextFrom reads a home file's bytes from an open stream, standard input for one.
func TextFrom(r io.Reader, name string) ([]byte, error) {
	text, err := io.ReadAll(io.LimitReader(r, MaxBytes+1))
	if err != nil {
		return nil, Faults{{File: name, Message: openMessage(err)}}
	}
	return text, nil
}

func openMessage(err error) string {
	var pathError *fs.PathError
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return "there is no such file"
	case errors.Is(err, fs.ErrPermission):
		return "this file may not be read; check its permissions"
	case errors.As(err, &pathError):
		return "this file cannot be read: " + pathError.Err.Error()
	}
	return "this file cannot be read: " + err.Error()
}

// WriteFile replaces the file at path by text, whole or not at all: a new file is written beside it, brought to the disk,
// and renamed over it. A symbolic link keeps pointing where it points; permissions are kept. On an error the old file is
// untouched.
func WriteFile(path string, text []byte) error {
	target, err := filepath.EvalSymlinks(path)
	switch _, isThere := os.Lstat(path); {
	case errors.Is(err, fs.ErrNotExist) && isThere == nil:
		return fmt.Errorf("%s cannot be saved: it is a link to a file that is not there", path)
	case errors.Is(err, fs.ErrNotExist):
		target = path
	case err != nil:
		return fmt.Errorf("%s cannot be saved: %w", path, err)
	}
	mode := fs.FileMode(0o644)
	if info, err := os.Stat(target); err == nil {
		if !info.Mode().IsRegular() {
			return fmt.Errorf("%s cannot be saved: it is not a regular file", path)
		}
		mode = info.Mode().Perm()
		if mode&0o200 == 0 {
			return fmt.Errorf("%s cannot be saved: it is read-only", path)
		}
	}
	if err := maybe.WriteFile(target, text, mode); err != nil {
		return fmt.Errorf("%s cannot be saved: %w", path, cause(err))
	}
	return nil
}

// cause is what went wrong without the name of the file written beside the target, which says nothing to the person.
func cause(err error) error {
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
