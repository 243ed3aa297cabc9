//go:build unix

package screens

import (
	"os"
	"path/filepath"
	"syscall"
	"testing"
	"time"

	"github.com/gdamore/tcell/v2"
	"github.com/stretchr/testify/require"

	"holdover/ui/screens/draft"
	"holdover/ui/screens/draft/drafttest"
)

// These tests send signals to the screens on a simulated screen; those of cmd/holdover do so in a terminal.

// left ends the screens by a signal and gives what that says.
func (r *running) left(s syscall.Signal) *Interruption {
	r.t.Helper()
	require.NoError(r.t, syscall.Kill(os.Getpid(), s))
	var ended *Interruption
	require.ErrorAs(r.t, r.end(), &ended)
	require.Equal(r.t, s, ended.Signal)
	return ended
}

// kept is the text that a session of screens which have ended left of a home.
func kept(t *testing.T, r *running, path string) string {
	t.Helper()
	marks, err := filepath.Glob(filepath.Join(filepath.Dir(path), ".alder.yaml.open-*"))
	require.NoError(t, err)
	require.Empty(t, marks, "nobody is told of a session that has ended")
	drafttest.Die(t, r.app.draft)
	d, err := draft.Open(path)
	require.NoError(t, err)
	defer d.Close()
	require.Len(t, d.Around().Left, 1)
	return string(d.Around().Left[0].Text)
}

// A signal ends the screens, says where the edits are, and they are there: those put in, and what is typed in a field.
func TestRun_ASignalLosesNothing(t *testing.T) {
	for _, s := range leaving {
		path := demoFile(t)
		r := runOn(t, path)
		r.keys(" e")
		r.shows("circuit 1 of")
		r.keys("Z")
		r.shows("furnaceZ")
		ended := r.left(s.(syscall.Signal))
		require.ErrorContains(t, ended, "ended by a signal")
		require.Contains(t, ended.Edits, filepath.Dir(path))
		text := kept(t, r, path)
		require.Contains(t, text, "name: Gas furnaceZ")
		require.Contains(t, text, "care: rotate")
	}
}

// A form under a question is put in too.
func TestRun_AFormUnderAQuestionIsKept(t *testing.T) {
	path := demoFile(t)
	r := runOn(t, path)
	r.keys("eZ")
	r.shows("furnaceZ")
	for range 4 {
		r.screen.InjectKey(tcell.KeyTab, 0, tcell.ModNone)
	}
	r.keys("q")
	r.screen.InjectKey(tcell.KeyEscape, 0, tcell.ModNone)
	r.shows("stay and mend it")
	r.left(syscall.SIGTERM)
	require.Contains(t, kept(t, r, path), "name: Gas furnaceZ")
}

func TestRun_NothingUnsavedNothingSaid(t *testing.T) {
	require.Empty(t, runOn(t, demoFile(t)).left(syscall.SIGTERM).Edits)
}

// A loop deep in work gives the terminal back all the same.
func TestRun_ALoopThatIsBusyIsLeft(t *testing.T) {
	r := runOn(t, demoFile(t))
	busy, done := make(chan struct{}), make(chan struct{})
	go r.app.term.QueueUpdate(func() { close(busy); <-done })
	<-busy
	require.Contains(t, r.left(syscall.SIGTERM).Edits, "in the midst of a long piece of work")
	close(done)
}

// A panic in the loop, and one in a goroutine beside it, end the screens with what and where.
func TestRun_APanicEndsTheScreens(t *testing.T) {
	for name, breaks := range map[string]func(a *app){
		"loop":   func(a *app) { go a.term.QueueUpdate(func() { panic("broken") }) },
		"beside": func(a *app) { a.beside(func() { panic("broken") }) },
	} {
		path := demoFile(t)
		r := runOn(t, path)
		r.keys(" ")
		r.shows("unsaved *")
		breaks(r.app)
		var ended *Interruption
		require.ErrorAs(t, r.end(), &ended, name)
		require.Equal(t, "broken", ended.Mishap.What)
		require.Regexp(t, `^ui/screens/leave_unix_test.go:\d+$`, ended.Mishap.Where)
		require.Contains(t, ended.Edits, "are kept in")
		require.Contains(t, kept(t, r, path), "care: rotate")
	}
}

// A signal before the loop has a screen ends it as soon as it has one.
func TestRun_ASignalAtTheVeryStart(t *testing.T) {
	a, err := start(Options{Path: demoFile(t)})
	require.NoError(t, err)
	ended := make(chan error, 1)
	go func() { ended <- a.end(loopLater(a), &Interruption{Signal: syscall.SIGTERM}) }()
	select {
	case err := <-ended:
		require.ErrorContains(t, err, "signal")
		require.NotContains(t, err.Error(), "long piece of work")
	case <-time.After(10 * time.Second):
		t.Fatal("the screens did not end")
	}
}

// loopLater starts the loop a while later; its screen is only put in then.
func loopLater(a *app) <-chan error {
	screen := tcell.NewSimulationScreen("UTF-8")
	ended := make(chan error, 1)
	go func() {
		time.Sleep(200 * time.Millisecond)
		a.term.SetScreen(screen)
		ended <- a.runLoop()
	}()
	return ended
}
