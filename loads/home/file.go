package home

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"syscall"
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

// TextOf gives the bytes of a home file, refusing what is too large to be one before it fills memory. What is not a regular
// file is refused at once: a pipe that nobody writes to would be waited on for ever, and a device need not end.
func TextOf(path string) ([]byte, error) {
	f, err := openRegular(path)
	if err != nil {
		return nil, Faults{{File: path, Message: openMessage(err)}}
	}
	defer f.Close()
	return TextFrom(f, path)
}

// openRegular looks before it opens, because some devices act on being opened, and again afterwards, because what stands
// there may have changed in between; a pipe does not keep it waiting.
func openRegular(path string) (*os.File, error) {
	info, err := os.Stat(path)
	if err == nil {
		err = regular(info.Mode())
	}
	if err != nil {
		return nil, err
	}
	f, err := os.OpenFile(path, os.O_RDONLY|syscall.O_NONBLOCK, 0)
	if err != nil {
		return nil, err
	}
	if info, err = f.Stat(); err == nil {
		err = regular(info.Mode())
	}
	if err != nil {
		f.Close()
		return nil, err
	}
	return f, nil
}

func regular(mode fs.FileMode) error {
	switch {
	case mode.IsRegular():
		return nil
	case mode&fs.ModeNamedPipe != 0:
		return errors.New("it is a pipe; give - for FILE and lead it to standard input")
	}
	return errors.New("it is " + Kind(mode) + ", not a file")
}

// Kind says in words what stands under a name that is not a regular file.
func Kind(mode fs.FileMode) string {
	switch {
	case mode.IsDir():
		return "a folder"
	case mode&fs.ModeSymlink != 0:
		return "a link"
	case mode&fs.ModeNamedPipe != 0:
		return "a pipe"
	case mode&fs.ModeSocket != 0:
		return "a socket"
	case mode&fs.ModeDevice != 0:
		return "a device"
	}
	return "something else"
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
