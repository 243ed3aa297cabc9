package main

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"github.com/creack/pty"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/term"
)

// These tests run the program in a pseudo-terminal of its own: what a person's terminal is left in, and what is left of the edit,
// when somebody else ends the program.

// A session is the program in a terminal.
type session struct {
	t             *testing.T
	cmd           *exec.Cmd
	master, slave *os.File
	before        *term.State
	home          string // the home file

	mutex   sync.Mutex
	printed bytes.Buffer
}

const sessionHome = `holdover: 1
outage: {length: 10 h}
circuits:
  - {name: Chest freezer, like: freezer-chest, care: keep}
limits: {generator: none}
`

// inTerminal starts this test's own program under another name with the path of a home file, or a shell that is given both.
func inTerminal(t *testing.T, name string, shell ...string) *session {
	t.Helper()
	s := &session{t: t, home: filepath.Join(t.TempDir(), "hut.yaml")}
	require.NoError(t, os.WriteFile(s.home, []byte(sessionHome), 0o644))
	self, err := os.Executable()
	require.NoError(t, err)
	program := filepath.Join(t.TempDir(), name) // by the name the program is told what to be; see TestMain
	require.NoError(t, os.Symlink(self, program))
	args := append(shell, program, s.home)
	s.cmd = exec.Command(args[0], args[1:]...)
	s.cmd.Env = append(os.Environ(), "TERM=xterm-256color", "NO_COLOR=1", "XDG_STATE_HOME="+t.TempDir())
	s.master, s.slave, err = pty.Open()
	if err != nil {
		t.Skipf("no pseudo-terminal is to be had here: %v", err)
	}
	require.NoError(t, pty.Setsize(s.master, &pty.Winsize{Rows: 24, Cols: 80}))
	s.master = closable(t, s.master)
	s.before, err = term.GetState(int(s.slave.Fd()))
	require.NoError(t, err)
	s.cmd.Stdin, s.cmd.Stdout, s.cmd.Stderr = s.slave, s.slave, s.slave
	s.cmd.SysProcAttr = &syscall.SysProcAttr{Setsid: true, Setctty: true}
	require.NoError(t, s.cmd.Start())
	t.Cleanup(func() { _ = s.cmd.Process.Kill(); s.hangUp() })
	go s.read()
	s.sees("Chest freezer")
	return s
}

// closable is the same terminal, whose end a reader that waits does not keep open.
func closable(t *testing.T, file *os.File) *os.File {
	t.Helper()
	defer file.Close()
	syscall.ForkLock.RLock()
	defer syscall.ForkLock.RUnlock()
	fd, err := syscall.Dup(int(file.Fd()))
	require.NoError(t, err)
	syscall.CloseOnExec(fd)
	require.NoError(t, syscall.SetNonblock(fd, true))
	return os.NewFile(uintptr(fd), file.Name())
}

// read gathers what the program prints.
func (s *session) read() {
	chunk := make([]byte, 4096)
	for {
		n, err := s.master.Read(chunk)
		if err != nil {
			return
		}
		s.mutex.Lock()
		s.printed.Write(chunk[:n])
		s.mutex.Unlock()
	}
}

func (s *session) text() string {
	s.mutex.Lock()
	defer s.mutex.Unlock()
	return s.printed.String()
}

// forget starts the gathering anew.
func (s *session) forget() {
	s.mutex.Lock()
	defer s.mutex.Unlock()
	s.printed.Reset()
}

// control is what moves the cursor or changes how letters look.
var control = regexp.MustCompile(`\x1b(\[[0-9;?]*[A-Za-z]|\(B|=|>)`)

// sees waits until the program has printed a text. Where it moves the cursor on, it does so over blanks, mostly.
func (s *session) sees(text string) {
	s.t.Helper()
	s.until(func() bool {
		return strings.Contains(strings.Join(strings.Fields(control.ReplaceAllString(s.text(), " ")), " "), text)
	}, text)
}

