package report

import (
	"fmt"
	"math"

	"holdover/planner"
	"holdover/planner/outage"
)

// An event is one moment of a run at which something begins or ends.
type event struct {
	atH     float64 // after the start
	what    string
	leftKWh float64 // in the battery
	grave   bool    // always shown, however many there are
}

// events reads the moments of a run off its trace, in the order of time.
func events(o planner.Option) []event {
	var out []event
	add := func(atH, leftKWh float64, grave bool, what string) {
		out = append(out, event{atH, what, leftKWh, grave})
	}
	var before outage.Step
	wasShort, onceShort, onceEmpty := false, false, false
	gone := fuelGoneH(o)
	for _, s := range o.Trace {
		short := s.ShortKW > shortKW && !o.Carried
		switch {
		case s.On && !before.On:
			add(s.From, s.BeginKWh, false, "generator starts")
		case !s.On && before.On && s.From == gone:
			add(s.From, s.BeginKWh, true, "fuel gone, generator stops")
		case !s.On && before.On:
			add(s.From, s.BeginKWh, false, "generator stops")
		}
		if short && !wasShort {
			add(s.From, s.BeginKWh, !onceShort, "short of "+amount(s.ShortKW, "kW"))
			onceShort = true
		}
		if !short && wasShort {
			add(s.From, s.BeginKWh, false, "all supplied again")
		}
		if full := o.Outcome.Run.BeginKWh; s.EndKWh >= full && s.BeginKWh < full {
			add(s.To, s.EndKWh, false, "battery full")
		}
		if s.EndKWh <= 0 && s.BeginKWh > 0 {
			add(s.To, s.EndKWh, !onceEmpty, "battery empty")
			onceEmpty = true
		}
		wasShort, before = short, s
	}
	if before.On && before.To == gone {
		add(gone, before.EndKWh, true, "fuel gone")
	}
	return out
}

// fuelGoneH is when the last fuel is burnt, h after the start; +Inf when some is left. A generator never runs again after it,
// so it is the end of the last stretch with the generator on.
func fuelGoneH(o planner.Option) float64 {
	m := o.Outcome.Machine
	if m == nil || !m.Store.Reached(o.Outcome.Run.Fuel) {
		return math.Inf(1)
	}
	atH := math.Inf(1)
	for _, s := range o.Trace {
		if s.On {
			atH = s.To
		}
	}
	return atH
}

// mostEvents is how many events a reader follows; the grave ones stand beside them.
const mostEvents = 12

// eventTable lists the events: what, when, and what is left in the battery. Of very many only the first are shown, with every
// grave one, and how many are not.
func eventTable(o planner.Option) (t table, left int) {
	t = table{heads: []string{"what happens", "at", "after"}, right: []bool{false, false, true}}
	battery := o.Outcome.Modules > 0
	if battery {
		t.heads, t.right = append(t.heads, "in the battery"), append(t.right, true)
	}
	all := events(o)
	shown := 0
	for _, e := range all {
		if shown++; shown > mostEvents && !e.grave {
			left++
			continue
		}
		row := []string{e.what, clockOn(o, e.atH), amount(e.atH, "h")}
		if battery {
			row = append(row, amount(e.leftKWh, "kWh"))
		}
		t.add(row...)
	}
	return t, left
}

// RunEvents is the table of a run's events as text: the same as the picture, for those who cannot see it. It is empty
// where nothing happens.
func RunEvents(o planner.Option, width int) []string {
	t, left := eventTable(o)
	p := &page{width: width}
	if len(t.rows) > 0 {
		t.write(p)
	}
	if left > 0 {
		p.paragraph(fmt.Sprintf("and %d more starts, stops and the like", left), tableIndent)
	}
	return p.lines()
}

// addRun shows the run of the option that matters most.
func addRun(p *page, r *planner.Result, g Glyphs) {
	o, ok := Nearest(r)
	if !ok {
		return
	}
	p.heading("The run: " + RunLead(r, o))
	for _, line := range RunPlot(r.Home, o).Draw(p.width, plotHeight, g) {
		p.line(line)
	}
	for _, words := range RunWords(r.Home, o) {
		p.item(words)
	}
	for _, line := range RunEvents(o, p.width) {
		p.line(line)
	}
}

// plotHeight is the height of a curve in the text, in rows.
const plotHeight = 7
