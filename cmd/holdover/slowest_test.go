package main

import (
	"bytes"
	"context"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

var slowest = flag.String("slowest", "", "plan random homes each in a process of its own, and write the slowest into this `folder`")

const (
	slowestKept = 30
	mostCPU     = 20 * time.Second // of the processor's time; a home that takes more is ended
)

// limitedCall is the name by which the test binary is the program with no more than mostCPU to spend.
const limitedCall = "limited-holdover"

func limitedMain() {
	limitCPU(mostCPU)
	main()
}

// A timed is what planning one home took.
type timed struct {
	drawn
	cpu   time.Duration // user and system, on one core
	peak  float64       // MiB of memory, 0 where the system does not say; no less than this test held when it began the process
	ended string        // how, where it was not by an exit status of 0 or 1
}

// TestSlowestRandomHomes is for those who make the planner faster: it runs with -slowest FOLDER only. It says which of -homes
// random homes take longest, one core each, and keeps them; one that hangs or panics stops none of the others. Every second
// home is one of the slowest so far with a few keys drawn again, so that the search goes where it hurts.
func TestSlowestRandomHomes(t *testing.T) {
	if *slowest == "" {
		t.Skip("only with -slowest FOLDER")
	}
	var all []timed
	for seed := *firstHome; seed < *firstHome+uint64(*homes); seed++ {
		h := anyHome(seed)
		if seed%2 == 1 && len(all) == slowestKept { // one like the slowest may be slower yet
			h = alike(all[int(seed/2)%10].drawn, seed)
		}
		if !h.reads {
			continue
		}
		run := timeHome(t, h)
		if run.ended != "" {
			fmt.Printf("seed %d: %s\n", seed, run.ended)
			keep(t, filepath.Join(*slowest, "ended"), fmt.Sprintf("seed-%d.yaml", seed), h)
		}
		all = append(all, run)
		slices.SortStableFunc(all, func(a, b timed) int { return int(b.cpu - a.cpu) })
		all = all[:min(len(all), slowestKept)]
	}
	for i, run := range all {
		path := keep(t, *slowest, fmt.Sprintf("%02d-seed-%d.yaml", i+1, run.seed), run.drawn)
		if i < 10 {
			fmt.Printf("%8.2f s %6.0f MiB  %s %s\n", run.cpu.Seconds(), run.peak, path, run.ended)
		}
	}
}

// timeHome plans a home in a process of its own, on one core.
func timeHome(t *testing.T, h drawn) timed {
	self, err := os.Executable()
	require.NoError(t, err)
	ctx, cancel := context.WithTimeout(t.Context(), 10*mostCPU) // the machine may have other things to do
	defer cancel()
	c := exec.CommandContext(ctx, self, "plan", "--json", "-")
	c.Args[0] = limitedCall
	c.Env = append(os.Environ(), "GOMAXPROCS=1")
	var errs bytes.Buffer
	c.Stdin, c.Stderr = bytes.NewReader(h.text), &errs
	err = c.Run()
	run := timed{drawn: h, cpu: c.ProcessState.UserTime() + c.ProcessState.SystemTime(), peak: peakMiB(c.ProcessState)}
	switch {
	case !c.ProcessState.Exited():
		run.ended = "ended before it was done"
	case c.ProcessState.ExitCode() >= exitWrong:
		run.ended = fmt.Sprintf("%v: %.300s", err, errs.String())
	}
	return run
}
