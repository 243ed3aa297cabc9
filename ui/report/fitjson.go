package report

import (
	"holdover/loads/home"
	"holdover/planner"
	"holdover/planner/sheet"
	"holdover/planner/working"
)

// The JSON of a fit is a promise as that of a plan is: keys may be added, none is renamed, a list is never null.
type (
	fitJSON struct {
		Version  int               `json:"holdover"`
		Circuits []string          `json:"circuits"`
		LengthH  float64           `json:"length_h"`
		Fits     bool              `json:"fits"` // any unit fits outright
		Units    []unitJSON        `json:"units"`
		Pairs    []pairJSON        `json:"pairs"`
		Cautions []planner.Caution `json:"cautions"`
	}
	unitJSON struct {
		Name       string         `json:"name"`
		Kind       string         `json:"kind"`
		Verdict    sheet.Verdict  `json:"verdict"`
		Reasons    []string       `json:"reasons"`    // why it does not fit
		Conditions []string       `json:"conditions"` // what it hangs on
		Questions  []string       `json:"questions"`  // what the sheet lacks
		TotalPrice *float64       `json:"total_price"`
		RuntimeH   *float64       `json:"runtime_h"`
		SpareH     *float64       `json:"spare_h"`
		Checks     []checkJSON    `json:"checks"`
		Figures    *working.Sheet `json:"figures"`
	}
	pairJSON struct {
		Generator string         `json:"generator"`
		UPS       string         `json:"ups"`
		Verdict   sheet.Verdict  `json:"verdict"`
		Checks    []checkJSON    `json:"checks"`
		Figures   *working.Sheet `json:"figures"`
	}
	checkJSON struct {
		ID      string        `json:"id"`
		Outcome sheet.Outcome `json:"outcome"` // passed, if, asked or failed
		Says    string        `json:"says"`
		Figures []string      `json:"figures"`
	}
)

// FitJSON writes a fit for another program.
func FitJSON(house *home.Home, r sheet.Report) (string, error) {
	out := fitJSON{Version: 1, Circuits: r.Circuits, LengthH: float64(r.Length), Fits: r.Any(), Units: []unitJSON{}, Pairs: []pairJSON{}, Cautions: []planner.Caution{}}
	if notice, ok := planner.BareNumbers(house); ok {
		out.Cautions = append(out.Cautions, notice)
	}
	for _, u := range r.Units {
		one := unitJSON{Name: u.Gear.Name, Kind: string(u.Gear.Kind), Verdict: u.Verdict, Reasons: listed(u.Says(sheet.Fails)),
			Conditions: listed(u.Says(sheet.HoldsIf)), Questions: listed(u.Says(sheet.NotOnSheet)), Checks: checksJSON(u.Checks), Figures: u.Sheet}
		if u.Priced {
			one.TotalPrice = &u.Price
		}
		if u.Stored {
			runtime, spare := float64(u.Runtime), float64(u.Spare)
			one.RuntimeH, one.SpareH = &runtime, &spare
		}
		out.Units = append(out.Units, one)
	}
	for _, p := range r.Pairs {
		out.Pairs = append(out.Pairs, pairJSON{p.Generator, p.UPS, p.Verdict, checksJSON(p.Checks), p.Sheet})
	}
	return indented(out)
}

func checksJSON(checks []sheet.Finding) []checkJSON {
	out := []checkJSON{}
	for _, c := range checks {
		out = append(out, checkJSON{c.ID, c.Outcome, c.Says, listed(c.Figures)})
	}
	return out
}
