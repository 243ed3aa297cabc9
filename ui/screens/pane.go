package screens

import (
	"fmt"

	"holdover/loads"
	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/profiles"
	"holdover/ui/document"
	"holdover/ui/screens/draft"
)

// circuitPane tells more of one circuit: what it draws and when, and where each figure comes from.
func circuitPane(d *draft.Draft, i int) document.Document {
	result := d.Result()
	c := &result.Home.Circuits[i]
	says := document.Document{document.Heading{Text: c.Name}}
	say := func(tone document.Tone, text string) { says = append(says, document.Paragraph{Text: text, Tone: tone}) }
	if profile, ok := profiles.FindCircuit(c.Like); ok {
		say(document.Plain, "like "+profile.Name+": "+profile.Title)
		say(document.Quiet, profile.Source)
	}
	running := loads.RunningPower(c)
	draws := document.List{"running " + units.Quantity(float64(running.W()), "W") + ", " + units.Quantity(float64(running.VA()), "VA")}
	if starting, ok := loads.StartingPower(c, result.Home.Assume.StartingPowerFactor); ok {
		draws = append(draws, "starting "+units.Quantity(float64(starting.VA()), "VA")+" for "+units.Brief(c.StartTime))
	}
	says = append(says, append(draws, originText(result.Home, i)))
	load, _, ok := loadOf(result, i)
	if !ok {
		say(document.Quiet, "left off in an outage")
		return says
	}
	least, most, day := load.Hourly[0], load.Hourly[0], units.Watts(0)
	for _, w := range load.Hourly {
		least, most, day = min(least, w), max(most, w), day+w
	}
	says = append(says, document.DrawChart(&load))
	say(document.Plain, fmt.Sprintf("%s to %s on average in an hour, %s a day", units.Format(float64(least)), units.Quantity(float64(most), "W"), units.Quantity(float64(day), "Wh")))
	return says
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
