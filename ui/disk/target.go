package disk

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"

	"holdover/loads/home"
)

// follow gives the file that a path leads to over symbolic links; it need not be there, but a link to it must not be all
// that is.
func follow(path string) (string, error) {
	target, err := filepath.EvalSymlinks(path)
	if err == nil {
		return target, nil
	}
	info, missing := os.Lstat(path)
	isLink := missing == nil && info.Mode()&fs.ModeSymlink != 0
	switch {
	case errors.Is(err, fs.ErrNotExist) && isLink:
		return "", errors.New("it is a link to a file that is not there")
	case errors.Is(err, fs.ErrNotExist):
		return path, nil
	case isLink:
		return "", errors.New("it is a link that leads nowhere")
	}
	return "", Cause(err)
}

// writable looks at what would be replaced: nil when there is nothing, an error when it may not be.
func writable(target string) (fs.FileInfo, error) {
	info, err := os.Stat(target)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, nil
	case err != nil:
		return nil, Cause(err)
	case !info.Mode().IsRegular():
		return nil, errors.New("it is " + home.Kind(info.Mode()) + " and not a regular file")
	case info.Mode().Perm()&0o200 == 0:
		return nil, errors.New("it is read-only")
	}
	file, err := os.OpenFile(target, os.O_WRONLY|noWait, 0) // nothing is written: this asks whether we may
	if errors.Is(err, fs.ErrPermission) {
		return nil, errors.New("you may not write it; it is read-only for you")
	} else if err != nil {
		return nil, Cause(err)
	}
	return info, file.Close()
}
