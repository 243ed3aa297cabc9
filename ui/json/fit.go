package json

import (
	"holdover/loads/home"
	"holdover/planner"
	"holdover/planner/derive"
	"holdover/planner/sheet"
)

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
		Name       string          `json:"name"`
		Kind       string          `json:"kind"`
		Verdict    sheet.Verdict   `json:"verdict"`
		Reasons    []string        `json:"reasons"`    // why it does not fit
		Conditions []string        `json:"conditions"` // what it hangs on
		Questions  []string        `json:"questions"`  // what the sheet lacks
		TotalPrice *float64        `json:"total_price"`
		RuntimeH   *float64        `json:"runtime_h"`
		SpareH     *float64        `json:"spare_h"`
		Checks     []checkJSON     `json:"checks"`
		Figures    *derive.Figures `json:"figures"`
	}
	pairJSON struct {
		Generator string          `json:"generator"`
		UPS       string          `json:"ups"`
		Verdict   sheet.Verdict   `json:"verdict"`
		Checks    []checkJSON     `json:"checks"`
		Figures   *derive.Figures `json:"figures"`
	}
	checkJSON struct {
		ID      string        `json:"id"`
		Outcome sheet.Outcome `json:"outcome"` // passed, if, asked or failed
		Says    string        `json:"says"`
		Figures []string      `json:"figures"`
	}
)

// Fit writes what units come to.
func Fit(house *home.Home, r sheet.Report) (string, error) {
	cautions := []planner.Caution{}
	if notice, ok := planner.BareNumbers(house); ok {
		cautions = append(cautions, notice)
	}
	return indented(fitJSON{Version: 1, Circuits: r.Circuits, LengthH: float64(r.Length), Fits: r.Any(), Units: each(r.Units, unitOf),
		Pairs: each(r.Pairs, func(p sheet.Pair) pairJSON {
			return pairJSON{p.Generator, p.UPS, p.Verdict, each(p.Checks, checkOf), p.Sheet}
		}), Cautions: cautions})
}

func unitOf(u sheet.Unit) unitJSON {
	one := unitJSON{Name: u.Gear.Name, Kind: string(u.Gear.Kind), Verdict: u.Verdict, Reasons: listed(u.Says(sheet.Fails)),
		Conditions: listed(u.Says(sheet.HoldsIf)), Questions: listed(u.Says(sheet.NotOnSheet)), Checks: each(u.Checks, checkOf), Figures: u.Sheet}
	if u.Priced {
		one.TotalPrice = &u.Price
	}
	if u.Stored {
		runtime, spare := float64(u.Runtime), float64(u.Spare)
		one.RuntimeH, one.SpareH = &runtime, &spare
	}
	return one
}

func checkOf(c sheet.Finding) checkJSON { return checkJSON{c.ID, c.Outcome, c.Says, listed(c.Figures)} }
