package loads

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"gopkg.in/yaml.v3"

	"holdover/loads/units"
)

// A StartHour is the clock time at which the outage begins, or the hardest one.
type StartHour struct {
	Worst bool        // try every hour and take the hardest
	At    units.Hours // clock time, 0 ≤ At < 24, when not Worst
}

// String writes "18:00" or "worst".
func (s StartHour) String() string {
	if s.Worst {
		return "worst"
	}
	return Clock(s.At)
}

// Clock writes a clock time as HH:MM, rounded to the minute and wrapped at midnight.
func Clock(at units.Hours) string {
	minutes := int(float64(at)*60+0.5) % (24 * 60)
	return fmt.Sprintf("%02d:%02d", minutes/60, minutes%60)
}

var clockTime = regexp.MustCompile(`^([0-9]{1,2}):([0-5][0-9])$`)

func parseClock(text string) (units.Hours, bool) {
	m := clockTime.FindStringSubmatch(strings.TrimSpace(text))
	if m == nil {
		return 0, false
	}
	hours, _ := strconv.Atoi(m[1])
	minutes, _ := strconv.Atoi(m[2])
	return units.Hours(float64(hours) + float64(minutes)/60), hours < 24
}

func (s *StartHour) readNode(r *reader, n *yaml.Node, path string) {
	text, ok := r.scalar(n, path)
	if !ok {
		return
	}
	if text == "worst" {
		*s = StartHour{Worst: true}
		return
	}
	at, ok := parseClock(text)
	if !ok {
		r.fault(n, path, "%q found; a clock time like \"18:00\", or worst, is accepted", text)
		return
	}
	*s = StartHour{At: at}
}
