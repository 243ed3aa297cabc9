// Package report answers: how does a verdict read as plain text, and as data for another program?
//
// [Text] writes the whole plan for a person, [JSON] for a machine, [Why] the working of one figure and [Figures] the list
// of all of them. They show what a [planner.Result] holds and work nothing out. Text is plain: no colour, one thought after the
// other, so that a screen reader meets it in the order in which it matters. The one picture, of the run, is followed by
// the same in words. [Outlook], [OptionRows], [RunPlot] and [Quantity] serve the screens too, so that both say the same.
package report

import (
	"fmt"
	"strings"

	"holdover/loads/home"
	"holdover/planner"
)

// MinWidth is the narrowest text that is asked for, in columns. A long word may stand out beyond any width.
const MinWidth = 40

// Text writes the plan: the verdict, its reasons, the figures that decide, the options, the run, the outlook, the circuits,
// the legs, and every caution. width is in columns; less than [MinWidth] counts as MinWidth.
func Text(r *planner.Result, width int, g Glyphs) string {
	p := &page{width: max(width, MinWidth)}
	p.paragraph(verdict(r), "")
	p.heading("Why")
	for _, reason := range Reasons(r) {
		p.item(reason)
	}
	if len(r.Demand.Loads) > 0 {
		addFigures(p, r)
		addOptions(p, r)
		addRun(p, r, g)
		for _, s := range Outlook(r) {
			p.section(s)
		}
		addCircuits(p, r)
		addLegs(p, r)
		addWaiting(p, r)
		addGear(p, r)
	}
	addShed(p, r)
	addCautions(p, r)
	return p.String()
}

// Verdict says in one sentence what carries the house.
func verdict(r *planner.Result) string {
	outage := fmt.Sprintf("%s without supply from %s in %s", amount(float64(r.Home.Outage.Length), "h"), startText(r), season(r.Home.Outage.Season))
	var says string
	switch {
	case len(r.Demand.Loads) == 0:
		says = "nothing needs to be carried through " + outage
	case r.Choice == planner.None:
		says = "nothing carries the house through " + outage + " within its limits"
	default:
		says = fmt.Sprintf("a %s carries the house through %s", r.Choice, outage)
	}
	return title(r.Home) + ": " + says + "."
}

func season(name home.Season) string {
	if name == home.Mild {
		return "a mild season"
	}
	return string(name)
}

// title is what the home is called, or else its file.
func title(house *home.Home) string {
	if name := strings.TrimSpace(house.House.Name); name != "" {
		return name
	}
	return house.FileName()
}

// addCautions comes last and is always complete, the gravest first.
func addCautions(p *page, r *planner.Result) {
	p.heading("Cautions")
	for _, c := range r.Cautions {
		p.item(c.Word + ": " + c.Text + " (" + c.Source + ")")
	}
}

// startText is the clock time at which the outage begins, and which one that is where every hour was tried.
func startText(r *planner.Result) string {
	if r.Home.Outage.Start.Worst {
		return home.Clock(r.Demand.Start) + " (the hour that asks the most energy)"
	}
	return home.Clock(r.Demand.Start)
}
