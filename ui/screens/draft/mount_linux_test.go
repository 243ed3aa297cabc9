package draft_test

import (
	"os"
	"syscall"
	"testing"
)

// smallDisk mounts a disk of 64 KiB at a folder; false where this process may not.
func smallDisk(t *testing.T, folder string) bool {
	if os.Geteuid() != 0 || syscall.Mount("tmpfs", folder, "tmpfs", 0, "size=64k") != nil {
		return false
	}
	t.Cleanup(func() { syscall.Unmount(folder, 0) })
	return true
}
