package disk

import (
	"strconv"

	"golang.org/x/sys/unix"
)

// startOf gives the start of a process in microseconds since 1970.
func startOf(pid int) (start string, alive bool) {
	if !answers(pid) {
		return "", false
	}
	info, err := unix.SysctlKinfoProc("kern.proc.pid", pid)
	if err != nil {
		return "", true
	}
	began := info.Proc.P_starttime
	return strconv.FormatInt(int64(began.Sec)*1e6+int64(began.Usec), 10), true
}

func bootID() string {
	id, _ := unix.Sysctl("kern.bootsessionuuid")
	return id
}

func pidSpace() string { return "" }
