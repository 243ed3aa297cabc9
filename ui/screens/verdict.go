package screens

import (
	"fmt"
	"strings"

	"github.com/rivo/tview"

	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/planner"
	"holdover/planner/derive"
	"holdover/profiles"
	"holdover/ui/document"
	"holdover/ui/text"
)

// verdictHeight is the height of the strip under the circuits: always the same, so that nothing above it moves.
const verdictHeight = 8

// verdictStrip is the verdict in a few lines: the choice in words, what it takes, what the house asks, how each option
// fares, the first reason, the gravest caution.
//
// While the verdict is being worked out, what the house asks is all there is to say.
func verdictStrip(l look, r *planner.Result, width int) []string {
	g := l.glyphs
	line := func(label, text string) string {
		return l.strong.on(g.fit(label, 9)) + g.fit(text, width-9)
	}
	if !r.Has.Choice {
		return []string{l.rule("verdict", width), l.choiceMark(r).on(g.fit(choiceWords(r), width)), line("takes", later), line("asks", asksText(r)),
			line("options", later), line("why", later), "", line("cautions", later)}
	}
	strip := []string{
		l.rule("verdict", width),
		l.choiceMark(r).on(g.fit(choiceWords(r), width)),
		line("takes", takesText(r)),
		line("asks", asksText(r)),
		l.strong.on(g.fit("options", 9)) + optionsLine(l, r),
	}
	return append(append(strip, whyLines(l, r, width)...), cautionLine(l, r, width))
}

// later stands where something is still being worked out; what it is stands beside it.
const later = "..."

// whyLines is the first reason in two lines.
func whyLines(l look, r *planner.Result, width int) []string {
	reason := ""
	if len(r.Reasons) > 0 {
		reason = r.Reasons[0]
	}
	words := text.Wrap(reason, max(8, width-9), true)
	rest := strings.Join(words[1:], " ")
	return []string{l.strong.on("why      ") + tview.Escape(words[0]), l.glyphs.fit("", 9) + l.glyphs.fit(rest, width-9)}
}

// choiceTone says whether the verdict is a good one.
func choiceTone(r *planner.Result) document.Tone {
	switch {
	case !r.Has.Choice:
		return document.Strong
	case r.Carried:
		return document.Good
	}
	return document.Bad
}

// choiceMark is the choice's tone, in bold.
func (l look) choiceMark(r *planner.Result) mark {
	m := l.tone(choiceTone(r))
	return mark{m.style.Bold(true), m.tag + "[::b]"}
}

// choiceWords is the verdict as a sentence, or that it is being worked out.
func choiceWords(r *planner.Result) string {
	length := units.Quantity(float64(r.Home.Outage.Length), "h")
	if !r.Has.Choice {
		return "WORKING OUT what carries this home through " + length
	}
	subject := map[planner.Kind]string{
		planner.Battery: "A BATTERY", planner.Generator: "A GENERATOR", planner.Hybrid: "BATTERY AND GENERATOR together",
	}[r.Choice]
	switch {
	case subject != "":
		carries := " carries this home through "
		if r.Choice == planner.Hybrid {
			carries = " carry this home through "
		}
		return subject + carries + length
	case r.Carried:
		return "NOTHING NEEDED: no circuit is kept or takes turns"
	}
	return "NOTHING within the limits carries this home through " + length
}

// takes lists the figures that say what an option is made of; each kind of option has those it needs under its own name.
var takes = []struct{ id, label string }{
	{"battery_kwh", "battery"}, {"inverter_va", "inverter"}, {"charger_kw", "charger"}, {"generator_kw", "generator"},
	{"fuel_burnt", "fuel"}, {"cost", "cost"},
}

func takesText(r *planner.Result) string {
	option, ok := r.Option(r.Choice)
	if !ok {
		return ""
	}
	var parts []string
	for _, t := range takes {
		if f, ok := option.Sheet.Get(string(r.Choice) + "." + t.id); ok {
			parts = append(parts, t.label+" "+takenText(r, f))
		}
	}
	return strings.Join(parts, ", ")
}

// takenText is a figure in the home's units, and a price rounded as the estimate that it is.
func takenText(r *planner.Result, f derive.Figure) string {
	if f.Unit == profiles.PriceBands().Currency {
		return planner.Money(f.Value)
	}
	return document.Quantity(r.Home, f)
}

func asksText(r *planner.Result) string {
	d := r.Demand
	if len(d.Loads) == 0 {
		return "nothing"
	}
	text := "running " + units.Quantity(float64(d.RunningW), "W") + ", worst moment " + units.Quantity(float64(d.WorstVA), "VA")
	if d.WorstStart != "" {
		text += " (" + d.WorstStart + ")"
	}
	text += ", " + units.Quantity(float64(d.Energy)/1000, "kWh")
	if r.Home.House.Service == home.SplitPhase {
		text += fmt.Sprintf(", legs %s and %s", units.Format(float64(r.Legs.A.VA())), units.Quantity(float64(r.Legs.B.VA()), "VA"))
	}
	return text
}

// optionsLine says of each option in a word or two how it fares.
func optionsLine(l look, r *planner.Result) string {
	var parts []string
	for _, o := range r.Options {
		m := l.bad
		if o.Open() {
			m = l.good
		}
		parts = append(parts, tview.Escape(string(o.Kind))+" "+m.on(shown(fares(r, o))))
	}
	return strings.Join(parts, "   ")
}

// fares says how an option does: carried, or when it fell short, or that a limit rules it out.
func fares(r *planner.Result, o planner.Option) string {
	switch {
	case o.Open():
		return "carried"
	case !o.Carried && o.FellShortAt != nil:
		at := r.Demand.Start + units.Hours(*o.FellShortAt)
		return fmt.Sprintf("fell short at %s, after %s", home.Clock(at), units.Quantity(*o.FellShortAt, "h"))
	case !o.Carried:
		return "will not do"
	case len(o.WhyNot) == 1:
		return "breaks a limit"
	}
	return fmt.Sprintf("breaks %d limits", len(o.WhyNot))
}

// cautionLine is the gravest caution, which stands first.
func cautionLine(l look, r *planner.Result, width int) string {
	g := l.glyphs
	label := l.strong.on(g.fit("cautions", 9))
	if len(r.Cautions) == 0 {
		return label + "none"
	}
	worst := r.Cautions[0]
	count := fmt.Sprintf("%d, ", len(r.Cautions))
	head := count + worst.Word
	return label + count + l.tone(text.WordTone(worst.Word)).on(worst.Word) + " " + g.fit(worst.Text, width-10-text.Cells(head))
}
