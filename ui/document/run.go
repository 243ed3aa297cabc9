package document

import (
	"fmt"
	"math"

	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/planner"
	"holdover/planner/outage"
)

// Run shows the run of the option that matters most.
func Run(w Worked) Document {
	o, ok := w.Plan.Nearest()
	if !ok || !w.needs() {
		return nil
	}
	return RunOf(w.Plan, o)
}

// RunOf shows the run of one option: its picture, the same in sentences, and its events. An option without a design has none.
func RunOf(r *planner.Result, o planner.Option) Document {
	if !o.Outcome.Real() {
		return append(Document{Paragraph{Text: "There is no design of this kind, so there is no run to show."}}, List(o.WhyNot))
	}
	return append(under("The run: "+runLead(r, o), runChart(r.Home, o), runWords(r.Home, o)), runEvents(o)...)
}

// runLead names a run: which option, how it fares, for how long and from when.
func runLead(r *planner.Result, o planner.Option) string {
	says := "carries the house"
	switch {
	case !o.Carried:
		says = "falls short"
	case !o.Open():
		says = "would carry the house"
	}
	from := home.Clock(units.Hours(o.Outcome.Start))
	if r.Home.Outage.Start.Worst {
		from += ", the hardest hour for it"
	}
	return fmt.Sprintf("a %s %s through %s from %s", o.Kind, says, units.Quantity(float64(r.Home.Outage.Length), "h"), from)
}

// runChart is the picture of an option's run from its hardest start: what may be used of the battery, or without a battery what
// the generator gives, and when the generator is on, the sun helps, something is short, and no engine may run.
func runChart(house *home.Home, o planner.Option) Chart {
	c := Chart{Start: units.Hours(o.Outcome.Start), Length: house.Outage.Length, Rows: runRows(house, o)}
	if o.Outcome.Modules > 0 {
		c.Unit, c.Top = "kWh", o.Outcome.Run.BeginKWh
		for _, s := range o.Trace {
			c.Curve = append(c.Curve, Segment{s.From, s.To, s.BeginKWh, s.EndKWh})
		}
		return c
	}
	c.Unit, c.Top = "kW", 1e-3
	for _, s := range o.Trace {
		c.Curve = append(c.Curve, Segment{s.From, s.To, s.GeneratorKW, s.GeneratorKW})
		c.Top = max(c.Top, s.GeneratorKW)
	}
	return c
}

func runRows(house *home.Home, o planner.Option) []Marks {
	generator, short, sun := Marks{Label: "generator"}, Marks{Label: "short", Tone: Bad}, Marks{Label: "sun"}
	for _, s := range o.Trace {
		span := Span{s.From, s.To}
		if s.On {
			generator.Spans = append(generator.Spans, span)
		}
		if isShort(o, s) {
			short.Spans = append(short.Spans, span)
		}
		if s.SunKW > 0 {
			sun.Spans = append(sun.Spans, span)
		}
	}
	var rows []Marks
	if o.Outcome.Machine != nil {
		rows = append(rows, generator)
		if quiet := quietSpans(house.Limits.Quiet, o.Outcome.Start, float64(house.Outage.Length)); quiet != nil {
			rows = append(rows, Marks{Label: "quiet", Spans: quiet})
		}
	}
	if sun.Spans != nil {
		rows = append(rows, sun)
	}
	return append(rows, short)
}

// isShort says whether something is wanted and not supplied in a stretch of a run; in one that carries the house it is rounding.
func isShort(o planner.Option, s outage.Step) bool {
	return s.ShortKW > outage.LeastShortKW && !o.Carried
}

// quietSpans are the quiet hours of an outage that begins at a clock time.
func quietSpans(quiet home.QuietHours, start, lengthH float64) (spans []Span) {
	if !quiet.Any() {
		return nil
	}
	for from := float64(quiet.From) - start - 48; from < lengthH; from += 24 {
		span := Span{max(0, from), min(lengthH, from+float64(quiet.Length()))}
		if span.ToH > span.FromH {
			spans = append(spans, span)
		}
	}
	return spans
}

