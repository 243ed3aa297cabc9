package disk

import (
	"fmt"
	"os"
	"strings"
)

// startOf gives the start of a process in clock ticks since the boot, field 22 of /proc/PID/stat (proc(5)). One that is dead
// and not yet waited for counts as dead.
func startOf(pid int) (start string, alive bool) {
	if !answers(pid) {
		return "", false
	}
	text, err := os.ReadFile(fmt.Sprintf("/proc/%d/stat", pid))
	if err != nil {
		return "", true
	}
	_, rest, _ := strings.Cut(string(text[strings.LastIndexByte(string(text), ')')+1:]), " ")
	fields := strings.Fields(rest)
	const state, startTicks = 0, 19 // of the fields behind the name
	if len(fields) <= startTicks {
		return "", true
	}
	return fields[startTicks], fields[state] != "Z" && fields[state] != "X"
}

func bootID() string {
	id, _ := os.ReadFile("/proc/sys/kernel/random/boot_id")
	return strings.TrimSpace(string(id))
}

func pidSpace() string {
	space, _ := os.Readlink("/proc/self/ns/pid")
	return space
}