func (s *session) until(holds func() bool, what string) {
	s.t.Helper()
	for range 1000 {
		if holds() {
			return
		}
		time.Sleep(10 * time.Millisecond)
	}
	s.t.Fatalf("never so: %s; printed: %q", what, s.text())
}

// types sends keys and waits until the program has answered with a text.
func (s *session) types(keys, answer string) {
	s.t.Helper()
	s.forget()
	_, err := s.master.WriteString(keys)
	require.NoError(s.t, err)
	s.sees(answer)
}

func (s *session) signal(which syscall.Signal) {
	s.t.Helper()
	require.NoError(s.t, s.cmd.Process.Signal(which))
}

func (s *session) hangUp() { s.master.Close(); s.slave.Close() }

// ends waits for the end of the program and gives its status, as a shell shows it.
func (s *session) ends() int {
	s.t.Helper()
	ended := make(chan struct{})
	go func() { _ = s.cmd.Wait(); close(ended) }()
	select {
	case <-ended:
	case <-time.After(10 * time.Second):
		s.t.Fatalf("still running; printed: %q", s.text())
	}
	status := s.cmd.ProcessState.Sys().(syscall.WaitStatus)
	if status.Signaled() {
		return 128 + int(status.Signal())
	}
	return status.ExitStatus()
}

// stopped waits until the program stands still.
func (s *session) stopped() {
	s.t.Helper()
	s.until(func() bool { return s.state() == 'T' }, "stopped")
}

func (s *session) state() byte {
	stat, err := os.ReadFile(fmt.Sprintf("/proc/%d/stat", s.cmd.Process.Pid))
	require.NoError(s.t, err)
	return stat[bytes.LastIndexByte(stat, ')')+2]
}

// restored says that the terminal is as it was: its modes as the system keeps them, and those that only the terminal knows.
func (s *session) restored() {
	s.t.Helper()
	s.until(func() bool { return s.mode("1049") == 'l' }, "the alternate screen is left")
	after, err := term.GetState(int(s.slave.Fd()))
	require.NoError(s.t, err)
	assert.Equal(s.t, s.before, after, "modes of the terminal")
	for mode, want := range map[string]byte{
		"25": 'h', "7": 'h', // cursor shown, automatic margins
		"1": 'l', "1000": 'l', "1002": 'l', "1003": 'l', "1006": 'l', "2004": 'l', // cursor keys, mouse, bracketed paste
	} {
		assert.Equal(s.t, string(want), string(s.mode(mode)), "mode %s", mode)
	}
}

var privateMode = regexp.MustCompile(`\x1b\[\?([0-9;]+)([hl])`)

// mode is how the program last set a private mode: h on, l off, and 0 for never.
func (s *session) mode(mode string) (last byte) {
	for _, found := range privateMode.FindAllStringSubmatch(s.text(), -1) {
		for _, set := range strings.Split(found[1], ";") {
			if set == mode {
				last = found[2][0]
			}
		}
	}
	return last
}

// kept is what stands in the recovery file beside the home, whatever its name.
func (s *session) kept() string {
	s.t.Helper()
	found, err := filepath.Glob(filepath.Join(filepath.Dir(s.home), ".hut.yaml*unsaved*"))
	require.NoError(s.t, err)
	require.Len(s.t, found, 1)
	text, err := os.ReadFile(found[0])
	require.NoError(s.t, err)
	home, err := os.ReadFile(s.home)
	require.NoError(s.t, err)
	require.Equal(s.t, sessionHome, string(home), "the home file itself is not written")
	return string(text)
}

// The ways to be in the midst of an edit, and what must be kept of each.
var edits = []struct {
	name string
	make func(s *session)
	kept string
}{
	{"put in", func(s *session) { s.types(" ", "rotate") }, "care: rotate"},
	{"typed in a form", func(s *session) { s.types("e", "circuit 1 of 1"); s.types("Zq", "q") }, "name: Chest freezerZq"},
}