// runWords says in sentences what the picture of a run shows, with least and most.
func runWords(house *home.Home, o planner.Option) (words List) {
	run, m := o.Outcome.Run, o.Outcome.Machine
	if o.Outcome.Modules > 0 {
		least, atH := leastCharge(o)
		words = append(words, fmt.Sprintf("Of the battery %s may be used; least is %s, at %s; %s is left at the end.",
			units.Quantity(run.BeginKWh, "kWh"), units.Quantity(least, "kWh"), clockOn(o, atH), units.Quantity(run.EndKWh, "kWh")))
	}
	if m != nil {
		words = append(words, fmt.Sprintf("The generator runs %s in %s, gives %s of the %s that the plan counts on, and burns %s of %s.",
			units.Quantity(run.RunHours, "h"), units.Counted(run.Starts, "start"), generatorRange(o), units.Quantity(m.SiteKW, "kW"),
			units.InSystem(run.Fuel, m.Fuel.Unit, house.House.Units), m.Fuel.Name))
	}
	if !o.Carried {
		words = append(words, fmt.Sprintf("%s is wanted and not supplied, first at %s.", units.Quantity(run.ShortKWh, "kWh"), clockOn(o, run.ShortAt)))
	}
	return words
}

// leastCharge is the lowest charge of a run and when it is first met. It lies at an end of a stretch.
func leastCharge(o planner.Option) (leastKWh, atH float64) {
	leastKWh = o.Outcome.Run.BeginKWh
	for _, s := range o.Trace {
		if s.EndKWh < leastKWh {
			leastKWh, atH = s.EndKWh, s.To
		}
	}
	return leastKWh, atH
}

// generatorRange is the least and the most that the generator gives while it is on.
func generatorRange(o planner.Option) string {
	low, high := math.Inf(1), 0.0
	for _, s := range o.Trace {
		if s.On {
			low, high = min(low, s.GeneratorKW), max(high, s.GeneratorKW)
		}
	}
	if least, most := units.Format(min(low, high)), units.Format(high); least != most {
		return "between " + least + " and " + most + " kW"
	}
	return units.Quantity(high, "kW")
}

// clockOn writes a time of an option's run as a clock time.
func clockOn(o planner.Option, afterH float64) string {
	return planner.ClockAt(units.Hours(o.Outcome.Start), afterH)
}

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
		short := isShort(o, s)
		switch {
		case s.On && !before.On:
			add(s.From, s.BeginKWh, false, "generator starts")
		case !s.On && before.On && s.From == gone:
			add(s.From, s.BeginKWh, true, "fuel gone, generator stops")
		case !s.On && before.On:
			add(s.From, s.BeginKWh, false, "generator stops")
		}
		if short && !wasShort {
			add(s.From, s.BeginKWh, !onceShort, "short of "+units.Quantity(s.ShortKW, "kW"))
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

// runEvents is the table of a run's events: the same as the picture, for those who cannot see it. Of very many only the first are
// shown, with every grave one, and how many are not.
func runEvents(o planner.Option) (d Document) {
	t := Table{Name: "run", Columns: []Column{{Head: "what happens"}, {Head: "at"}, {Head: "after", Kind: Number}}}
	battery := o.Outcome.Modules > 0
	if battery {
		t.Columns = append(t.Columns, Column{Head: "in the battery", Kind: Number})
	}
	left := 0
	for i, e := range events(o) {
		if i >= mostEvents && !e.grave {
			left++
			continue
		}
		row := []string{e.what, clockOn(o, e.atH), units.Quantity(e.atH, "h")}
		if battery {
			row = append(row, units.Quantity(e.leftKWh, "kWh"))
		}
		t.Add(row...)
	}
	if len(t.Rows) > 0 {
		d = append(d, t)
	}
	if left > 0 {
		d = append(d, Note(fmt.Sprintf("and %d more starts, stops and the like", left)))
	}
	return d
}
