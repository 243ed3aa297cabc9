package disk

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"

	"holdover/loads/home"
)

// ErrForeign says that what stands under the name of a file of ours was not made by us: a link, a file of somebody else, one
// that others may write, no file at all. It is neither read nor written nor removed.
var ErrForeign = errors.New("this is not a file of ours")

// ReadPrivate reads a file that [Private] wrote, up to most bytes. The error is [ErrForeign] when it may be somebody else's
// work.
func ReadPrivate(path string, most int64) ([]byte, fs.FileInfo, error) {
	before, err := os.Lstat(path)
	if err != nil {
		return nil, nil, err
	}
	if why := foreign(before); why != "" {
		return nil, nil, fmt.Errorf("%w: it %s", ErrForeign, why)
	}
	file, err := os.OpenFile(path, os.O_RDONLY|noFollow|noWait, 0)
	if err != nil {
		return nil, nil, err
	}
	defer file.Close()
	info, err := file.Stat()
	if err != nil {
		return nil, nil, err
	}
	if why := foreign(info); why != "" || !os.SameFile(before, info) {
		return nil, nil, fmt.Errorf("%w: it was put there just now", ErrForeign)
	}
	if info.Size() > most {
		return nil, nil, fmt.Errorf("%w: it is too large", ErrForeign)
	}
	text, err := io.ReadAll(io.LimitReader(file, most))
	return text, info, err
}

// foreign says why a file is not to be trusted as ours, or nothing.
func foreign(info fs.FileInfo) string {
	switch {
	case !info.Mode().IsRegular():
		return "is " + home.Kind(info.Mode())
	case !ours(info):
		return "belongs to somebody else"
	case openToOthers(info.Mode()):
		return "can be written by others"
	}
	return ""
}

// RemovePrivate removes a file that [Private] wrote, and nothing else that may stand under its name.
func RemovePrivate(path string) error {
	info, err := os.Lstat(path)
	if err != nil {
		return err
	}
	if why := foreign(info); why != "" {
		return fmt.Errorf("%w: it %s", ErrForeign, why)
	}
	return os.Remove(path)
}
