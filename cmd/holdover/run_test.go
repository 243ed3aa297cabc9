package main

import (
	"bytes"
	"errors"
	"io"
	"os"
	"regexp"
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
)

// brokenWriter fails every write.
type brokenWriter struct{ err error }

func (w brokenWriter) Write([]byte) (int, error) { return 0, w.err }

// everyVerb is a call of each verb and form that prints a result.
var everyVerb = []string{"plan", "plan --json", "plan --against battery", "plan --against battery --json", "fit", "fit --json", "scope", "scope --json", "why",
	"why load.running_w", "profiles", "profiles lfp", "schema", "completion bash", "completion zsh", "completion fish", "completion powershell",
	"help", "help plan", "plan --help", "--help", "-h", "--version", "__complete why ''", ""}

func TestAFullDiskIsNoSuccess(t *testing.T) {
	full := &os.PathError{Op: "write", Path: "/dev/stdout", Err: errors.New("no space left on device")}
	for _, args := range everyVerb {
		var errs bytes.Buffer
		code := run(strings.Fields(args), terminal{strings.NewReader(""), brokenWriter{full}, &errs})
		assert.Equal(t, exitUnwritten, code, args)
		assert.Equal(t, "holdover: standard output: no space left on device\n", hinted.ReplaceAllString(errs.String(), ""), args)
	}
}

// hinted is what completion says to the person who calls it by hand.
var hinted = regexp.MustCompile(`Completion ended with directive:.*\n`)

// A file system may tell of a full disk only when the file is closed.
func TestAFullDiskIsSeenAtTheClose(t *testing.T) {
	var errs bytes.Buffer
	code := run([]string{"schema"}, terminal{strings.NewReader(""), closesFull{}, &errs})
	assert.Equal(t, exitUnwritten, code)
	assert.Equal(t, "holdover: standard output: no space left on device\n", errs.String())
}

type closesFull struct{ bytes.Buffer }

func (closesFull) Write(text []byte) (int, error) { return len(text), nil }
func (closesFull) Close() error                   { return syscall.ENOSPC }

func TestABrokenPipeIsQuiet(t *testing.T) {
	var errs bytes.Buffer
	code := run([]string{"plan"}, terminal{strings.NewReader(""), brokenWriter{syscall.EPIPE}, &errs})
	assert.Equal(t, exitDone, code)
	assert.Empty(t, errs.String())
}

func TestAStandardInputThatFailsIsSaid(t *testing.T) {
	var out, errs bytes.Buffer
	code := run([]string{"plan", "-"}, terminal{brokenReader{}, &out, &errs})
	assert.Equal(t, exitWrong, code)
	assert.Empty(t, out.String())
	assert.Equal(t, "standard input: this file cannot be read: unexpected EOF\n", errs.String())
}

type brokenReader struct{}

func (brokenReader) Read([]byte) (int, error) { return 0, io.ErrUnexpectedEOF }

// Every verb must lead its help with an example that runs.
func TestEveryVerbHasAnExample(t *testing.T) {
	root := newRoot(terminal{})
	for _, c := range root.Commands() {
		assert.Contains(t, c.Example, "holdover "+c.Name(), c.Name())
		assert.NotEmpty(t, c.Short, c.Name())
	}
}

func TestNearestPrefersAFewLettersToAPart(t *testing.T) {
	words := []string{"load.running_w", "load.average_w", "battery.modules"}
	assert.Equal(t, []string{"battery.modules"}, nearest("batery.modules", words))
	assert.Equal(t, []string{"load.running_w"}, nearest("running", words))
	assert.Empty(t, nearest("zebra", words))
}
