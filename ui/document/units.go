package document

import (
	"fmt"
	"strings"

	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/planner"
	"holdover/planner/derive"
	"holdover/planner/sheet"
	"holdover/profiles"
)

// Units says in a line what each spec sheet of the home comes to.
func Units(w Worked) Document {
	if w.Units == nil {
		return nil
	}
	var says List
	for _, u := range w.Units.Units {
		why := append(append(u.Says(sheet.Fails), u.Says(sheet.HoldsIf)...), u.Says(sheet.NotOnSheet)...)
		text := u.Gear.Name + ": " + string(u.Verdict)
		if len(why) > 0 {
			text += ". " + why[0]
		}
		if more := len(why) - 1; more > 0 {
			text += fmt.Sprintf(" And %s.", units.Counted(more, "more reason"))
		}
		says = append(says, text)
	}
	return under("Units by their spec sheets (the fit verb shows every check)", says)
}

// Fit says what each unit's spec sheet comes to: the verdict, then what fails, what it hangs on, what the sheet lacks and what is
// in order. The best comes first.
func Fit(house *home.Home, r sheet.Report) Document {
	d := append(Document{Paragraph{Text: fitTitle(r)}}, checked(r)...)
	before := List{}
	if notice, ok := planner.BareNumbers(house); ok {
		before = append(before, notice.Word+": "+notice.Text+" ("+notice.Source+")")
	}
	return append(d, Heading{Text: "Before you buy"}, append(before,
		"A spec sheet is a promise, not a trial: try the unit on the circuit while you can still give it back.",
		fmt.Sprintf("Prices are in %s; what is not the unit's own price is a rough estimate.", profiles.PriceBands().Currency)))
}

func fitTitle(r sheet.Report) string {
	fits, ifs := 0, 0
	for _, u := range r.Units {
		switch u.Verdict {
		case sheet.Fits:
			fits++
		case sheet.FitsIf:
			ifs++
		}
	}
	return fmt.Sprintf("Units for %s, %s without supply: of %s, %s fits, %s on conditions.",
		derive.Names(r.Circuits, 4), units.Span(r.Length), units.Counted(len(r.Units), "unit"), countWord(fits), countWord(ifs))
}

func countWord(n int) string {
	if n == 0 {
		return "none"
	}
	return fmt.Sprint(n)
}

// checked is every check of the units and the pairs.
func checked(r sheet.Report) (d Document) {
	for _, u := range r.Units {
		d = append(d, Unit(u)...)
	}
	for _, p := range r.Pairs {
		d = append(d, Heading{fmt.Sprintf("%s behind %s: %s", p.UPS, p.Generator, strings.ToUpper(string(p.Verdict))), verdictTone(p.Verdict)}, checks(p.Checks))
	}
	return d
}

// Unit is one unit with its verdict and every check.
func Unit(u sheet.Unit) Document {
	parts := []string{u.Gear.Name + " (" + string(u.Gear.Kind) + "): " + strings.ToUpper(string(u.Verdict))}
	if u.Priced && u.Price > 0 {
		parts = append(parts, units.Quantity(u.Price, profiles.PriceBands().Currency)+" in all")
	}
	if u.Gear.Owned {
		parts = append(parts, "owned")
	}
	if u.Stored {
		parts = append(parts, "lasts "+units.Span(u.Runtime))
	}
	return Document{Heading{strings.Join(parts, ", "), verdictTone(u.Verdict)}, checks(u.Checks)}
}

func verdictTone(v sheet.Verdict) Tone {
	return map[sheet.Verdict]Tone{sheet.Fits: Good, sheet.FitsIf: Warn, sheet.DoesNotFit: Bad}[v]
}

// checkLeads say what a check came to; the words differ, so that none hangs on a sign alone.
var checkLeads = []struct {
	outcome sheet.Outcome
	lead    string
	tone    Tone
}{
	{sheet.Fails, "no", Bad}, {sheet.HoldsIf, "if", Warn}, {sheet.NotOnSheet, "ask", Warn}, {sheet.Holds, "ok", Good},
}

// checks lists checks, what fails first.
func checks(all []sheet.Finding) (out Entries) {
	for _, l := range checkLeads {
		for _, c := range all {
			if c.Outcome == l.outcome {
				out = append(out, Entry{l.lead, strings.ReplaceAll(c.ID, "-", " ") + ": " + strings.TrimSpace(c.Says), l.tone})
			}
		}
	}
	return out
}

// Owned says how long the units in the house carry what, and the cheapest thing to add.
func Owned(w Worked) Document {
	if w.Owned == nil {
		return nil
	}
	inv := w.Owned
	var says List
	for _, u := range inv.Units {
		for _, c := range u.Carries {
			says = append(says, fmt.Sprintf("%s with %s alone: %s.", u.All.Gear.Name, c.Circuit, carriesText(c.Unit, w.home().Outage.Length)))
		}
	}
	if len(inv.Served) > 0 {
		says = append(says, fmt.Sprintf("Through the whole outage the owned units carry %s.", strings.Join(inv.Served, ", ")))
	} else {
		says = append(says, "No kept circuit is carried through the whole outage by what stores energy here.")
	}
	if !inv.Tried {
		says = append(says, "Not every circuit was tried on every unit: the search ended at its budget of work.")
	}
	says = append(says, addText(w.home(), inv))
	if len(inv.OnSale) > 0 {
		says = append(says, fmt.Sprintf("Of the units listed, %s would carry the rest by itself, for about %s.", inv.OnSale[0].Gear.Name, units.Quantity(inv.OnSale[0].Price, profiles.PriceBands().Currency)))
	}
	return under("What is owned already", says)
}

// carriesText says in few words how one unit does with one circuit.
func carriesText(u sheet.Unit, length units.Hours) string {
	var failed, open []sheet.Finding
	for _, c := range u.Checks {
		switch c.Outcome {
		case sheet.Fails:
			failed = append(failed, c)
		case sheet.HoldsIf, sheet.NotOnSheet:
			open = append(open, c)
		}
	}
	switch {
	case len(failed) == 1 && failed[0].ID == "runtime":
		return fmt.Sprintf("lasts %s, not %s", units.Span(u.Runtime), units.Span(length))
	case len(failed) > 0:
		return "does not fit. " + strings.TrimSuffix(failed[0].Says, ".")
	case len(open) > 0:
		return "fits if this is settled. " + strings.TrimSuffix(open[0].Says, ".")
	case u.Stored:
		return "lasts " + units.Span(u.Runtime)
	}
	return "fits"
}

// addText says the cheapest thing to add.
func addText(house *home.Home, inv *planner.Inventory) string {
	switch {
	case len(inv.Rest) == 0:
		return "Nothing more is needed."
	case inv.Kind == planner.None:
		return "Nothing within the limits carries the rest: " + strings.Join(inv.Rest, ", ") + "."
	}
	text := fmt.Sprintf("The cheapest thing to add for the rest (%s): %s; %s to buy, transfer equipment included.",
		strings.Join(inv.Rest, ", "), madeOf(house, inv.Design), planner.Money(inv.Design.Cost.Purchase))
	if inv.Without > 0 {
		text += fmt.Sprintf(" Over the planning years that is %s in place of %s.", planner.Money(inv.Design.Cost.Total()), planner.Money(inv.Without))
	}
	return text
}
