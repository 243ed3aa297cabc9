package document

import (
	"fmt"
	"strings"

	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/planner/derive"
	"holdover/profiles"
	"holdover/ui/compare"
)

// Against sets two plans side by side: what differs in what they rest on, the figures that decide, and what they come to. Two
// options of the same plan share the first two, so only the last is shown.
func Against(first, second compare.Side) Document {
	a, b := first.Result, second.Result
	if a == b {
		d := Document{Paragraph{Text: fmt.Sprintf("%s: %s against a %s.", Name(a.Home), kindOf(first), second.Option.Kind)}}
		d = append(d, outcomes(first, second, dashed(string(first.Option.Kind)), string(second.Option.Kind))...)
		if len(second.Option.WhyNot) > 0 {
			d = append(d, under("Why not a "+string(second.Option.Kind), List(second.Option.WhyNot))...)
		}
		return d
	}
	d := Document{Paragraph{Text: "First: " + sentence(a)}, Paragraph{Text: "Second: " + sentence(b)}}
	var inputs List
	for _, in := range compare.Inputs(a.Home, b.Home) {
		inputs = append(inputs, in.ID+": first "+given(a.Home, in.First)+", second "+given(a.Home, in.Second))
	}
	if inputs == nil {
		inputs = List{"Nothing that the plan rests on."}
	}
	d = append(d, under("What differs in the home files", inputs)...)
	d = append(d, decisiveOf(first, second)...)
	return append(d, outcomes(first, second, "first", "second")...)
}

// kindOf says what a side is: a battery, or nothing where no option has a design.
func kindOf(s compare.Side) string {
	if s.Option.Kind == "" {
		return "nothing"
	}
	return "a " + string(s.Option.Kind)
}

// given is what a side gives, in the units of the home.
func given(house *home.Home, f *derive.Figure) string {
	if f == nil {
		return "not given"
	}
	return Quantity(house, *f)
}

// decisiveOf shows those of the decisive figures that differ.
func decisiveOf(first, second compare.Side) Document {
	a, b := first.Result, second.Result
	t := Table{Name: "figures", Columns: []Column{{Head: "figure"}, {Head: "first", Kind: Number}, {Head: "second", Kind: Number}, {Head: "difference", Kind: Number}}}
	same := 0
	for _, d := range decisive {
		f, okF := a.Sheet.Get(d.id)
		g, okG := b.Sheet.Get(d.id)
		switch {
		case !okF && !okG:
		case okF == okG && f.Value == g.Value && f.Word == g.Word:
			same++
		default:
			t.Add(d.label, cellOf(a.Home, f, okF), cellOf(b.Home, g, okG), difference(a.Home, f, g, okF && okG))
		}
	}
	d := Document{Heading{Text: "Figures that decide"}}
	if len(t.Rows) > 0 {
		d = append(d, t)
	}
	return append(d, List{fmt.Sprintf("The same in both: %s.", units.Counted(same, "figure"))})
}

func cellOf(house *home.Home, f derive.Figure, ok bool) string {
	if !ok {
		return "-"
	}
	return Quantity(house, f)
}

// difference is by how much the second figure is more or less than the first, in the units of the home.
func difference(house *home.Home, first, second derive.Figure, both bool) string {
	if !both || first.Word != "" || second.Word != "" || first.Unit != second.Unit {
		return ""
	}
	by := derive.Figure{Value: second.Value - first.Value, Unit: first.Unit}
	switch by.Unit {
	case "C", "°C":
		by.Unit = "K"
	case profiles.PriceBands().Currency:
		by.Value = units.Rounded(by.Value)
	}
	return units.Signed(Quantity(house, by), by.Value)
}

// comparedRows are the options' rows with those of chance, which elsewhere have a part of their own.
var comparedRows = append(optionRows[:len(optionRows):len(optionRows)],
	shareRow("Outages carried", "carried_share"),
	figureRow("Short in a year", "short_h_per_year"),
)

// outcomes shows what both sides come to.
func outcomes(first, second compare.Side, firstHead, secondHead string) Document {
	t := Table{Name: "outcomes", Columns: []Column{{Head: "what"}, {Head: firstHead, Kind: Number}, {Head: secondHead, Kind: Number}, {Head: "difference", Kind: Number}}}
	a, b := first.Result, second.Result
	if a != b {
		t.Add("Choice", string(a.Choice), string(b.Choice), "")
		if first.Option.Kind != a.Choice || second.Option.Kind != b.Choice {
			t.Add("Nearest, shown here", dashed(string(first.Option.Kind)), dashed(string(second.Option.Kind)), "")
		}
		t.Add("Runner-up", string(a.Outlook.RunnerUp), string(b.Outlook.RunnerUp), "")
	}
	for _, row := range comparedRows {
		x, y := row.cell(a, first.Option), row.cell(b, second.Option)
		if x != "" || y != "" {
			t.Add(row.label, dashed(x), dashed(y), row.difference(first, second))
		}
	}
	return under("What they come to", t)
}

func (row optionRow) difference(first, second compare.Side) string {
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
		return units.Signed(units.Quantity(100*by, "points"), by)
	}
	return difference(first.Result.Home, a, b, true)
}
