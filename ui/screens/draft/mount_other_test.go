//go:build unix && !linux

package draft_test

import "testing"

// smallDisk mounts no disk here.
func smallDisk(*testing.T, string) bool { return false }
