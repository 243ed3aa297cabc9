package report

import (
	"fmt"
	"math"

	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/planner"
	"holdover/planner/working"
)

// Nearest is the option to look at when one is to be shown: the chosen one, or where none is, the one that comes nearest to
// carrying the house; one that carries it and breaks a limit before one that falls short. ok is false when no option has a
// design.
func Nearest(r *planner.Result) (nearest planner.Option, ok bool) {
	for _, o := range r.Options {
		switch {
		case !o.Outcome.Real():
		case o.Kind == r.Choice:
			return o, true
		case !ok || nearer(o, nearest):
			nearest, ok = o, true
		}
	}
	return nearest, ok
}

func nearer(a, b planner.Option) bool {
	switch {
	case a.Carried != b.Carried:
		return a.Carried
	case a.Carried:
		return a.Cost < b.Cost
	}
	return a.Outcome.Run.ShortKWh < b.Outcome.Run.ShortKWh
}

// RunPlot is the picture of an option's run from its hardest start: what may be used of the battery, or without a battery
// what the generator gives, and when the generator is on, the sun helps, something is short, and no engine may run. It
// wants an option with a design.
func RunPlot(house *home.Home, o planner.Option) Plot {
	p := Plot{Start: units.Hours(o.Outcome.Start), Length: house.Outage.Length}
	if o.Outcome.Modules > 0 {
		p.Unit, p.Top = "kWh", o.Outcome.Run.BeginKWh
		for _, s := range o.Trace {
			p.Curve = append(p.Curve, Segment{s.From, s.To, s.BeginKWh, s.EndKWh})
		}
	} else {
		p.Unit, p.Top = "kW", 1e-3
		for _, s := range o.Trace {
			p.Curve = append(p.Curve, Segment{s.From, s.To, s.GeneratorKW, s.GeneratorKW})
			p.Top = max(p.Top, s.GeneratorKW)
		}
	}
	p.Rows = runRows(house, o)
	return p
}

// shortKW is the least shortfall that is more than rounding: a microwatt.
const shortKW = 1e-9

func runRows(house *home.Home, o planner.Option) []Row {
	generator, short, sun, quiet := Row{Label: "generator"}, Row{Label: "short"}, Row{Label: "sun"}, Row{Label: "quiet"}
	for _, s := range o.Trace {
		span := Span{s.From, s.To}
		if s.On {
			generator.Spans = append(generator.Spans, span)
		}
		if s.ShortKW > shortKW && !o.Carried {
			short.Spans = append(short.Spans, span)
		}
		if s.SunKW > 0 {
			sun.Spans = append(sun.Spans, span)
		}
	}
	var rows []Row
	if o.Outcome.Machine != nil {
		rows = append(rows, generator)
		if quiet.Spans = quietSpans(house.Limits.Quiet, o.Outcome.Start, float64(house.Outage.Length)); quiet.Spans != nil {
			rows = append(rows, quiet)
		}
	}
	if sun.Spans != nil {
		rows = append(rows, sun)
	}
	return append(rows, short)
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

// RunWords says in sentences what the picture of a run shows, with least and most.
func RunWords(house *home.Home, o planner.Option) []string {
	run, m := o.Outcome.Run, o.Outcome.Machine
	var words []string
	if o.Outcome.Modules > 0 {
		least, atH := leastCharge(o)
		words = append(words, fmt.Sprintf("Of the battery %s may be used; least is %s, at %s; %s is left at the end.",
			amount(run.BeginKWh, "kWh"), amount(least, "kWh"), clockOn(o, atH), amount(run.EndKWh, "kWh")))
	}
	if m != nil {
		words = append(words, fmt.Sprintf("The generator runs %s in %s, gives %s of the %s that the plan counts on, and burns %s of %s.",
			amount(run.RunHours, "h"), counted(run.Starts, "start"), generatorRange(o), amount(m.SiteKW, "kW"),
			Quantity(house, working.Figure{Value: run.Fuel, Unit: m.Fuel.Unit}), m.Fuel.Name))
	}
	if !o.Carried {
		words = append(words, fmt.Sprintf("%s is wanted and not supplied, first at %s.", amount(run.ShortKWh, "kWh"), clockOn(o, run.ShortAt)))
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
	if least, most := units.Format(min(low, high)), amount(high, "kW"); least+" kW" != most {
		return "between " + least + " and " + most
	}
	return amount(high, "kW")
}

// clockOn writes a time of an option's run as a clock time.
func clockOn(o planner.Option, afterH float64) string {
	return planner.ClockAt(units.Hours(o.Outcome.Start), afterH)
}

// RunLead names a run: which option, how it fares, for how long and from when.
func RunLead(r *planner.Result, o planner.Option) string {
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
	return fmt.Sprintf("a %s %s through %s from %s", o.Kind, says, amount(float64(r.Home.Outage.Length), "h"), from)
}
