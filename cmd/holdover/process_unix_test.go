//go:build linux || darwin

package main

import (
	"os"
	"runtime"
	"syscall"
	"time"
)

// limitCPU has the system end this process when it has used so much of the processor's time.
func limitCPU(most time.Duration) {
	seconds := uint64(most.Seconds())
	if err := syscall.Setrlimit(syscall.RLIMIT_CPU, &syscall.Rlimit{Cur: seconds, Max: seconds}); err != nil {
		panic(err)
	}
}

// peakMiB is the most memory that a process that has ended held at once.
func peakMiB(p *os.ProcessState) float64 {
	use, ok := p.SysUsage().(*syscall.Rusage)
	if !ok {
		return 0
	}
	if runtime.GOOS == "darwin" { // bytes there, KiB elsewhere
		return float64(use.Maxrss) / (1 << 20)
	}
	return float64(use.Maxrss) / (1 << 10)
}
