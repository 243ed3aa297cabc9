//go:build unix

package main

import (
	"os"
	"runtime"
	"syscall"
)

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
