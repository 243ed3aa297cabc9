package disk

import (
	"io/fs"
	"os"

	"golang.org/x/sys/windows"
)

// Windows has neither flag: a file is created anew or not at all, and a link is seen before it is opened.
const (
	noFollow = 0
	noWait   = 0
)

func rename(from, to string) error {
	source, err := windows.UTF16PtrFromString(from)
	if err != nil {
		return err
	}
	target, err := windows.UTF16PtrFromString(to)
	if err != nil {
		return err
	}
	if err := windows.MoveFileEx(source, target, windows.MOVEFILE_REPLACE_EXISTING|windows.MOVEFILE_WRITE_THROUGH); err != nil {
		return &os.LinkError{Op: "rename", Old: from, New: to, Err: err}
	}
	return nil
}

// syncFolder has nothing to do: the move is written through.
func syncFolder(string) error { return nil }

// own leaves a new file to the access list of its folder, which is what says who may do what on Windows.
func own(*os.File, string, fs.FileInfo) (owner, group bool) { return true, true }

// ours takes every file for ours: who may put one into a folder is up to its access list.
func ours(fs.FileInfo) bool { return true }

func openToOthers(fs.FileMode) bool { return false }
