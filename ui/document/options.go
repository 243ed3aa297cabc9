package document

import (
	"strings"

	"holdover/loads/units"
	"holdover/planner"
	"holdover/planner/choose"
	"holdover/planner/derive"
)

// Options shows the options side by side, then what else rules them out.
func Options(w Worked) Document {
	r := w.Plan
	if !w.needs() {
		return nil
	}
	t := Table{Name: "options", Columns: columns("what")}
	priced := false
	for _, o := range r.Options {
		c := Column{Head: string(o.Kind), Kind: Number}
		if o.Kind == r.Choice {
			c.Tone = Strong
		}
		t.Columns = append(t.Columns, c)
		priced = priced || o.Outcome.Real()
	}
	for _, row := range optionRows {
		line, any := []string{row.label}, false
		for _, o := range r.Options {
			cell := row.cell(r, o)
			line, any = append(line, dashed(cell)), any || cell != ""
		}
		if any {
			t.Add(line...)
		}
	}
	d := under("Options side by side", t)
	if priced {
		d = append(d, Note("Prices are rough estimates from price bands, not offers. In all: bought, kept up, replaced and fuelled over "+units.Format(r.Home.Assume.Years)+" years, at today's worth."))
	}
	return append(d, whyNots(r)...)
}

// whyNots are what rules options out, as far as the reasons have not said it already.
func whyNots(r *planner.Result) Document {
	said := strings.Join(r.Reasons, " ")
	var unsaid List
	for _, o := range r.Options {
		for _, why := range o.WhyNot {
			if !strings.Contains(said, why) {
				unsaid = append(unsaid, string(o.Kind)+": "+why)
			}
		}
	}
	if len(unsaid) == 0 {
		return nil
	}
	return under("What else rules options out", unsaid)
}

// An optionRow is one line of the options side by side; cell gives an empty text where it does not apply. A row that shows one
// figure names it, without the option's kind, so that two can be compared.
type optionRow struct {
	label  string
	cell   func(r *planner.Result, o planner.Option) string
	figure string
}

var optionRows = []optionRow{
	{label: "Carries the house", cell: carries},
	{label: "Open to choose", cell: func(_ *planner.Result, o planner.Option) string { return yesNo(o.Open()) }},
	{label: "Falls short after", cell: func(_ *planner.Result, o planner.Option) string {
		if o.FellShortAt == nil {
			return ""
		}
		return units.Quantity(*o.FellShortAt, "h")
	}},
	{label: "Short of", cell: func(r *planner.Result, o planner.Option) string {
		if o.FellShortAt == nil {
			return ""
		}
		return figureRow("", "short_kwh").cell(r, o)
	}},
	figureRow("Battery", "battery_kwh"),
	figureRow("Inverter", "inverter_va"),
	figureRow("Charger", "charger_kw"),
	figureRow("Generator", "generator_kw"),
	machineRow("Kind of generator", func(m *choose.Machine) string { return strings.TrimSuffix(m.Title, " generator") }),
	machineRow("Fuel", func(m *choose.Machine) string { return string(m.Fuel.Name) }),
	figureRow("Fuel burnt", "fuel_burnt"),
	figureRow("Generator runs", "run_hours"),
	figureRow("Left in the battery", "end_kwh"),
	costRow("To buy, estimate", "purchase"),
	costRow("In all, estimate", "cost"),
}

// figureRow shows a figure of the option in the home's units.
func figureRow(label, name string) optionRow {
	return shownRow(label, name, func(r *planner.Result, f derive.Figure) string { return Quantity(r.Home, f) })
}

// costRow shows a price of the option, rounded as an estimate, with its currency.
func costRow(label, name string) optionRow {
	return shownRow(label, name, func(_ *planner.Result, f derive.Figure) string { return units.About(f.Value, f.Unit) })
}

// shareRow shows a share of the option in hundredths.
func shareRow(label, name string) optionRow {
	return shownRow(label, name, func(_ *planner.Result, f derive.Figure) string { return units.Percent(f.Value) })
}

func shownRow(label, name string, show func(*planner.Result, derive.Figure) string) optionRow {
	return optionRow{label: label, figure: name, cell: func(r *planner.Result, o planner.Option) string {
		f, ok := figureOf(o, name)
		if !ok {
			return ""
		}
		return show(r, f)
	}}
}

func machineRow(label string, of func(*choose.Machine) string) optionRow {
	return optionRow{label: label, cell: func(_ *planner.Result, o planner.Option) string {
		if o.Outcome.Machine == nil {
			return ""
		}
		return of(o.Outcome.Machine)
	}}
}

// figureOf is a figure of the option, by its name without the kind.
func figureOf(o planner.Option, name string) (derive.Figure, bool) {
	if o.Sheet == nil {
		return derive.Figure{}, false
	}
	return o.Sheet.Get(string(o.Kind) + "." + name)
}

func carries(_ *planner.Result, o planner.Option) string {
	if !o.Carried && o.FellShortAt == nil {
		return "no design"
	}
	return yesNo(o.Carried)
}

func yesNo(is bool) string {
	if is {
		return "yes"
	}
	return "no"
}

func dashed(cell string) string {
	if cell == "" {
		return "-"
	}
	return cell
}
