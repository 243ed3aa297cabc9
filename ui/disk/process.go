package disk

import (
	"crypto/sha256"
	"encoding/hex"
	"os"
	"sync"
)

// A Process names one process so that it is not taken for a later one with the same number. Where the system does not tell
// (neither Linux nor macOS nor Windows) Start and Boot are empty and the number alone counts.
type Process struct {
	PID   int    `json:"pid"`
	Start string `json:"start,omitempty"` // when it started, as the system counts that: digits
	Boot  string `json:"boot,omitempty"`  // the boot of the system that it runs under
	Space string `json:"space,omitempty"` // the space that its number counts in: on Linux a container may have its own
	Host  string `json:"host,omitempty"`
}

// A State is what is known of a process.
type State int

// Elsewhere is a process of which nothing can be known from here: on another host, or in another container.
const (
	Dead State = iota
	Living
	Elsewhere
)

// Self is this process.
var Self = sync.OnceValue(func() Process {
	host, _ := os.Hostname()
	start, _ := startOf(os.Getpid())
	return Process{PID: os.Getpid(), Start: start, Boot: bootID(), Space: pidSpace(), Host: host}
})

// State says whether the process lives.
func (p Process) State() State {
	here := Self()
	switch {
	case p.Boot != here.Boot && p.Host == here.Host:
		return Dead // of before the last boot
	case p.Boot != here.Boot, p.Space != here.Space, here.Boot == "" && p.Host != here.Host:
		return Elsewhere
	case p.PID <= 0:
		return Dead
	}
	start, alive := startOf(p.PID)
	if !alive || (p.Start != "" && start != "" && p.Start != start) {
		return Dead
	}
	return Living
}

// place stands in short for all that a process number counts within.
func (p Process) place() string {
	sum := sha256.Sum256([]byte(p.Boot + "\n" + p.Space + "\n" + p.Host))
	return hex.EncodeToString(sum[:4])
}
