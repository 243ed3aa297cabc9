package report

import (
	"strings"

	"holdover/loads/units"
	"holdover/planner"
)

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
		return amount(*o.FellShortAt, "h")
	}},
	{label: "Short of", cell: shortOf},
	figureRow("Battery", "battery_kwh"),
	figureRow("Inverter", "inverter_va"),
	figureRow("Charger", "charger_kw"),
	figureRow("Generator", "generator_kw"),
	{label: "Kind of generator", cell: machineCell(func(m machine) string { return strings.TrimSuffix(m.Title, " generator") })},
	{label: "Fuel", cell: machineCell(func(m machine) string { return string(m.Fuel.Name) })},
	figureRow("Fuel burnt", "fuel_burnt"),
	figureRow("Generator runs", "run_hours"),
	figureRow("Left in the battery", "end_kwh"),
	costRow("To buy, estimate", "purchase"),
	costRow("In all, estimate", "cost"),
}

// addOptions shows the options side by side, then why those that are not open are not.
func addOptions(p *page, r *planner.Result) {
	priced, years := false, units.Format(r.Home.Assume.Years)
	t := table{heads: []string{"what"}, right: []bool{false}}
	for _, o := range r.Options {
		t.heads, t.right = append(t.heads, string(o.Kind)), append(t.right, true)
		priced = priced || o.Outcome.Real()
	}
	for _, row := range OptionRows(r) {
		for i, cell := range row {
			if cell == "" {
				row[i] = "-"
			}
		}
		t.add(row...)
	}
	p.heading("Options side by side")
	t.write(p)
	if priced {
		p.paragraph("Prices are rough estimates from price bands, not offers. In all: bought, kept up, replaced and fuelled over "+years+" years, at today's worth.", tableIndent)
	}
	addWhyNots(p, r)
}

// OptionRows are the options side by side: of each row the label, then the cell of each option, empty where it does not apply.
// Rows that apply to none are left out.
func OptionRows(r *planner.Result) (rows [][]string) {
	for _, row := range optionRows {
		line, any := []string{row.label}, false
		for _, o := range r.Options {
			cell := row.cell(r, o)
			line, any = append(line, cell), any || cell != ""
		}
		if any {
			rows = append(rows, line)
		}
	}
	return rows
}

func addWhyNots(p *page, r *planner.Result) {
	unsaid := WhyNots(r)
	if len(unsaid) == 0 {
		return
	}
	p.heading(WhyNotHeading)
	for _, why := range unsaid {
		p.item(why)
	}
}

// WhyNotHeading stands over what [WhyNots] lists.
const WhyNotHeading = "What else rules options out"

// WhyNots are what rules options out, as far as the reasons have not said it already.
func WhyNots(r *planner.Result) (unsaid []string) {
	said := strings.Join(r.Reasons, " ")
	for _, o := range r.Options {
		for _, why := range o.WhyNot {
			if !strings.Contains(said, why) {
				unsaid = append(unsaid, string(o.Kind)+": "+why)
			}
		}
	}
	return unsaid
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

func shortOf(r *planner.Result, o planner.Option) string {
	if o.FellShortAt == nil {
		return ""
	}
	return figureRow("", "short_kwh").cell(r, o)
}
