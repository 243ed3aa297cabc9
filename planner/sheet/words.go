package sheet

import (
	"fmt"
	"strings"

	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/planner/derive"
)

func watts(w units.Watts) string        { return units.Format(float64(w)) + " W" }
func voltAmps(va units.VoltAmps) string { return units.Format(float64(va)) + " VA" }

// A number is written when it is read: a finding that nobody reads writes none.
type number float64

func (n number) String() string { return units.Format(float64(n)) }

// A percent is a share, written when it is read.
type percent float64

func (p percent) String() string { return units.Format(100*float64(p)) + " %" }

// A span is a length of time in the unit that suits it, h.
type span units.Hours

func (s span) String() string {
	switch h := units.Hours(s); {
	case h >= longest:
		return "a year or more"
	case h < 2:
		return units.Format(float64(h)*60) + " min"
	case h >= 72:
		return units.Format(float64(h)/24) + " days"
	default:
		return units.Format(float64(h)) + " h"
	}
}

// A brief is a moment in ms, s or longer, s.
type brief units.Seconds

func (b brief) String() string {
	switch t := units.Seconds(b); {
	case t < 1:
		return units.Format(float64(t)*1000) + " ms"
	case t >= 120:
		return span(t / 3600).String()
	default:
		return units.Format(float64(t)) + " s"
	}
}

// A few is a list of names, of which so many are written.
type few []string

func (f few) String() string {
	return derive.Names(f, 4)
}

// verb is the form of a verb that goes with so many names.
func verb(names []string, one, many string) string {
	if len(names) == 1 {
		return one
	}
	return many
}

func article(word home.Wave) string {
	if strings.ContainsAny(string(word[:1]), "aeiou") {
		return "An"
	}
	return "A"
}

func sentence(text string) string {
	if text == "" {
		return ""
	}
	return strings.ToUpper(text[:1]) + text[1:]
}

// A degrees is a temperature in the units of a home, and in °C.
type degrees struct {
	home    *home.Home
	celsius float64
}

func (d degrees) String() string {
	if d.home.House.Units == units.US {
		return fmt.Sprintf("%s °F (%s °C)", number(d.celsius*9/5+32), number(d.celsius))
	}
	return number(d.celsius).String() + " °C"
}
