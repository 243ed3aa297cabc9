//go:build !unix

package screens

import (
	"os"
	"syscall"
)

// The signals that end the screens: an interrupt, and a console or a session that is closed. There is no job control.
var (
	leaving   = []os.Signal{syscall.SIGINT, syscall.SIGTERM}
	impatient = leaving
	stopping  []os.Signal
)

func (a *app) stopJob() {}

func stopAlone() {}