func TestLeaving_ASignalGivesTheTerminalBackAndKeepsTheEdit(t *testing.T) {
	for _, signal := range []syscall.Signal{syscall.SIGINT, syscall.SIGQUIT, syscall.SIGTERM, syscall.SIGHUP} {
		for _, edit := range edits {
			t.Run(signal.String()+", "+edit.name, func(t *testing.T) {
				t.Parallel()
				s := inTerminal(t, "holdover")
				edit.make(s)
				s.signal(signal)
				assert.Equal(t, 128+int(signal), s.ends())
				s.restored()
				s.sees("holdover: ended by a signal: " + signal.String())
				s.sees("The unsaved edits are kept in " + filepath.Dir(s.home))
				assert.NotContains(t, s.text(), "goroutine")
				assert.Contains(t, s.kept(), edit.kept)
			})
		}
	}
}

func TestLeaving_AStopGivesTheTerminalBackAndComesBack(t *testing.T) {
	s := inTerminal(t, "holdover")
	s.types("e", "circuit 1 of 1")
	s.types("Zq", "q")
	for range 2 {
		s.signal(syscall.SIGTSTP)
		s.stopped()
		s.restored()
		s.forget()
		s.signal(syscall.SIGCONT)
		s.sees("Chest freezerZq") // drawn anew, and what is typed is still there
		assert.Equal(t, "h", string(s.mode("1049")))
	}
	s.types("\x1b", "verdict") // which no form shows: what comes close after an Esc would be another key
	s.types("s", "saved in")
	s.types("q", "")
	assert.Equal(t, exitDone, s.ends())
	s.restored()
}

func TestLeaving_AStoppedProgramEndsOnASignal(t *testing.T) {
	s := inTerminal(t, "holdover")
	edits[1].make(s)
	s.signal(syscall.SIGTSTP)
	s.stopped()
	s.signal(syscall.SIGTERM)
	s.signal(syscall.SIGCONT)
	assert.Equal(t, 128+int(syscall.SIGTERM), s.ends())
	s.restored()
	assert.Contains(t, s.kept(), edits[1].kept)
}

// Ctrl-Z gives the terminal to the shell, once, and its fg brings the screens back. Where no shell could, they stay.
func TestLeaving_CtrlZ(t *testing.T) {
	s := inTerminal(t, "holdover", "bash", "-c", `set -m; "$0" "$1"; echo "status $?"; read -r; fg; echo "status $?"`)
	s.types(" ", "rotate")
	s.types("\x1a", fmt.Sprintf("status %d", 128+int(syscall.SIGTTIN)))
	s.restored()
	s.types("\n", "Chest freezer")
	s.types(" ", "shed")
	s.types("q", "discard the edits")
	s.types("x", "status 0")
	assert.Equal(t, 0, s.ends())
	s.restored()

	s = inTerminal(t, "holdover")
	s.types("\x1a", "Chest freezer")
	s.types("q", "")
	assert.Equal(t, exitDone, s.ends())
}

// A terminal that goes away ends the program, whether or not the system's signal of it is caught, and nothing spins meanwhile.
func TestLeaving_AHangUp(t *testing.T) {
	for name, shell := range map[string][]string{
		"told by signal":     nil,
		"signals not heeded": {"sh", "-c", `trap "" HUP; exec "$0" "$1"`},
	} {
		for _, edit := range edits {
			t.Run(name+", "+edit.name, func(t *testing.T) {
				t.Parallel()
				s := inTerminal(t, "holdover", shell...)
				edit.make(s)
				s.hangUp()
				assert.Equal(t, 128+int(syscall.SIGHUP), s.ends())
				used := s.cmd.ProcessState.UserTime() + s.cmd.ProcessState.SystemTime()
				assert.Less(t, used, 5*time.Second)
				assert.Contains(t, s.kept(), edit.kept)
			})
		}
	}
}

