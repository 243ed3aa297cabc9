package report

import (
	"strings"

	"holdover/loads/units"
	"holdover/planner"
)

// An optionRow is one line of the options side by side; cell gives an empty text where it does not apply.
type optionRow struct {
	label string
	cell  func(r *planner.Result, o planner.Option) string
}

var optionRows = []optionRow{
	{"Carries the house", carries},
	{"Open to choose", func(_ *planner.Result, o planner.Option) string { return yesNo(o.Open()) }},
	{"Falls short after", func(_ *planner.Result, o planner.Option) string {
		if o.FellShortAt == nil {
			return ""
		}
		return amount(*o.FellShortAt, "h")
	}},
	{"Short of", shortOf},
	{"Battery", figureCell("battery_kwh")},
	{"Inverter", figureCell("inverter_va")},
	{"Charger", figureCell("charger_kw")},
	{"Generator", figureCell("generator_kw")},
	{"Kind of generator", machineCell(func(m machine) string { return m.Kind })},
	{"Fuel", machineCell(func(m machine) string { return m.Fuel.Name })},
	{"Fuel burnt", figureCell("fuel_burnt")},
	{"Generator runs", figureCell("run_hours")},
	{"Left in the battery", figureCell("end_kwh")},
	{"Outages carried", shareCell("carried_share")},
	{"Short in a year", figureCell("short_h_per_year")},
	{"To buy, estimate", costCell("purchase")},
	{"In all, estimate", costCell("cost")},
}

// addOptions shows the options side by side, then why those that are not open are not.
func addOptions(p *page, r *planner.Result) {
	currency, years := "", units.Format(r.Home.Assume.Years)
	t := table{heads: []string{"what"}, right: []bool{false}}
	for _, o := range r.Options {
		t.heads, t.right = append(t.heads, string(o.Kind)), append(t.right, true)
		if f, ok := o.Sheet.Get(string(o.Kind) + ".purchase"); ok {
			currency = f.Unit
		}
	}
	for _, row := range optionRows {
		if cells, any := row.cells(r); any {
			t.add(cells...)
		}
	}
	p.heading("Options side by side")
	t.write(p)
	if currency != "" {
		p.paragraph("Money is in "+currency+": rough estimates from price bands, not offers. In all: bought, kept up, replaced and fuelled over "+years+" years, at today's worth.", tableIndent)
	}
	addWhyNots(p, r)
}

func (row optionRow) cells(r *planner.Result) (out []string, any bool) {
	out = []string{row.label}
	for _, o := range r.Options {
		cell := row.cell(r, o)
		any = any || cell != ""
		if cell == "" {
			cell = "-"
		}
		out = append(out, cell)
	}
	return out, any
}

// addWhyNots says what rules options out, as far as the reasons have not said it already.
func addWhyNots(p *page, r *planner.Result) {
	said := strings.Join(r.Reasons, " ")
	headed := false
	for _, o := range r.Options {
		for _, why := range o.WhyNot {
			if strings.Contains(said, why) {
				continue
			}
			if !headed {
				p.heading("What else rules options out")
				headed = true
			}
			p.item(string(o.Kind) + ": " + why)
		}
	}
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
	return figureCell("short_kwh")(r, o)
}
