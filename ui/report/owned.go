package report

import (
	"context"
	"fmt"
	"strings"

	"holdover/loads/units"
	"holdover/planner"
	"holdover/planner/sheet"
	"holdover/profiles"
)

// addGear says in a line what each spec sheet of the home comes to, and then what the units that are owned already are good for.
func addGear(p *page, r *planner.Result) {
	result, err := planner.Fit(r)
	if err != nil {
		return // no unit is listed, or nothing is kept
	}
	p.heading("Units by their spec sheets (the fit verb shows every check)")
	for _, u := range result.Units {
		why := append(append(u.Says(sheet.Fails), u.Says(sheet.HoldsIf)...), u.Says(sheet.NotOnSheet)...)
		text := u.Gear.Name + ": " + string(u.Verdict)
		if len(why) > 0 {
			text += ". " + why[0]
		}
		if more := len(why) - 1; more > 0 {
			text += fmt.Sprintf(" And %s.", counted(more, "more reason"))
		}
		p.item(text)
	}
	addOwned(p, r)
}

// addOwned says how long the units in the house carry what, and the cheapest thing to add.
func addOwned(p *page, r *planner.Result) {
	for i, text := range Owned(context.Background(), r) {
		if i == 0 {
			p.heading("What is owned already")
		}
		p.item(text)
	}
}

// Owned says in sentences how long the units in the house carry what, and the cheapest thing to add; none where nothing is owned.
func Owned(ctx context.Context, r *planner.Result) (says []string) {
	inv, ok := planner.Owned(ctx, r)
	if !ok {
		return nil
	}
	for _, u := range inv.Units {
		for _, c := range u.Carries {
			says = append(says, fmt.Sprintf("%s with %s alone: %s.", u.All.Gear.Name, c.Circuit, carriesText(c.Unit, r.Home.Outage.Length)))
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
	says = append(says, addText(inv))
	if len(inv.OnSale) > 0 {
		says = append(says, fmt.Sprintf("Of the units listed, %s would carry the rest by itself, for about %s %s.", inv.OnSale[0].Gear.Name, units.Format(inv.OnSale[0].Price), profiles.PriceBands().Currency))
	}
	return says
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
		return fmt.Sprintf("lasts %s, not %s", hoursText(u.Runtime), hoursText(length))
	case len(failed) > 0:
		return "does not fit. " + strings.TrimSuffix(failed[0].Says, ".")
	case len(open) > 0:
		return "fits if this is settled. " + strings.TrimSuffix(open[0].Says, ".")
	case u.Stored:
		return "lasts " + hoursText(u.Runtime)
	}
	return "fits"
}

// addText says the cheapest thing to add.
func addText(inv planner.Inventory) string {
	currency := profiles.PriceBands().Currency
	switch {
	case len(inv.Rest) == 0:
		return "Nothing more is needed."
	case inv.Kind == planner.None:
		return "Nothing within the limits carries the rest: " + strings.Join(inv.Rest, ", ") + "."
	}
	design := planner.Option{Kind: inv.Kind, Outcome: inv.Design}
	text := fmt.Sprintf("The cheapest thing to add for the rest (%s): %s; %s %s to buy, transfer equipment included.",
		strings.Join(inv.Rest, ", "), designText(design), planner.Estimate(inv.Design.Cost.Purchase), currency)
	if inv.Without > 0 {
		text += fmt.Sprintf(" Over the planning years that is %s in place of %s.", planner.Estimate(inv.Design.Cost.Total()), planner.Estimate(inv.Without))
	}
	return text
}

// designText says what a design is made of; an owned machine is called so.
func designText(o planner.Option) string {
	d := o.Outcome
	var parts []string
	if d.Modules > 0 {
		parts = append(parts, fmt.Sprintf("%s with a %s VA inverter", counted(d.Modules, "battery module"), units.Format(d.InverterVA)))
	}
	if d.ChargerKW > 0 {
		parts = append(parts, fmt.Sprintf("a %s kW charger", units.Format(d.ChargerKW)))
	}
	if m := d.Machine; m != nil {
		text := fmt.Sprintf("a %s kW generator (%s) on %s", units.Format(m.KW), m.Kind, m.Fuel.Name)
		if m.Kind == "owned" {
			text = fmt.Sprintf("the owned generator of %s kW on %s, connected for good", units.Format(m.KW), m.Fuel.Name)
		}
		parts = append(parts, text)
	}
	return strings.Join(parts, ", ")
}
