package main

import (
	"errors"
	"flag"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "write what the program says now into the scripts and golden files")

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"holdover": main, "holdover-breaks": breaks, limitedCall: limitedMain})
}

// TestScripts runs every script of testdata/scripts, each one call or a few and what they must say. $HOMES, $BAD and $GEAR are
// the folders of invented homes, good and bad, and of spec sheets.
func TestScripts(t *testing.T) {
	testdata, err := filepath.Abs("../../testdata")
	require.NoError(t, err)
	testscript.Run(t, testscript.Params{
		Dir:                 filepath.Join(testdata, "scripts"),
		UpdateScripts:       *update,
		RequireExplicitExec: true,
		RequireUniqueNames:  true,
		Setup: func(e *testscript.Env) error {
			e.Setenv("HOMES", filepath.Join(testdata, "homes"))
			e.Setenv("BAD", filepath.Join(testdata, "bad"))
			e.Setenv("GEAR", filepath.Join(testdata, "gear"))
			return nil
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"exits":   exits,
			"aliases": aliases,
			"same":    same,
		},
	})
}

// exits STATUS PROGRAM ARGS… runs a program that must end with that exit status.
func exits(ts *testscript.TestScript, not bool, args []string) {
	if not || len(args) < 2 {
		ts.Fatalf("usage: exits STATUS PROGRAM ARGS...")
	}
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	got := 0
	var exit *exec.ExitError
	if err := ts.Exec(args[1], args[2:]...); errors.As(err, &exit) {
		got = exit.ExitCode()
	} else {
		ts.Check(err)
	}
	if got != want {
		ts.Fatalf("exit status %d, want %d", got, want)
	}
}

// aliases FILE BYTES writes a YAML file of about so many bytes in which each line doubles what the line before it stands
// for: read naively it fills any memory.
func aliases(ts *testscript.TestScript, not bool, args []string) {
	if not || len(args) != 2 {
		ts.Fatalf("usage: aliases FILE BYTES")
	}
	size, err := strconv.Atoi(args[1])
	ts.Check(err)
	var b strings.Builder
	b.WriteString("holdover: 1\na0: &a0 [x, x]\n")
	for i := 1; b.Len() < size; i++ {
		n, last := strconv.Itoa(i), strconv.Itoa(i-1)
		b.WriteString("a" + n + ": &a" + n + " [*a" + last + ", *a" + last + "]\n")
	}
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), []byte(b.String()), 0o644))
}

// same PROGRAM ARGS… runs a program twice and wants the same answer.
func same(ts *testscript.TestScript, not bool, args []string) {
	if not || len(args) == 0 {
		ts.Fatalf("usage: same PROGRAM ARGS...")
	}
	ts.Check(ts.Exec(args[0], args[1:]...))
	first := ts.ReadFile("stdout")
	ts.Check(ts.Exec(args[0], args[1:]...))
	if first != ts.ReadFile("stdout") {
		ts.Fatalf("two runs differ")
	}
}
