//go:build unix

package home_test

import (
	"os"
	"path/filepath"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"holdover/loads/home"
)

// What is no file is refused before anybody waits for it.
func TestTextOf_RefusesWhatIsNoFile(t *testing.T) {
	folder := t.TempDir()
	pipe := filepath.Join(folder, "pipe.yaml")
	require.NoError(t, syscall.Mkfifo(pipe, 0o600))
	link := filepath.Join(folder, "link.yaml")
	require.NoError(t, os.Symlink(pipe, link))
	for path, says := range map[string]string{pipe: "it is a pipe; give - ", link: "it is a pipe", "/dev/zero": "it is a device, not a file", folder: "it is a folder, not a file"} {
		refused := make(chan error, 1)
		go func() {
			_, err := home.TextOf(path)
			refused <- err
		}()
		select {
		case err := <-refused:
			assert.ErrorContains(t, err, path+": this file cannot be read: "+says)
		case <-time.After(20 * time.Second):
			t.Fatal("still waiting for " + path)
		}
	}
}
