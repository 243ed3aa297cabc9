package report

import (
	"context"
	"fmt"
	"strings"

	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/planner"
	"holdover/planner/waiting"
	"holdover/profiles"
)

// addWaiting says how long things can wait, what hot water takes, and the turns.
func addWaiting(p *page, r *planner.Result) {
	w := planner.Wait(context.Background(), r)
	addLimits(p, r, w)
	addCoolDown(p, r, w)
	addHeaters(p, r)
	addTurns(p, w.Turns)
}

func addLimits(p *page, r *planner.Result, w waiting.Plan) {
	p.heading("How long each can be without supply")
	t := table{heads: []string{"circuit, and why", "hours"}, right: []bool{false, true}}
	for _, l := range w.Limits {
		if l.Care != home.Shed {
			t.add(l.Circuit+": "+l.Why, WaitText(l, ""))
		}
	}
	t.write(p)
}

// WaitText writes how long a circuit can wait, in hours with a unit or without.
func WaitText(l waiting.Limit, unit string) string {
	switch {
	case l.Never():
		return "never"
	case !l.Known():
		return "?"
	}
	return units.Format(float64(l.Hours)) + unit
}

// addCoolDown says when the unheated house is how cold; without its figures, what houses of some ages do.
func addCoolDown(p *page, r *planner.Result, w waiting.Plan) {
	p.heading("The house without heat")
	for _, l := range w.Levels {
		if !l.Falls {
			p.item(fmt.Sprintf("It does not fall to %s in this weather.", Degrees(r.Home, l.At)))
			break
		}
		p.item(fmt.Sprintf("It falls to %s after %s: %s.", Degrees(r.Home, l.At), hoursText(l.After), l.Means))
	}
	if len(w.Missing) > 0 {
		p.item(fmt.Sprintf("How fast it cools can be said with %s.", strings.Join(w.Missing, " and ")))
		houses, source := profiles.HoursOfSafety()
		var parts []string
		for _, h := range houses {
			parts = append(parts, fmt.Sprintf("%s about %s h", strings.ToLower(h.Title[:1])+h.Title[1:], units.Format(h.Hours)))
		}
		p.item(fmt.Sprintf("For comparison, hours to 40 °F in hard cold: %s (%s).", strings.Join(parts, ", "), source))
	}
	p.item(planner.Warmth(r).Says)
}

// Degrees writes a temperature in the units of the home.
func Degrees(house *home.Home, c units.Celsius) string {
	if house.House.Units == "us" {
		return amount(units.Temperature.In(float64(c), "F"), "°F")
	}
	return amount(float64(c), "°C")
}

func addHeaters(p *page, r *planner.Result) {
	for i, n := range planner.Heaters(r) {
		if i == 0 {
			p.heading("Hot water")
		}
		p.item(n.Circuit + ": " + strings.Join(n.Says, " "))
	}
}
