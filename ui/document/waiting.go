package document

import (
	"fmt"
	"slices"
	"strings"

	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/planner"
	"holdover/planner/waiting"
	"holdover/profiles"
)

// Waiting says how long each circuit can be without supply, and why.
func Waiting(w Worked) Document {
	if w.Wait == nil {
		return nil
	}
	t := Table{Name: "waiting", Columns: []Column{{Head: "circuit, and why"}, {Head: "hours", Kind: Number}}}
	for _, l := range w.Wait.Limits {
		hours := Exactly(float64(l.Hours))
		switch {
		case l.Care == home.Shed:
			continue
		case l.Never():
			hours = Text("never")
		case !l.Known():
			hours = Text("?")
		}
		t.AddCells(Text(l.Circuit+": "+l.Why), hours)
	}
	return under("How long each can be without supply", t)
}

// Warmth says when the unheated house is how cold; without its figures, what houses of some ages do.
func Warmth(w Worked) Document {
	if w.Wait == nil {
		return nil
	}
	var says List
	for _, l := range w.Wait.Levels {
		at := units.InSystem(float64(l.At), "C", w.home().House.Units)
		if !l.Falls {
			says = append(says, fmt.Sprintf("It does not fall to %s in this weather.", at))
			break
		}
		says = append(says, fmt.Sprintf("It falls to %s after %s: %s.", at, units.Span(l.After), l.Means))
	}
	if len(w.Wait.Missing) > 0 {
		says = append(says, fmt.Sprintf("How fast it cools can be said with %s.", strings.Join(w.Wait.Missing, " and ")))
		houses, source := profiles.HoursOfSafety()
		var parts []string
		for _, h := range houses {
			parts = append(parts, fmt.Sprintf("%s about %s", strings.ToLower(h.Title[:1])+h.Title[1:], units.Quantity(h.Hours, "h")))
		}
		says = append(says, fmt.Sprintf("For comparison, hours to 40 °F in hard cold: %s (%s).", strings.Join(parts, ", "), source))
	}
	if w.Warmth != nil {
		says = append(says, w.Warmth.Says)
	}
	return under("The house without heat", says)
}

// Water says what each water heater needs.
func Water(w Worked) Document {
	var says List
	for _, n := range w.Water {
		says = append(says, n.Circuit+": "+strings.Join(n.Says, " "))
	}
	if says == nil {
		return nil
	}
	return under("Hot water", says)
}

// Turns show the timetable of the circuits that take turns: what it takes, and a chart.
func Turns(w Worked) Document {
	if w.Wait == nil {
		return nil
	}
	t := w.Wait.Turns
	if len(t.Rounds)+len(t.WaitOut)+len(t.Keep)+len(t.Later)+len(t.Unknown) == 0 {
		return nil
	}
	says := append(List{t.Says()}, withoutTurns(t)...)
	if len(t.Turns) == 0 {
		return under("Turns", says)
	}
	for _, r := range t.Rounds {
		says = append(says, fmt.Sprintf("%s: %s of up to %s, at most %s between them.", r.Circuit, units.Counted(r.Count, "turn"), units.Span(r.Turn), units.Span(r.Wait)))
	}
	return under("Turns", says, turnsChart(t))
}

// withoutTurns says which circuits get no turn, and why.
func withoutTurns(t waiting.Timetable) (says List) {
	for _, part := range []struct {
		says  string
		names []string
	}{
		{"Can wait until supply is back, and gets no turn: ", t.WaitOut},
		{"Has to have its first turn only after the days of this table: ", t.Later},
		{"Nothing says how long it can wait (needs.can_wait), so it is on for the hours of its use each day: ", t.Unknown},
		{"Can not take turns, and is to be kept: ", t.Keep},
	} {
		if len(part.names) > 0 {
			says = append(says, part.says+strings.Join(part.names, "; ")+".")
		}
	}
	return says
}

// turnsChart has a row a circuit, marked while it is on.
func turnsChart(t waiting.Timetable) Chart {
	c := Chart{Start: t.Start, Length: t.Length}
	for _, r := range t.Rounds {
		row := Marks{Label: r.Circuit}
		for _, turn := range t.Turns {
			if turn.Circuit == r.Circuit {
				row.Spans = append(row.Spans, Span{float64(turn.From), float64(turn.To)})
			}
		}
		c.Rows = append(c.Rows, row)
	}
	return c
}

// cardHours is how much of a timetable a card holds.
const cardHours = 48

// Card is for the panel: what to switch when, a clock time and what goes off and on then, for the first two days.
func Card(w Worked) Document {
	if w.Wait == nil || len(w.Wait.Turns.Turns) == 0 {
		return nil
	}
	t := w.Wait.Turns
	var steps Entries
	for _, when := range changes(t) {
		var off, on []string
		for _, turn := range t.Turns {
			switch {
			case turn.From >= cardHours:
			case turn.To == when && turn.To < t.Length:
				off = append(off, turn.Circuit)
			case turn.From == when:
				on = append(on, turn.Circuit)
			}
		}
		var parts []string
		if len(off) > 0 {
			parts = append(parts, "OFF "+strings.Join(off, ", "))
		}
		if len(on) > 0 {
			parts = append(parts, "ON "+strings.Join(on, ", "))
		}
		steps = append(steps, Entry{Lead: planner.ClockAt(t.Start, float64(when)), Text: strings.Join(parts, "; ")})
	}
	d := under("Card for the panel", steps)
	if t.Length > cardHours {
		d = append(d, List{fmt.Sprintf("The card holds the first %d h; go on in the same way, no circuit off for longer than it can wait.", cardHours)})
	}
	return d
}

// changes are the times of a card at which something goes on or off.
func changes(t waiting.Timetable) (times []units.Hours) {
	for _, turn := range t.Turns {
		if turn.From < cardHours {
			times = append(times, turn.From)
			if turn.To < t.Length {
				times = append(times, turn.To)
			}
		}
	}
	slices.Sort(times)
	return slices.Compact(times)
}
