package disk

import (
	"errors"
	"os"

	"golang.org/x/sys/unix"
)

// accessList is the attribute in which Linux keeps a POSIX access list (acl(5)). Where there is one, the group bits of a file's
// mode are only the most that the list may give, so they must not be taken over without it.
const accessList = "system.posix_acl_access"

// copyACL gives a file the access list of the one at from, or none where that has none: it may have got one from its folder.
// It says whether the two have the same then.
func copyACL(from string, to *os.File) bool {
	size, err := unix.Getxattr(from, accessList, nil)
	switch {
	case errors.Is(err, unix.ENOTSUP):
		return true
	case errors.Is(err, unix.ENODATA):
		err = unix.Fremovexattr(int(to.Fd()), accessList)
		return err == nil || errors.Is(err, unix.ENODATA)
	case err != nil:
		return false
	}
	list := make([]byte, size)
	if size, err = unix.Getxattr(from, accessList, list); err != nil {
		return false
	}
	return unix.Fsetxattr(int(to.Fd()), accessList, list[:size], 0) == nil
}
