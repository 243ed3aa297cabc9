package json

import (
	"slices"
	"strings"

	"holdover/loads/home"
	"holdover/planner"
	"holdover/planner/derive"
	"holdover/planner/sheet"
)

// A design in the JSON of a plan: its sheets, which are what the choice held to their parts, and what that came to.
type (
	sheetsJSON struct {
		Sheets     []map[string]any `json:"sheets"` // as in gear, each figure in the unit that its key ends in
		ChargerW   float64          `json:"charger_w"`
		InverterVA float64          `json:"inverter_va"`
		Modules    int              `json:"modules"`
	}
	amountsJSON struct {
		Sheet   string     `json:"sheet"`
		Part    sheet.Part `json:"part"`
		Check   string     `json:"check"`
		Finding string     `json:"finding"`         // holds, holds-if, fails or not-on-the-sheet
		Wants   *float64   `json:"wants,omitempty"` // left out where it was not amounts that were compared
		Gives   *float64   `json:"gives,omitempty"`
		Unit    string     `json:"unit"`
		Words   string     `json:"words"`
		Source  string     `json:"source"`
	}
)

// sheetsOf lists what an option's design is made of.
func sheetsOf(r *planner.Result, o planner.Option) sheetsJSON {
	d := o.Outcome.Design
	return sheetsJSON{each(r.Sheets(o), func(p planner.Placed) map[string]any { return gearOf(p.Gear, p.Part) }), 1000 * d.ChargerKW, d.InverterVA, d.Modules}
}

func gearOf(g home.Gear, part sheet.Part) map[string]any {
	out := map[string]any{"name": g.Name, "kind": g.Kind, "owned": g.Owned, "part": part}
	for f, value := range g.Figures() {
		out[keyOf(f)] = value
	}
	return out
}

// saysUnit are the keys of gear whose name says the unit, or has but one: of a surge, watts.
var saysUnit = []string{"watts", "va", "volts", "hertz", "surge", "surge_seconds"}

// keyOf is the key of a figure with the unit that it is in.
func keyOf(f home.Field) string {
	if f.Dimension == nil || slices.Contains(saysUnit, f.Key) {
		return f.Key
	}
	return f.Key + "_" + strings.ToLower(f.Dimension.Base)
}

// outcomes are the words of the plan's checks.
var outcomes = map[sheet.Outcome]string{sheet.Holds: "holds", sheet.HoldsIf: "holds-if", sheet.Fails: "fails", sheet.NotOnSheet: "not-on-the-sheet"}

func checksOf(r *planner.Result, o planner.Option) []amountsJSON {
	all := []amountsJSON{}
	for _, c := range r.Checks(o) {
		for _, f := range c.Findings {
			one := amountsJSON{Sheet: c.Sheet.Name, Part: c.Part, Check: f.ID, Finding: outcomes[f.Outcome], Words: f.Says, Source: sourcesOf(c.Figures, f)}
			if a := f.Compared; a != nil {
				one.Wants, one.Gives, one.Unit = &a.Wants, &a.Gives, a.Unit
			}
			all = append(all, one)
		}
	}
	return all
}

// sourcesOf are the sources of a finding's figures, each once.
func sourcesOf(figures *derive.Figures, f sheet.Finding) string {
	var sources []string
	for _, id := range f.Figures {
		if figure, ok := figures.Get(id); ok && figure.Source != "" && !slices.Contains(sources, figure.Source) {
			sources = append(sources, figure.Source)
		}
	}
	return strings.Join(sources, "; ")
}
