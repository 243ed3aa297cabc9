package main

import (
	"bytes"
	"errors"
	"io"
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
)

// brokenWriter fails every write.
type brokenWriter struct{ err error }

func (w brokenWriter) Write([]byte) (int, error) { return 0, w.err }

func TestAFullDiskIsNoSuccess(t *testing.T) {
	for _, args := range []string{"plan", "plan --json", "why", "why load.running_w", "profiles", "profiles lfp", "schema", "completion bash"} {
		var errs bytes.Buffer
		code := run(strings.Fields(args), terminal{strings.NewReader(""), brokenWriter{errors.New("no space left")}, &errs})
		assert.Equal(t, exitWrong, code, args)
		assert.Equal(t, "holdover: no space left\n", errs.String(), args)
	}
}

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
