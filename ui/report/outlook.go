package report

import (
	"fmt"
	"slices"
	"strings"

	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/planner"
	"holdover/planner/choose"
)

// A Section is one part of a page: a heading, and under it a table, sentences, or both.
type Section struct {
	Heading string
	table   table
	words   []string
}

// Lines writes what stands under the heading.
func (s Section) Lines(width int) []string {
	p := &page{width: max(width, MinWidth)}
	if len(s.table.rows) > 0 {
		s.table.write(p)
	}
	for _, words := range s.words {
		p.item(words)
	}
	return p.lines()
}

func (p *page) section(s Section) {
	p.heading(s.Heading)
	for _, line := range s.Lines(p.width) {
		p.line(line)
	}
}

// Outlook is how firm the verdict stands, part by part: what would let the house be carried where nothing does, what would
// change the answer, what each length of outage costs, and what is left to chance. It is empty for a home that needs nothing.
func Outlook(r *planner.Result) []Section {
	if len(r.Demand.Loads) == 0 {
		return nil
	}
	var sections []Section
	if r.Choice == planner.None {
		sections = append(sections, remedySection(r))
	}
	sections = append(sections, flipSection(r), frontSection(r))
	if len(r.Chance.Exposure) > 0 {
		sections = append(sections, riskSection(r))
	}
	return sections
}

func remedySection(r *planner.Result) Section {
	s := Section{Heading: "What would let the house be carried, cheapest first"}
	s.table = table{heads: []string{"change", "then", "in all, estimate"}, right: []bool{false, false, true}}
	for _, m := range r.Outlook.Remedies {
		s.table.add(m.Change, "a "+string(m.Kind), planner.Money(m.Cost))
	}
	switch {
	case !r.Outlook.AllTried:
		s.words = []string{"There may be others: the search ended at its budget of work before every change was decided."}
	case len(r.Outlook.Remedies) == 0:
		s.words = []string{"No single limit lifted and no circuits moved would do; a shorter outage or a smaller house would."}
	}
	return s
}

// Reasons are those of the plan, but for what the remedies say, which have a part of their own.
func Reasons(r *planner.Result) []string {
	return slices.DeleteFunc(slices.Clone(r.Reasons), func(reason string) bool {
		return slices.ContainsFunc(r.Outlook.Remedies, func(m planner.Remedy) bool { return m.String() == reason })
	})
}

// flipSection says what comes second, and at which outage length, fuel store or price the answer would be another.
func flipSection(r *planner.Result) Section {
	s := Section{Heading: "What would change the answer"}
	if r.Choice != planner.None {
		s.words = append(s.words, runnerUpText(r))
	}
	for _, f := range r.Outlook.Flips {
		s.words = append(s.words, capital(planner.FlipText(f, r.Home.House.Units))+".")
	}
	for _, u := range r.Outlook.Unsettled {
		s.words = append(s.words, capital(planner.UnsettledText(u, r.Home.House.Units))+".")
	}
	if len(r.Outlook.Flips)+len(r.Outlook.Unsettled) == 0 {
		s.words = append(s.words, "No outage of up to 14 days, no fuel store and no battery price within reason changes it.")
	}
	return s
}

func runnerUpText(r *planner.Result) string {
	second, ok := r.Option(r.Outlook.RunnerUp)
	if !ok {
		return "There is no runner-up: no other option is open to choose."
	}
	chosen, _ := r.Option(r.Choice)
	return fmt.Sprintf("The runner-up is a %s: %s more over the planning years (%s in place of %s).",
		second.Kind, planner.Money(second.Cost-chosen.Cost), planner.Money(second.Cost), planner.Money(chosen.Cost))
}

// frontSection shows the cheapest design for each length of outage.
func frontSection(r *planner.Result) Section {
	s := Section{Heading: "What each length of outage costs"}
	s.table = table{heads: []string{"outage", "cheapest", "made of", "in all, estimate"}, right: []bool{true, false, false, true}, wraps: 2}
	if nothingEver(r.Outlook.Front) {
		s.words = []string{fmt.Sprintf("Nothing within the limits carries even %s.", amount(r.Outlook.Front[0].LengthH, "h"))}
		return s
	}
	unproven := false
	for _, p := range r.Outlook.Front {
		length, mark := amount(p.LengthH, "h"), ""
		if !p.Outcome.Proven {
			mark, unproven = "*", true
		}
		if p.LengthH == float64(r.Home.Outage.Length) {
			length = "planned: " + length
		}
		if p.Kind == planner.None {
			s.table.add(length+mark, "nothing", "nothing within the limits", "")
			continue
		}
		s.table.add(length+mark, string(p.Kind), madeOf(r.Home, p.Outcome), planner.Money(p.Outcome.Cost.Total()))
	}
	if unproven {
		s.words = append(s.words, "* Not proven: the search ended at its budget of work, and something cheaper, or that carries it, may have been missed.")
	}
	return s
}

// nothingEver says whether it is proven that nothing carries any of the lengths.
func nothingEver(front []choose.FrontPoint) bool {
	return len(front) > 0 && !slices.ContainsFunc(front, func(p choose.FrontPoint) bool { return p.Kind != planner.None || !p.Outcome.Proven })
}

// madeOf says in a few words what a design is made of.
func madeOf(house *home.Home, o choose.Outcome) string {
	var parts []string
	if o.Modules > 0 {
		parts = append(parts, amount(batteryKWh(house, o.Design), "kWh")+" battery", amount(o.InverterVA, "VA")+" inverter")
	}
	if o.ChargerKW > 0 {
		parts = append(parts, amount(o.ChargerKW, "kW")+" charger")
	}
	if m := o.Machine; m != nil {
		parts = append(parts, fmt.Sprintf("%s %s on %s", amount(m.KW, "kW"), m.Title, strings.ToLower(m.Fuel.Title)))
	}
	return strings.Join(parts, ", ")
}

func batteryKWh(house *home.Home, d choose.Design) float64 {
	return float64(d.Modules) * float64(house.Assume.Module) / 1000
}

// riskSection shows what each option leaves open, and on what that rests.
func riskSection(r *planner.Result) Section {
	s := Section{Heading: "What is left to chance"}
	s.table = table{heads: []string{"option", "outages carried throughout", "short in a year"}, right: []bool{false, true, true}}
	for _, o := range r.Options {
		if e, ok := r.Chance.Exposure[o.Kind]; ok {
			s.table.add(string(o.Kind), percent(e.Carried), shortTime(e.ShortPerYear))
		}
	}
	l := r.Chance.Lasting
	half, nineInTen := units.Hours(l.Quantile(0.5)), units.Hours(l.Quantile(0.9))
	s.words = []string{fmt.Sprintf("Half of all outages are taken to end within %s, nine in ten within %s; %s a year are expected, at any hour. Source: %s.",
		hoursText(half), hoursText(nineInTen), units.Format(r.Home.Outage.PerYear), l.Source)}
	return s
}

// percent writes a share, and never rounds one short of the whole up to it.
func percent(share float64) string {
	text := amount(100*share, "%")
	if text == "100 %" && share < 1-1e-9 {
		return "over 99.9 %"
	}
	return text
}

// shortTime writes hours a year, in minutes where they are few.
func shortTime(hours float64) string {
	if hours < 1 {
		return amount(hours*60, "min")
	}
	return amount(hours, "h")
}

func capital(text string) string {
	if text == "" {
		return ""
	}
	return strings.ToUpper(text[:1]) + text[1:]
}
