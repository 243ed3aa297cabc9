//go:build unix

package main

import (
	"os"
	"os/signal"
	"syscall"
	"time"
)

// catchQuit ends a verb on SIGQUIT without the trace that the runtime would print, until stop is called. The other signals end it
// by themselves; nothing is half written then, since a result is written whole.
func catchQuit() (stop func()) {
	quit := make(chan os.Signal, 1)
	signal.Notify(quit, syscall.SIGQUIT)
	go func() {
		if s, ok := <-quit; ok {
			os.Exit(exitSignal + int(s.(syscall.Signal)))
		}
	}()
	return func() { signal.Stop(quit); close(quit) }
}

// dieBy ends the program by the signal that ended its screens, so that a shell's loop or script ends with it; a shell shows 128
// and the signal's number. Where that does not end it, as a SIGQUIT whose trace nobody wants, it exits with that status.
func dieBy(s syscall.Signal) {
	if s != syscall.SIGQUIT {
		signal.Reset(s)
		if syscall.Kill(os.Getpid(), s) == nil {
			time.Sleep(time.Second)
		}
	}
	os.Exit(exitSignal + int(s))
}
