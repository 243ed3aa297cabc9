package home

import (
	"cmp"
	"fmt"
	"regexp"
	"strings"

	"holdover/loads/units"
	"holdover/profiles"
)

// Limits is the `limits` section: what rules an option out.
type Limits struct {
	Generator    GeneratorLimit      `key:"generator" one:"allowed,none" doc:"allowed, or none where there is no place for one"`
	Fuels        []profiles.FuelName `key:"fuels" from:"fuels" doc:"fuels to be had, the preferred first"`
	FuelStore    units.Limit         `key:"fuel_store" unit:"L" range:"0,100000" doc:"fuel kept on the place"`
	Quiet        QuietHours          `key:"quiet" doc:"hours in which no engine may run, like 22:00-07:00"`
	BatteryPlace profiles.PlaceName  `key:"battery_place" from:"places" one:"none" doc:"where the battery would stand, or none"`
	Budget       units.Limit         `key:"budget" unit:"USD" range:"0,10000000" doc:"most to be spent at purchase"`
}

// A QuietHours is a daily stretch of clock time, which may pass midnight. From equal to To is no quiet at all.
type QuietHours struct{ From, To units.Hours }

// Any says whether there are quiet hours.
func (q QuietHours) Any() bool { return q.From != q.To }

// Covers says whether clock hour h (0 ≤ h < 24) is quiet.
func (q QuietHours) Covers(h units.Hours) bool {
	if q.From < q.To {
		return h >= q.From && h < q.To
	}
	return q.Any() && (h >= q.From || h < q.To)
}

// Length is the quiet time in a day.
func (q QuietHours) Length() units.Hours {
	if q.From <= q.To {
		return q.To - q.From
	}
	return q.To - q.From + 24
}

// String writes "22:00-07:00", or nothing.
func (q QuietHours) String() string {
	if !q.Any() {
		return ""
	}
	return Clock(q.From) + "-" + Clock(q.To)
}

// spanOfDay is two clock times and what stands between them.
var spanOfDay = regexp.MustCompile(`^(?:(?i:from|between) +)?(.+?) *(?:-|–|—| (?i:to|until|till|and) ) *(.+)$`)

func (q *QuietHours) readText(text string) (says string, err error) {
	const wanted = "two different clock times like \"22:00-07:00\" or 10pm-7am are wanted"
	m := spanOfDay.FindStringSubmatch(strings.Join(strings.Fields(text), " "))
	if m == nil {
		return "", fmt.Errorf("%q found; %s", text, wanted)
	}
	from, err1 := parseClock(m[1])
	to, err2 := parseClock(m[2])
	if err := cmp.Or(err1, err2); err != nil {
		return "", fmt.Errorf("%w; %s", err, wanted)
	}
	if from == to {
		return "", fmt.Errorf("%q found; %s", text, wanted)
	}
	*q = QuietHours{from, to}
	return q.String(), nil
}
