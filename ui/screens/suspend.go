//go:build unix

package screens

import (
	"os"
	"os/signal"
	"syscall"
	"time"
)

// wakeWithin is how long a stop may take to arrive. It is also all the wait there is where no shell could ever continue the
// program: the system then drops the signal (POSIX, orphaned process groups), and the screens come back by themselves.
const wakeWithin = 300 * time.Millisecond

// standAside stops the program as Ctrl-Z does outside full screens, until the shell continues it. The signal goes to the whole
// foreground job, as the terminal itself would send it. Another thread may take it, so this one waits: else the screens could
// take the terminal back before the stop.
func standAside() {
	continued := make(chan os.Signal, 1)
	signal.Notify(continued, syscall.SIGCONT)
	defer signal.Stop(continued)
	if syscall.Kill(0, syscall.SIGTSTP) != nil {
		return
	}
	select {
	case <-continued:
	case <-time.After(wakeWithin):
	}
}
