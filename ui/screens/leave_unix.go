//go:build unix

package screens

import (
	"os"
	"os/signal"
	"syscall"
	"time"
)

// The signals that end the screens, those of them that do so at once when they come a second time, and those that have the
// screens stand aside.
var (
	leaving   = []os.Signal{syscall.SIGHUP, syscall.SIGINT, syscall.SIGQUIT, syscall.SIGTERM}
	impatient = []os.Signal{syscall.SIGINT, syscall.SIGQUIT, syscall.SIGTERM}
	stopping  = []os.Signal{syscall.SIGTSTP}
)

// wakeWithin is how long a stop may take to arrive. It is also all the wait there is where no shell could ever continue the
// program: the system then drops the signal (POSIX, orphaned process groups), and the screens come back by themselves.
const wakeWithin = 300 * time.Millisecond

// stopJob stops the whole foreground job, as the terminal itself would on Ctrl-Z outside full screens, until a shell continues
// it. We get the signal too, and catch it; what stops us, a SIGTTIN, is dropped like it where no shell could continue us.
func (a *app) stopJob() {
	a.ownStops.Add(1)
	if syscall.Kill(0, syscall.SIGTSTP) != nil {
		a.ownStops.Add(-1)
		return
	}
	stopBy(syscall.SIGTTIN)
}

// stopAlone stops this program until it is continued: somebody has sent it a stop, and is there to continue it.
func stopAlone() { stopBy(syscall.SIGSTOP) }

// stopBy stops this program by a signal of its own. Another thread may take it, so this one waits: else the screens could take
// the terminal back before the stop.
func stopBy(s syscall.Signal) {
	continued := make(chan os.Signal, 1)
	signal.Notify(continued, syscall.SIGCONT)
	defer signal.Stop(continued)
	if syscall.Kill(os.Getpid(), s) != nil {
		return
	}
	select {
	case <-continued:
	case <-time.After(wakeWithin):
	}
}
