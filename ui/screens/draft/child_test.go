//go:build unix

package draft_test

import (
	"bufio"
	"encoding/json"
	"io"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/require"

	"holdover/ui/disk"
	"holdover/ui/screens/draft"
)

// This file has the test binary run itself as another process, to be killed, to be a second session, or to be a person with
// fewer rights.

// playsRole is set for another process, which then reads its role from standard input.
const playsRole = "HOLDOVER_TEST_ROLE"

// A role is what the other process does.
type role struct {
	Do    string // "save" for ever, the texts in turn; or "edit", and save if Save says so
	Path  string
	Texts []string
	Edits int
	Save  bool
	Stay  bool // go on until killed
	Tight bool // no file may grow past fewBytes
}

// A tale is what it tells.
type tale struct {
	Open, Edit, Recovery, Save string // errors, empty for none
	Text                       string
	RecoveryFile               string
	Strange                    []string
	Others, Left               int
}

func TestMain(m *testing.M) {
	if os.Getenv(playsRole) == "" {
		os.Exit(m.Run())
	}
	var r role
	if err := json.NewDecoder(os.Stdin).Decode(&r); err != nil {
		panic(err)
	}
	r.play()
}

func (r role) play() {
	if r.Do == "save" {
		for n := 0; ; n++ {
			if err := disk.Replace(disk.OS, r.Path, []byte(r.Texts[n%len(r.Texts)])); err != nil {
				tell(tale{Save: err.Error()})
				return
			}
			if n == 0 {
				tell(tale{})
			}
		}
	}
	if r.Tight {
		signal.Ignore(syscall.SIGXFSZ)
		syscall.Setrlimit(syscall.RLIMIT_FSIZE, &syscall.Rlimit{Cur: fewBytes, Max: fewBytes})
	}
	tell(r.edit())
	if r.Stay {
		io.Copy(io.Discard, os.Stdin)
	}
}

func (r role) edit() tale {
	d, err := draft.Open(r.Path)
	if err != nil {
		return tale{Open: err.Error()}
	}
	around := d.Around()
	told := tale{Strange: around.Strange, Others: len(around.Others), Left: len(around.Left)}
	for range r.Edits {
		told.Edit += text(d.NextCare(0))
	}
	if r.Save {
		told.Save = text(d.Save())
	}
	told.Text, told.RecoveryFile, told.Recovery = string(d.Text()), d.Recovery(), text(d.RecoveryError())
	if !r.Stay {
		d.Close()
	}
	return told
}

func text(err error) string {
	if err == nil {
		return ""
	}
	return err.Error()
}

func tell(t tale) { json.NewEncoder(os.Stdout).Encode(t) }

// A child is another process in its role.
type child struct {
	*exec.Cmd
	told tale
}

// start has another process play a role, and waits for its first words. Without Stay it is waited for.
func start(t *testing.T, r role, change ...func(*exec.Cmd)) *child {
	t.Helper()
	c := &child{Cmd: exec.Command(os.Args[0])}
	c.Env = append(os.Environ(), playsRole+"=1")
	c.Stderr = os.Stderr
	for _, change := range change {
		change(c.Cmd)
	}
	in, err := c.StdinPipe()
	require.NoError(t, err)
	out, err := c.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, c.Start())
	t.Cleanup(func() { c.Process.Kill(); c.Wait() })
	require.NoError(t, json.NewEncoder(in).Encode(r))
	line, err := bufio.NewReader(out).ReadBytes('\n')
	require.NoError(t, err)
	require.NoError(t, json.Unmarshal(line, &c.told))
	if r.Do == "edit" && !r.Stay {
		require.NoError(t, c.Wait())
	}
	return c
}

// kill ends it as kill -9 does.
func (c *child) kill() {
	c.Process.Kill()
	c.Wait()
}

// fewBytes is less than any home with its recovery line.
const fewBytes = 100

// nobody and stranger are users that own nothing.
const (
	nobody   = 65534
	stranger = 65533
)

// asNobody has another process run without the rights of the superuser. The folder is one that it can reach and that belongs
// to it. Whoever is not the superuser is somebody already.
func asNobody(t *testing.T) (folder string, change func(*exec.Cmd)) {
	t.Helper()
	folder, err := os.MkdirTemp("", "holdover")
	require.NoError(t, err)
	t.Cleanup(func() { os.RemoveAll(folder) })
	if os.Geteuid() != 0 {
		return folder, func(*exec.Cmd) {}
	}
	program, err := os.MkdirTemp("", "holdover")
	require.NoError(t, err)
	t.Cleanup(func() { os.RemoveAll(program) })
	require.NoError(t, os.Chmod(program, 0o755))
	binary, err := os.ReadFile(os.Args[0])
	require.NoError(t, err)
	copied := filepath.Join(program, "test")
	require.NoError(t, os.WriteFile(copied, binary, 0o755))
	require.NoError(t, os.Chown(folder, nobody, nobody))
	return folder, func(c *exec.Cmd) {
		c.Path, c.Args[0], c.Dir = copied, copied, program
		c.SysProcAttr = &syscall.SysProcAttr{Credential: &syscall.Credential{Uid: nobody, Gid: nobody}}
		c.Env = append(c.Env, "HOME="+folder)
	}
}

// superuser skips what only the superuser can set up.
func superuser(t *testing.T) {
	t.Helper()
	if os.Geteuid() != 0 {
		t.Skip("only the superuser can make files of other owners")
	}
}

// state gives a process a state folder of its own.
func state(folder string) func(*exec.Cmd) {
	return func(c *exec.Cmd) { c.Env = append(c.Env, "XDG_STATE_HOME="+folder) }
}

// strays are the files in a folder that a save left half written.
func strays(t *testing.T, folder string) []string {
	t.Helper()
	entries, err := os.ReadDir(folder)
	require.NoError(t, err)
	var found []string
	for _, e := range entries {
		if strings.HasSuffix(e.Name(), ".tmp") {
			found = append(found, e.Name())
		}
	}
	return found
}
