package screens

import (
	"fmt"
	"slices"
	"strings"

	"holdover/loads"
	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/planner"
)

// circuitColumns lays the circuits table out: the name takes what the others leave.
func circuitColumns(width int) []column {
	needs := 14
	if width >= 100 {
		needs = 26
	}
	columns := []column{
		{"care", 6, false}, {"name", 0, false}, {"running", 9, true}, {"starting", 9, true}, {"use/day", 7, true},
		{"leg", 4, false}, {"needs", needs, false},
	}
	taken := len(columns) - 1 // the gaps
	for _, c := range columns {
		taken += c.width
	}
	columns[1].width = max(8, width-taken)
	return columns
}

// circuitRow is circuit i as a row of the table.
func circuitRow(l look, result *planner.Result, i int) gridRow {
	c := &result.Home.Circuits[i]
	name := c.Name
	if c.Count > 1 {
		name = fmt.Sprintf("%d × %s", c.Count, name)
	}
	row := gridRow{texts: []string{
		string(c.Care), name, runningText(result, i), startingText(l, result.Home, c), useText(l, result, i),
		legText(l, result, i), needsText(c.Needs),
	}}
	switch c.Care {
	case home.Keep:
		row.mark = l.strong
	case home.Shed:
		row.mark = l.quiet
	}
	return row
}

// loadOf finds what a kept or rotated circuit draws; ok is false for one that is shed.
func loadOf(result *planner.Result, circuit int) (load loads.Load, place int, ok bool) {
	all := result.Demand.Loads
	place, ok = slices.BinarySearchFunc(all, circuit, func(l loads.Load, i int) int { return l.Index - i })
	if !ok {
		return loads.Load{}, 0, false
	}
	return all[place], place, true
}

func runningText(result *planner.Result, i int) string {
	c := &result.Home.Circuits[i]
	power := loads.RunningPower(c).W() * units.Watts(c.Count)
	if load, _, ok := loadOf(result, i); ok {
		power = load.Running.W()
	}
	return units.Quantity(float64(power), "W")
}

func startingText(l look, house *home.Home, c *home.Circuit) string {
	starting, ok := loads.StartingPower(c, house.Assume.StartingPowerFactor)
	if !ok {
		return l.glyphs.dash
	}
	return units.Quantity(float64(starting.VA()), "VA")
}

// useText says how long a circuit is on in a day: as worked out for the season, or for one that is shed as the file says.
func useText(l look, result *planner.Result, i int) string {
	c := &result.Home.Circuits[i]
	hours := 0.0
	switch load, _, ok := loadOf(result, i); {
	case ok:
		for _, share := range load.Duty {
			hours += share
		}
	case c.Use.Kind == home.UseAlways && c.Heater == nil:
		hours = 24
	case c.Use.Kind == home.UseDuty:
		hours = 24 * c.Use.Duty
	case c.Use.Kind == home.UseHours:
		for _, share := range c.Use.Hours {
			hours += share
		}
	default:
		return l.glyphs.dash
	}
	if hours > 0 && hours < 0.995 {
		return units.Quantity(hours*60, "min")
	}
	return units.Quantity(hours, "h")
}

func legText(l look, result *planner.Result, i int) string {
	if _, place, ok := loadOf(result, i); ok && place < len(result.Legs.Of) {
		return result.Legs.Of[place]
	}
	return l.glyphs.dash
}

// needsText says what a circuit asks of its supply, the hardest first.
func needsText(n home.Needs) string {
	var words []string
	if n.Wave == home.Sine {
		words = append(words, "sine")
	}
	if n.Gap > 0 {
		words = append(words, "gap "+units.Brief(n.Gap))
	}
	if n.EarthedNeutral {
		words = append(words, "earth")
	}
	if n.CanWait > 0 {
		words = append(words, "wait "+units.Quantity(float64(n.CanWait), "h"))
	}
	return strings.Join(words, ", ")
}
