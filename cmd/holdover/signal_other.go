//go:build !unix

package main

import (
	"os"
	"syscall"
)

// catchQuit does nothing where there is no such signal.
func catchQuit() (stop func()) { return func() {} }

// dieBy exits with the status that shells elsewhere show for the signal.
func dieBy(s syscall.Signal) { os.Exit(exitSignal + int(s)) }
