package document

import (
	"fmt"
	"slices"

	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/planner"
)

// Verdict says what carries the house, and why.
func Verdict(w Worked) Document {
	return append(Document{Paragraph{Text: sentence(w.Plan)}}, Reasons(w)...)
}

// Reasons are those of the plan, but for what the remedies say, which have a part of their own.
func Reasons(w Worked) Document {
	r := w.Plan
	return under("Why", List(slices.DeleteFunc(slices.Clone(r.Reasons), func(reason string) bool {
		return slices.ContainsFunc(r.Outlook.Remedies, func(m planner.Remedy) bool { return m.String() == reason })
	})))
}

// sentence says in one sentence what carries the house.
func sentence(r *planner.Result) string {
	outage := fmt.Sprintf("%s without supply from %s in %s", units.Quantity(float64(r.Home.Outage.Length), "h"), startText(r), season(r.Home.Outage.Season))
	var says string
	switch {
	case len(r.Demand.Loads) == 0:
		says = "nothing needs to be carried through " + outage
	case r.Choice == planner.None:
		says = "nothing carries the house through " + outage + " within its limits"
	default:
		says = fmt.Sprintf("a %s carries the house through %s", r.Choice, outage)
	}
	return Name(r.Home) + ": " + says + "."
}

func season(name home.Season) string {
	if name == home.Mild {
		return "a mild season"
	}
	return string(name)
}

// startText is the clock time at which the outage begins, and which one that is where every hour was tried.
func startText(r *planner.Result) string {
	if r.Home.Outage.Start.Worst {
		return home.Clock(r.Demand.Start) + " (the hour that asks the most energy)"
	}
	return home.Clock(r.Demand.Start)
}

// Cautions come last and are always complete, the gravest first.
func Cautions(w Worked) Document {
	var all []Block
	for _, c := range w.Plan.Cautions {
		all = append(all, Caution{c.Word, c.Text, c.Source})
	}
	return under("Cautions", all...)
}
