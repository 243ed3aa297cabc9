package report

import (
	"fmt"
	"slices"
	"strings"

	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/loads/visible"
	"holdover/planner/waiting"
)

// addTurns shows the timetable of the circuits that take turns: what it takes, a chart, and a card for the panel.
func addTurns(p *page, t waiting.Timetable) {
	if len(t.Rounds)+len(t.WaitOut)+len(t.Keep)+len(t.Later)+len(t.Unknown) == 0 {
		return
	}
	p.heading("Turns")
	p.item(t.Says())
	for _, line := range WithoutTurns(t) {
		p.item(line)
	}
	if len(t.Turns) == 0 {
		return
	}
	for _, r := range t.Rounds {
		p.item(fmt.Sprintf("%s: %s of up to %s, at most %s between them.", r.Circuit, counted(r.Count, "turn"), hoursText(r.Turn), hoursText(r.Wait)))
	}
	p.line("")
	for _, line := range Chart(t, p.width-len(tableIndent)) {
		p.line(tableIndent + line)
	}
	p.heading("Card for the panel")
	for _, line := range Card(t) {
		p.paragraph(line[1], tableIndent+line[0]+tableGap)
	}
	if more := CardEnds(t); more != "" {
		p.item(more)
	}
}

// WithoutTurns says which circuits get no turn, and why.
func WithoutTurns(t waiting.Timetable) (says []string) {
	for _, part := range []struct {
		says  string
		names []string
	}{
		{"Can wait until supply is back, and gets no turn: ", t.WaitOut},
		{"Has to have its first turn only after the days of this table: ", t.Later},
		{"Nothing says how long it can wait (needs.can_wait), so it gets no turn: ", t.Unknown},
		{"Can not take turns, and is to be kept: ", t.Keep},
	} {
		if len(part.names) > 0 {
			says = append(says, part.says+strings.Join(part.names, "; ")+".")
		}
	}
	return says
}

// chartLabel is the room for names beside a chart, in columns.
const chartLabel = 22

// Chart draws a timetable: a row a circuit, # while it is on, and the clock above it. Where it is longer than the width allows, a
// column stands for several slots and is # when any of them is on.
func Chart(t waiting.Timetable, width int) []string {
	slots := int(float64(t.Length/t.Slot) + 0.999999)
	each := 1
	for (slots+each-1)/each > max(8, width-chartLabel-1) {
		each++
	}
	columns := (slots + each - 1) / each
	column := t.Slot * units.Hours(each)
	lines := []string{pad("", chartLabel, false) + " " + clockRow(t.Start, column, columns)}
	for _, r := range t.Rounds {
		row := []byte(strings.Repeat(".", columns))
		for _, turn := range t.Turns {
			if turn.Circuit != r.Circuit {
				continue
			}
			for c := range row {
				from, to := column*units.Hours(c), column*units.Hours(c+1)
				if turn.From < to-1e-9 && turn.To > from+1e-9 {
					row[c] = '#'
				}
			}
		}
		name := visible.Text(r.Circuit)
		if cells(name) > chartLabel {
			name = wrapName(name)
		}
		lines = append(lines, pad(name, chartLabel, false)+" "+string(row))
	}
	return lines
}

// wrapName cuts a name to the room beside a chart.
func wrapName(name string) string {
	cut := []rune(name)
	for cells(string(cut)) > chartLabel-1 {
		cut = cut[:len(cut)-1]
	}
	return string(cut) + "~"
}

// clockRow writes the clock hours above a chart, where there is room for them.
func clockRow(start, column units.Hours, columns int) string {
	row := []byte(strings.Repeat(" ", columns))
	free := 0
	for c := range columns {
		at := start + column*units.Hours(c)
		last := at - column
		passes := int(float64(at)/3+1e-9) != int(float64(last)/3+1e-9)
		text := home.Clock(at)[:2] + "h"
		if (c == 0 || passes) && c >= free && c+len(text) <= columns {
			copy(row[c:], text)
			free = c + len(text) + 1
		}
	}
	return strings.TrimRight(string(row), " ")
}

// cardHours is how much of a timetable a card holds.
const cardHours = 48

// CardEnds says so where the card does not hold the whole timetable.
func CardEnds(t waiting.Timetable) string {
	if t.Length <= cardHours {
		return ""
	}
	return fmt.Sprintf("The card holds the first %d h; go on in the same way, no circuit off for longer than it can wait.", cardHours)
}

// Card lists what to switch when: a clock time and what goes off and on then, for the first two days.
func Card(t waiting.Timetable) (lines [][2]string) {
	type change struct{ on, off []string }
	at := map[units.Hours]*change{}
	var times []units.Hours
	note := func(when units.Hours) *change {
		if at[when] == nil {
			at[when] = &change{}
			times = append(times, when)
		}
		return at[when]
	}
	for _, turn := range t.Turns {
		if turn.From >= cardHours {
			continue
		}
		c := note(turn.From)
		c.on = append(c.on, turn.Circuit)
		if turn.To < t.Length {
			c := note(turn.To)
			c.off = append(c.off, turn.Circuit)
		}
	}
	slices.Sort(times)
	for _, when := range times {
		var parts []string
		if c := at[when]; len(c.off) > 0 {
			parts = append(parts, "OFF "+strings.Join(c.off, ", "))
		}
		if c := at[when]; len(c.on) > 0 {
			parts = append(parts, "ON "+strings.Join(c.on, ", "))
		}
		day := ""
		if n := int(float64(t.Start+when)/24 + 1e-9); n > 0 {
			day = fmt.Sprintf(" day %d", n+1)
		}
		lines = append(lines, [2]string{pad(home.Clock(t.Start+when)+day, 11, false), strings.Join(parts, "; ")})
	}
	return lines
}
