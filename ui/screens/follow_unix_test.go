//go:build unix

package screens

import (
	"os"
	"syscall"
	"testing"

	"github.com/stretchr/testify/require"
)

// A hang-up while something is under way loses no edit.
func TestFollow_AHangUpEndsWhatIsUnderWay(t *testing.T) {
	var outlook endless
	r := runOnWith(t, demoFile(t), outlook.steps)
	r.keys(" ")
	reaches(t, &outlook.begun, 2)
	require.NoError(t, syscall.Kill(os.Getpid(), syscall.SIGHUP))
	require.Error(t, r.end())
	reaches(t, &outlook.ended, 2)
	text, err := os.ReadFile(r.app.draft.Recovery())
	require.NoError(t, err)
	require.Contains(t, string(text), "care: rotate")
}
