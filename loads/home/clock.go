package home

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"holdover/loads/units"
	"holdover/profiles"
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

// clockTime is a time of day: hours, perhaps minutes, perhaps which half of the day.
var clockTime = regexp.MustCompile(`^([0-9]{1,2})(?:[:.]([0-5][0-9])|(h)([0-5][0-9])?)? ?([ap]\.? ?m\.?)?$`)

// parseClock reads a time of day as people write it: 18:00, 6pm, 6:30 p.m., noon. What may be morning or evening is asked about.
func parseClock(text string) (units.Hours, error) {
	word := strings.Join(strings.Fields(strings.ToLower(text)), " ")
	m := clockTime.FindStringSubmatch(word)
	if m == nil {
		m = clockTime.FindStringSubmatch(profiles.EverydayInput().Clock[word])
	}
	if m == nil {
		return 0, fmt.Errorf("%q is no clock time, like \"18:00\" or 6pm", text)
	}
	hours, _ := strconv.Atoi(m[1])
	minutes, _ := strconv.Atoi(m[2] + m[4])
	switch half := m[5]; {
	case half != "" && (hours < 1 || hours > 12):
		return 0, fmt.Errorf("%q is no clock time: with am and pm hours go from 1 to 12", text)
	case half != "":
		hours %= 12
		if half[0] == 'p' {
			hours += 12
		}
	case m[2] == "" && m[3] == "" && hours >= 1 && hours <= 12:
		return 0, fmt.Errorf("%q may be morning or evening: %dam or %dpm?", text, hours, hours)
	case hours == 24 && minutes == 0:
		hours = 0
	case hours > 23:
		return 0, fmt.Errorf("%q is no clock time, like \"18:00\" or 6pm", text)
	}
	return units.Hours(float64(hours) + float64(minutes)/60), nil
}

func (s *StartHour) readText(text string) (says string, err error) {
	if text == "worst" {
		*s = StartHour{Worst: true}
		return text, nil
	}
	at, err := parseClock(text)
	if err != nil {
		return "", fmt.Errorf("%w; worst is accepted too", err)
	}
	*s = StartHour{At: at}
	return s.String(), nil
}

// echoWord records what was understood of a text that is written otherwise.
func (r *reader) echoWord(path, text, says string) {
	if text != says {
		r.understood(path, says)
	}
}
