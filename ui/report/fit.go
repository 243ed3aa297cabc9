package report

import (
	"fmt"
	"strings"

	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/planner"
	"holdover/planner/sheet"
	"holdover/planner/working"
	"holdover/profiles"
)

// Fit writes what each unit's spec sheet comes to: the verdict, then what fails, what it hangs on, what the sheet lacks and what
// is in order. The best comes first.
func Fit(house *home.Home, r sheet.Report, width int) string {
	p := &page{width: max(width, MinWidth)}
	p.paragraph(fitTitle(r), "")
	addFit(p, r)
	p.heading("Before you buy")
	if notice, ok := planner.BareNumbers(house); ok {
		p.item(notice.Word + ": " + notice.Text + " (" + notice.Source + ")")
	}
	p.item("A spec sheet is a promise, not a trial: try the unit on the circuit while you can still give it back.")
	p.item(fmt.Sprintf("Prices are in %s; what is not the unit's own price is a rough estimate.", profiles.PriceBands().Currency))
	return p.String()
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
		working.Names(r.Circuits, 4), hoursText(r.Length), counted(len(r.Units), "unit"), countWord(fits), countWord(ifs))
}

// addFit writes the units and the pairs.
func addFit(p *page, r sheet.Report) {
	for _, u := range r.Units {
		p.line("")
		p.paragraph(unitHead(u), "")
		addChecks(p, u.Checks)
	}
	for _, pair := range r.Pairs {
		p.line("")
		p.paragraph(fmt.Sprintf("%s behind %s: %s", pair.UPS, pair.Generator, strings.ToUpper(string(pair.Verdict))), "")
		addChecks(p, pair.Checks)
	}
}

func unitHead(u sheet.Unit) string {
	parts := []string{u.Gear.Name + " (" + string(u.Gear.Kind) + "): " + strings.ToUpper(string(u.Verdict))}
	if u.Priced && u.Price > 0 {
		parts = append(parts, units.Format(u.Price)+" "+profiles.PriceBands().Currency+" in all")
	}
	if u.Gear.Owned {
		parts = append(parts, "owned")
	}
	if u.Stored {
		parts = append(parts, "lasts "+hoursText(u.Runtime))
	}
	return strings.Join(parts, ", ")
}

// checkLeads say what a check came to; the words differ, so that none hangs on a sign alone.
var checkLeads = []struct {
	outcome sheet.Outcome
	lead    string
}{
	{sheet.Fails, "  no   "}, {sheet.HoldsIf, "  if   "}, {sheet.NotOnSheet, "  ask  "}, {sheet.Holds, "  ok   "},
}

func addChecks(p *page, checks []sheet.Finding) {
	for _, l := range checkLeads {
		for _, c := range checks {
			if c.Outcome == l.outcome {
				p.paragraph(strings.ReplaceAll(c.ID, "-", " ")+": "+strings.TrimSpace(c.Says), l.lead)
			}
		}
	}
}

// hoursText writes a length of time in the unit that suits it.
func hoursText(h units.Hours) string {
	switch {
	case h >= 365*24:
		return "a year or more"
	case h < 2:
		return amount(float64(h)*60, "min")
	case h >= 72:
		return amount(float64(h)/24, "days")
	}
	return amount(float64(h), "h")
}

func counted(n int, what string) string {
	if n != 1 {
		what += "s"
	}
	return fmt.Sprintf("%d %s", n, what)
}

func countWord(n int) string {
	if n == 0 {
		return "none"
	}
	return fmt.Sprint(n)
}
