package screens

import (
	"fmt"
	"slices"

	"github.com/gdamore/tcell/v2"
	"github.com/rivo/tview"

	"holdover/loads/home"
	"holdover/planner"
	"holdover/planner/sheet"
	"holdover/ui/document"
	"holdover/ui/screens/draft"
)

// A unitPage is the spec sheet of one unit being filled in, with what it comes to below, anew after every field.
type unitPage struct {
	*form
	unit    int
	verdict *reader
}

// The verdict below the sheet: its height, rule included.
const unitVerdictHeight = 9

// newUnitPage opens the sheet of a unit. Ctrl-N goes on to the next one, and past the last to a new one.
func newUnitPage(a *app, unit int) *unitPage {
	p := &unitPage{unit: unit}
	p.form = newForm(a, "", unitFields(unit))
	p.verdict = newReader(a.look, p.unitVerdict, nil)
	p.title = func() string {
		gear := a.draft.Home().Gear
		return fmt.Sprintf("unit %d of %d: %s", p.unit+1, len(gear), gear[p.unit].Name)
	}
	p.turn = p.turnTo
	p.foot = "this field"
	return p
}

func (p *unitPage) turnTo(by int) {
	next, gear := p.unit+by, p.app.draft.Home().Gear
	if next < 0 {
		return
	}
	if next == len(gear) {
		if _, err := p.app.draft.AddUnit(); err != nil {
			p.app.fail(err)
			return
		}
		p.app.say("another unit; its sheet is empty")
	}
	p.unit = next
	p.show(unitFields(next))
}

// shopFields are what a shop page usually says, in this order; the rest of the sheet comes after.
var shopFields = []string{"name", "kind", "price", "watts", "va", "wave", "volts", "hertz", "neutral", "gap", "surge", "surge_seconds", "energy", "runtimes", "chemistry", "recharge"}

// unitFields are how long it is to serve, and the sheet of unit i.
func unitFields(i int) []draft.FormField {
	var fields []draft.FormField
	for _, f := range home.FieldsOf("outage") {
		if f.Key == "length" {
			fields = append(fields, formField("what it is to do", draft.Path{"outage"}, f))
		}
	}
	at := draft.Path{"gear", i}
	all := home.FieldsOf("gear")
	for _, key := range shopFields {
		n := slices.IndexFunc(all, func(f home.Field) bool { return f.Key == key })
		fields = append(fields, formField("what its sheet or the shop page says (leave out what it does not)", at, all[n]))
	}
	for _, f := range all {
		if !slices.Contains(shopFields, f.Key) {
			fields = append(fields, formField("more, where it applies", at, f))
		}
	}
	return fields
}

func (p *unitPage) keys() []hint {
	hints := p.form.keys()
	for i := range hints {
		switch hints[i].show {
		case "Ctrl-N":
			hints[i].label = "next unit"
		case "Ctrl-P":
			hints[i].label = "before"
		}
	}
	return hints
}

// Draw implements [tview.Primitive].
func (p *unitPage) Draw(screen tcell.Screen) {
	x, y, width, height := p.GetRect()
	p.SetRect(x, y, width, height-unitVerdictHeight)
	p.form.Draw(screen)
	p.SetRect(x, y, width, height)
	y += height - unitVerdictHeight
	printLine(screen, p.app.look.rule("will it do? (Esc, then g: all units in full)", width), x, y, width)
	p.verdict.SetRect(x, y+1, width, unitVerdictHeight-1)
	p.verdict.Draw(screen)
}

// MouseHandler implements [tview.Primitive]. The verdict takes no clicks.
func (p *unitPage) MouseHandler() func(tview.MouseAction, *tcell.EventMouse, func(tview.Primitive)) (bool, tview.Primitive) {
	return p.form.MouseHandler()
}

// unitVerdict is what this unit comes to with what is in the file now.
func (p *unitPage) unitVerdict() (any, func() document.Document) {
	r := p.app.draft.Result()
	return [2]any{r, p.unit}, func() document.Document {
		result, err := planner.Fit(r)
		if err != nil {
			return document.Document{document.Paragraph{Text: err.Error()}}
		}
		name := r.Home.Gear[p.unit].Name
		at := slices.IndexFunc(result.Units, func(u sheet.Unit) bool { return u.Gear.Name == name })
		return document.Unit(result.Units[at])
	}
}
