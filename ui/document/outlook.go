package document

import (
	"fmt"
	"slices"
	"strings"

	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/planner"
	"holdover/planner/choose"
)

// Outlook is how firm the verdict stands: all that follows here.
func Outlook(w Worked) Document {
	return slices.Concat(Remedies(w), Changes(w), Lengths(w), Chance(w))
}

// Remedies say what would let the house be carried where nothing does.
func Remedies(w Worked) Document {
	r := w.Plan
	if !w.needs() || r.Choice != planner.None {
		return nil
	}
	t := Table{Name: "remedies", Columns: []Column{{Head: "change"}, {Head: "then"}, {Head: "in all, estimate", Kind: Number}}}
	for _, m := range r.Outlook.Remedies {
		t.Add(m.Change, "a "+string(m.Kind), planner.Money(m.Cost))
	}
	d := Document{Heading{Text: "What would let the house be carried, cheapest first"}}
	if len(t.Rows) > 0 {
		d = append(d, t)
	}
	switch {
	case !r.Outlook.AllTried:
		d = append(d, List{"There may be others: the search ended at its budget of work before every change was decided."})
	case len(t.Rows) == 0:
		d = append(d, List{"No single limit lifted and no circuits moved would do; a shorter outage or a smaller house would."})
	}
	return d
}

// Changes say what comes second, and at which outage length, fuel store or price the answer would be another.
func Changes(w Worked) Document {
	r := w.Plan
	if !w.needs() {
		return nil
	}
	var says List
	if r.Choice != planner.None {
		says = append(says, runnerUpText(r))
	}
	for _, f := range r.Outlook.Flips {
		says = append(says, capital(planner.FlipText(f, r.Home.House.Units))+".")
	}
	for _, u := range r.Outlook.Unsettled {
		says = append(says, capital(planner.UnsettledText(u, r.Home.House.Units))+".")
	}
	if len(r.Outlook.Flips)+len(r.Outlook.Unsettled) == 0 {
		says = append(says, "No outage of up to 14 days, no fuel store and no battery price within reason changes it.")
	}
	return under("What would change the answer", says)
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

// Lengths show the cheapest design for each length of outage.
func Lengths(w Worked) Document {
	r := w.Plan
	if !w.needs() {
		return nil
	}
	const heading = "What each length of outage costs"
	if nothingEver(r.Outlook.Front) {
		return under(heading, List{fmt.Sprintf("Nothing within the limits carries even %s.", units.Quantity(r.Outlook.Front[0].LengthH, "h"))})
	}
	t := Table{Name: "lengths", Columns: []Column{{Head: "outage", Kind: Number}, {Head: "cheapest"}, {Head: "made of", Kind: Prose}, {Head: "in all, estimate", Kind: Number}}}
	unproven := false
	for _, p := range r.Outlook.Front {
		length := units.Quantity(p.LengthH, "h")
		if p.LengthH == float64(r.Home.Outage.Length) {
			length = "planned: " + length
		}
		if !p.Outcome.Proven {
			length, unproven = length+"*", true
		}
		if p.Kind == planner.None {
			t.Add(length, "nothing", "nothing within the limits", "")
			continue
		}
		t.Add(length, string(p.Kind), madeOf(r.Home, p.Outcome), planner.Money(p.Outcome.Cost.Total()))
	}
	d := under(heading, t)
	if unproven {
		d = append(d, List{"* Not proven: the search ended at its budget of work, and something cheaper, or that carries it, may have been missed."})
	}
	return d
}

// nothingEver says whether it is proven that nothing carries any of the lengths.
func nothingEver(front []choose.FrontPoint) bool {
	return len(front) > 0 && !slices.ContainsFunc(front, func(p choose.FrontPoint) bool { return p.Kind != planner.None || !p.Outcome.Proven })
}

// madeOf says in a few words what a design is made of; an owned machine is called so.
func madeOf(house *home.Home, o choose.Outcome) string {
	var parts []string
	if o.Modules > 0 {
		kWh := float64(o.Modules) * float64(house.Assume.Module) / 1000
		parts = append(parts, units.Quantity(kWh, "kWh")+" battery", units.Quantity(o.InverterVA, "VA")+" inverter")
	}
	if o.ChargerKW > 0 {
		parts = append(parts, units.Quantity(o.ChargerKW, "kW")+" charger")
	}
	if m := o.Machine; m != nil {
		text := fmt.Sprintf("%s %s on %s", units.Quantity(m.KW, "kW"), m.Title, strings.ToLower(m.Fuel.Title))
		if m.Kind == "owned" {
			text = fmt.Sprintf("the owned generator of %s on %s, connected for good", units.Quantity(m.KW, "kW"), m.Fuel.Name)
		}
		parts = append(parts, text)
	}
	return strings.Join(parts, ", ")
}

// Chance shows what each option leaves open, and on what that rests.
func Chance(w Worked) Document {
	r := w.Plan
	if len(r.Chance.Exposure) == 0 {
		return nil
	}
	t := Table{Name: "chance", Columns: []Column{{Head: "option"}, {Head: "outages carried throughout", Kind: Number}, {Head: "short in a year", Kind: Number}}}
	for _, o := range r.Options {
		if e, ok := r.Chance.Exposure[o.Kind]; ok {
			t.Add(string(o.Kind), units.Percent(e.Carried), shortTime(e.ShortPerYear))
		}
	}
	l := r.Chance.Lasting
	half, nineInTen := units.Hours(l.Quantile(0.5)), units.Hours(l.Quantile(0.9))
	return under("What is left to chance", t, List{fmt.Sprintf("Half of all outages are taken to end within %s, nine in ten within %s; %s a year are expected, at any hour. Source: %s.",
		units.Span(half), units.Span(nineInTen), units.Format(r.Home.Outage.PerYear), l.Source)})
}

// shortTime writes hours a year, in minutes where they are few.
func shortTime(hours float64) string {
	if hours < 1 {
		return units.Quantity(hours*60, "min")
	}
	return units.Quantity(hours, "h")
}