func TestLeaving_AMishapGivesTheTerminalBackAndKeepsTheEdit(t *testing.T) {
	s := inTerminal(t, "holdover-breaks")
	s.types(" ", "rotate")
	s.types("!", "goroutine")
	assert.Equal(t, exitMishap, s.ends())
	s.restored()
	short, trace, found := strings.Cut(s.text()[strings.LastIndex(s.text(), "holdover: a mistake"):], "\r\n\r\n")
	require.True(t, found)
	assert.Regexp(t, `^holdover: a mistake in this program ended it, at cmd/holdover/breaks_test.go:\d+: broken on purpose\r\n`+
		`The unsaved edits are kept in .*\.hut\.yaml.*; the next start offers them\.\r\nWhoever mends it will want to see what follows\.$`, short)
	assert.Contains(t, trace, "breakingScreen")
	assert.Contains(t, s.kept(), "care: rotate")
}

// The first signal to a program that is busy drawing waits for it a while and then leaves; a second one does not wait.
func TestLeaving_ABusyProgram(t *testing.T) {
	for signals, least := range map[int]time.Duration{1: 2 * time.Second, 2: 0} {
		s := inTerminal(t, "holdover-breaks")
		s.types(" ", "rotate")
		s.types("~", "") // nothing new is drawn
		time.Sleep(200 * time.Millisecond)
		began := time.Now()
		for range signals {
			s.signal(syscall.SIGTERM)
			time.Sleep(200 * time.Millisecond)
		}
		s.ends()
		assert.GreaterOrEqual(t, time.Since(began), least)
		if signals == 1 {
			s.restored()
			s.sees("in the midst of a long piece of work")
		} else {
			assert.NotContains(t, s.text(), "holdover: ")
		}
		assert.Contains(t, s.kept(), "care: rotate")
	}
}

// A terminal that nobody reads any more, as in a window that hangs, holds the end up no longer than a busy loop does.
func TestLeaving_ATerminalThatTakesNothingMore(t *testing.T) {
	s := inTerminal(t, "holdover")
	s.types(" ", "rotate")
	require.NoError(t, s.master.SetReadDeadline(time.Now())) // ends the gathering
	_, err := s.master.WriteString(strings.Repeat("?\x0co\x0c", 20))
	require.NoError(t, err)
	time.Sleep(300 * time.Millisecond)
	began := time.Now()
	s.signal(syscall.SIGTERM)
	s.ends()
	assert.Greater(t, time.Since(began), 2*time.Second, "it had room to write")
	after, err := term.GetState(int(s.slave.Fd()))
	require.NoError(t, err)
	assert.Equal(t, s.before, after)
	assert.Contains(t, s.kept(), "care: rotate")
}

// A verb that is interrupted ends by the signal, and has written nothing.
func TestLeaving_AVerbIsInterrupted(t *testing.T) {
	self, err := os.Executable()
	require.NoError(t, err)
	for _, signal := range []syscall.Signal{syscall.SIGINT, syscall.SIGQUIT, syscall.SIGTERM, syscall.SIGHUP} {
		var out, errs bytes.Buffer
		cmd := &exec.Cmd{Path: self, Args: []string{"holdover", "plan", "-"}, Stdout: &out, Stderr: &errs}
		home, err := cmd.StdinPipe()
		require.NoError(t, err)
		require.NoError(t, cmd.Start())
		_, err = home.Write(bytes.Repeat([]byte("# a home that goes on\n"), 10_000)) // more than a pipe holds, so it is being read
		require.NoError(t, err)
		require.NoError(t, cmd.Process.Signal(signal))
		require.Error(t, cmd.Wait())
		status := cmd.ProcessState.Sys().(syscall.WaitStatus)
		if signal == syscall.SIGQUIT {
			assert.Equal(t, exitSignal+int(signal), status.ExitStatus())
		} else {
			assert.True(t, status.Signaled() && status.Signal() == signal, "%v: %v", signal, cmd.ProcessState)
		}
		assert.Empty(t, out.String())
		assert.Empty(t, errs.String())
	}
}
