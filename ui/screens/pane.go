package screens

import (
	"fmt"

	"holdover/loads"
	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/profiles"
	"holdover/ui/screens/draft"
)

// circuitPane tells more of one circuit: what it draws and when, and where each figure comes from.
func circuitPane(l look, d *draft.Draft, i, width int) []string {
	result := d.Result()
	c := &result.Home.Circuits[i]
	lines := wrap(c.Name, width, "")
	for n := range lines {
		lines[n] = l.heading.on(lines[n])
	}
	if profile, ok := profiles.FindCircuit(c.Like); ok {
		lines = append(lines, wrap("like "+profile.Name+": "+profile.Title, width, "")...)
		lines = append(lines, quietLines(l, wrap(profile.Source, width, "  "))...)
	}
	lines = append(lines, "")
	running := loads.RunningPower(c)
	text := fmt.Sprintf("running %s W, %s VA", units.Format(float64(running.W())), units.Format(float64(running.VA())))
	lines = append(lines, wrap(text, width, "")...)
	if starting, ok := loads.StartingPower(c, result.Home.Assume.StartingPowerFactor); ok {
		text = fmt.Sprintf("starting %s VA for %s", units.Format(float64(starting.VA())), secondsText(c.StartTime))
		lines = append(lines, wrap(text, width, "")...)
	}
	lines = append(lines, wrap(originText(result.Home, i), width, "")...)
	load, _, ok := loadOf(result, i)
	if !ok {
		return append(lines, "", l.quiet.on("left off in an outage"))
	}
	return append(lines, hourStrip(l, load.Hourly, width)...)
}

func quietLines(l look, lines []string) []string {
	for i := range lines {
		lines[i] = l.quiet.on(lines[i])
	}
	return lines
}

// originText says where the running figure comes from.
func originText(house *home.Home, i int) string {
	for _, key := range []string{"running", "running_amps", "heater.firing"} {
		if o, ok := house.Origin(fmt.Sprintf("circuits[%d].%s", i, key)); ok && o.Line > 0 {
			return fmt.Sprintf("running draw from line %d of the home file", o.Line)
		}
	}
	return "running draw from the profile"
}

// hourStrip draws a day's mean draw in one line.
func hourStrip(l look, hourly [24]units.Watts, width int) []string {
	values := make([]float64, len(hourly))
	least, most, day := hourly[0], hourly[0], 0.0
	for h, w := range hourly {
		values[h] = float64(w)
		least, most, day = min(least, w), max(most, w), day+float64(w)
	}
	text := fmt.Sprintf("%s to %s W on average in an hour, %s Wh a day", units.Format(float64(least)), units.Format(float64(most)), units.Format(day))
	lines := []string{"", l.strong.on("0h    6h    12h   18h   ")}
	row := ""
	for _, v := range values {
		row += barCell(barLevel(v, float64(most), len(l.glyphs.levels)), l.glyphs)
	}
	return append(append(lines, row), wrap(text, width, "")...)
}
