package report

import (
	"fmt"
	"strings"

	"holdover/loads/home"
	"holdover/planner"
	"holdover/planner/working"
	"holdover/profiles"
)

// A Side is one of two plans set side by side, and the option of it that is looked at.
type Side struct {
	Result *planner.Result
	Option planner.Option // without a kind where no option has a design
}

// ChosenSide looks at the chosen option, or where there is none at the nearest.
func ChosenSide(r *planner.Result) Side {
	o, _ := Nearest(r)
	return Side{r, o}
}

// kind says what the side is: a battery, or nothing where no option has a design.
func (s Side) kind() string {
	if s.Option.Kind == "" {
		return "nothing"
	}
	return "a " + string(s.Option.Kind)
}

// Against sets two plans side by side: what differs in what they rest on, the figures that decide, and what they come to. Two
// options of the same plan share the first two, so only the last is shown. width is as in [Text].
func Against(first, second Side, width int) string {
	p := &page{width: max(width, MinWidth)}
	if first.Result == second.Result {
		p.paragraph(fmt.Sprintf("%s: %s against a %s.", title(first.Result.Home), first.kind(), second.Option.Kind), "")
		addOutcomes(p, first, second, dashed(string(first.Option.Kind)), string(second.Option.Kind))
		addWhyNot(p, second.Option)
		return p.String()
	}
	p.paragraph("First: "+verdict(first.Result), "")
	p.paragraph("Second: "+verdict(second.Result), "")
	p.heading("What differs in the home files")
	inputs := inputDifferences(first.Result.Home, second.Result.Home)
	for _, d := range inputs {
		p.item(d.id + ": first " + d.text(first.Result.Home, d.first) + ", second " + d.text(first.Result.Home, d.second))
	}
	if len(inputs) == 0 {
		p.item("Nothing that the plan rests on.")
	}
	addDecisive(p, first.Result, second.Result)
	addOutcomes(p, first, second, "first", "second")
	return p.String()
}

// addDecisive shows those of the decisive figures that differ.
func addDecisive(p *page, first, second *planner.Result) {
	t := table{heads: []string{"figure", "first", "second", "difference"}, right: []bool{false, true, true, true}}
	same := 0
	for _, d := range decisive {
		a, okA := first.Sheet.Get(d.id)
		b, okB := second.Sheet.Get(d.id)
		switch {
		case !okA && !okB:
		case okA == okB && a.Value == b.Value && a.Word == b.Word:
			same++
		default:
			t.add(d.label, cellOf(first.Home, a, okA), cellOf(first.Home, b, okB), difference(first.Home, a, b, okA && okB))
		}
	}
	p.heading("Figures that decide")
	if len(t.rows) > 0 {
		t.write(p)
	}
	p.item(fmt.Sprintf("The same in both: %s.", counted(same, "figure")))
}

func cellOf(house *home.Home, f working.Figure, ok bool) string {
	if !ok {
		return "-"
	}
	return Quantity(house, f)
}

// difference is by how much the second figure is more or less than the first, in the units of the home.
func difference(house *home.Home, first, second working.Figure, both bool) string {
	if !both || first.Word != "" || second.Word != "" || first.Unit != second.Unit {
		return ""
	}
	by := working.Figure{Value: second.Value - first.Value, Unit: first.Unit}
	switch by.Unit {
	case "C", "°C":
		by.Unit = "K"
	case profiles.PriceBands().Currency:
		by.Value = planner.RoundedPrice(by.Value)
	}
	return signed(Quantity(house, by), by.Value)
}

func signed(text string, value float64) string {
	if value > 0 {
		return "+" + text
	}
	return text
}

// comparedRows are the options' rows with those of risk, which elsewhere have a part of their own.
var comparedRows = append(optionRows[:len(optionRows):len(optionRows)],
	shownRow("Outages carried", "carried_share", func(_ *planner.Result, f working.Figure) string { return percent(f.Value) }),
	figureRow("Short in a year", "short_h_per_year"),
)

// addOutcomes shows what both sides come to.
func addOutcomes(p *page, first, second Side, firstHead, secondHead string) {
	t := table{heads: []string{"what", firstHead, secondHead, "difference"}, right: []bool{false, true, true, true}}
	if first.Result != second.Result {
		t.add("Choice", string(first.Result.Choice), string(second.Result.Choice), "")
		if first.Option.Kind != first.Result.Choice || second.Option.Kind != second.Result.Choice {
			t.add("Nearest, shown here", dashed(string(first.Option.Kind)), dashed(string(second.Option.Kind)), "")
		}
		t.add("Runner-up", string(first.Result.Outlook.RunnerUp), string(second.Result.Outlook.RunnerUp), "")
	}
	for _, row := range comparedRows {
		a, b := row.cell(first.Result, first.Option), row.cell(second.Result, second.Option)
		if a == "" && b == "" {
			continue
		}
		t.add(row.label, dashed(a), dashed(b), row.difference(first, second))
	}
	p.heading("What they come to")
	t.write(p)
}

func (row optionRow) difference(first, second Side) string {
	a, okA := figureOf(first.Option, row.figure)
	b, okB := figureOf(second.Option, row.figure)
	if row.figure == "" || !okA || !okB {
		return ""
	}
	by := b.Value - a.Value
	switch {
	case by == 0:
		return "same"
	case a.Unit == "" && strings.HasSuffix(row.figure, "_share"):
		return signed(amount(100*by, "points"), by)
	}
	return difference(first.Result.Home, a, b, true)
}

func dashed(cell string) string {
	if cell == "" {
		return "-"
	}
	return cell
}

func addWhyNot(p *page, o planner.Option) {
	if len(o.WhyNot) == 0 {
		return
	}
	p.heading("Why not a " + string(o.Kind))
	for _, why := range o.WhyNot {
		p.item(why)
	}
}
