// Package drafttest answers, for tests: what does a draft leave when its process dies?
package drafttest

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"holdover/ui/screens/draft"
)

// Die leaves things as they are after the process of a draft with unsaved edits is gone: its recovery file is there, and
// nobody has its number. It gives the path of that file. The draft must not be used again.
func Die(t testing.TB, d *draft.Draft) string {
	t.Helper()
	content, err := os.ReadFile(d.Recovery())
	require.NoError(t, err)
	dead, living := deadPID(t), os.Getpid()
	doctored := strings.Replace(string(content), fmt.Sprintf(`"pid":%d`, living), fmt.Sprintf(`"pid":%d`, dead), 1)
	require.NotEqual(t, string(content), doctored)
	folder, name := filepath.Split(d.Recovery())
	path := folder + strings.Replace(name, fmt.Sprintf("-%d-", living), fmt.Sprintf("-%d-", dead), 1)
	d.Close()
	d.Discard()
	require.NoError(t, os.WriteFile(path, []byte(doctored), 0o600))
	return path
}

// deadPID is the number of a process that has just ended.
func deadPID(t testing.TB) int {
	t.Helper()
	c := exec.Command(os.Args[0], "-test.run=^$")
	require.NoError(t, c.Run())
	return c.Process.Pid
}
