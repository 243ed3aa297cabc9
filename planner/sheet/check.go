package sheet

import (
	"cmp"
	"fmt"
	"slices"

	"holdover/loads"
	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/planner/derive"
)

// A Part is what a sheet does in a design.
type Part string

// The parts.
const (
	House    Part = "house"    // it carries the circuits
	Charging Part = "charging" // an engine beside a battery that carries them
)

// A Place is where a sheet stands in a design: its part, and what stands beside it.
type Place struct {
	Part     Part
	Inverter *Sheet // in front of bare cells
	Battery  *Sheet // behind an inverter
	Beside   *Sheet // the engine beside inverter and battery
	Standing bool   // whatever the run: that is judged by somebody else
}

// Holds says whether a sheet does its part whatever the run, which is the choice's own: every such finding of [Duty.Check] is met.
// It writes nothing.
func (d *Duty) Holds(s Sheet, at Place) bool { return d.Unmet(s, at) == 0 }

// Unmet is how many findings are not met whatever the run.
func (d *Duty) Unmet(s Sheet, at Place) (n int) {
	at.Standing = true
	for _, f := range d.held(s, at, nil).findings {
		if !f.Met {
			n++
		}
	}
	return n
}

// TooWeak says whether a larger machine might do where this one does not: it gives too little running, for a start or on a leg.
func (d *Duty) TooWeak(s Sheet, at Place) bool {
	at.Standing = true
	return slices.ContainsFunc(d.held(s, at, nil).findings, func(f Finding) bool {
		return !f.Met && slices.Contains([]string{"watts", "va", "surge", "dip", "legs", "leg-start", "transfer"}, f.ID)
	})
}

// Check holds a sheet to its part of a duty and says what was found, with the figures of every finding.
func (d *Duty) Check(s Sheet, at Place) ([]Finding, *derive.Figures) {
	h := d.held(s, at, derive.Over(d.written()))
	return h.findings, h.figures
}

// A holding is one sheet held to a duty.
type holding struct {
	Sheet
	Place
	*Duty
	home     *home.Home
	demand   *loads.Demand
	figures  *derive.Figures // nil where nobody wants to read them
	findings []Finding
	compared *Amounts // of the next finding

	reserve  *bounds // what it lasts; nil until that is known
	total    float64
	hasPrice bool
}

func (d *Duty) holding(s Sheet, at Place, figures *derive.Figures) *holding {
	return &holding{Sheet: s, Place: at, Duty: d, home: d.Home, demand: &d.Demand, figures: figures, findings: make([]Finding, 0, 16)}
}

// held holds a sheet to everything.
func (d *Duty) held(s Sheet, at Place, figures *derive.Figures) *holding {
	h := d.holding(s, at, figures)
	figures.Take("load.running_w", "load.running_va", "load.worst_moment_w", "load.worst_moment_va", "load.start_seconds", "outage.length")
	if !s.Bare() {
		h.checkSupply()
	}
	if at.Part == House {
		h.checkPower()
	}
	h.checkPlace()
	switch {
	case s.Engine():
		h.checkFuel()
	case s.Stores():
		h.checkCold()
		h.checkRuntime()
		h.checkRecharge()
	case at.Battery == nil:
		h.wantBattery()
	}
	return h
}

// checkSupply holds it to the kind of supply that the circuits need.
func (h *holding) checkSupply() {
	h.checkWave()
	h.checkCorrected()
	h.checkVolts()
	h.checkHertz()
	h.checkNeutral()
}

// checkPower holds it to what the circuits draw, and to how soon they want it.
func (h *holding) checkPower() {
	if h.Bare() {
		h.checkDischarge()
		return
	}
	h.checkRatings()
	h.checkSurge()
	h.checkLegs()
	h.checkGap()
	h.checkTransfer()
}

// say notes a finding. One that holds is met.
func (h *holding) say(id string, outcome Outcome, figures []string, format string, args ...any) {
	h.note(id, outcome, outcome == Holds, figures, format, args...)
}

// sayMet notes a finding that holds on a condition which the job sheet or the circuits' own word meets.
func (h *holding) sayMet(id string, figures []string, format string, args ...any) {
	h.note(id, HoldsIf, true, figures, format, args...)
}

// compare gives the amounts that the next finding is about.
func (h *holding) compare(wants, gives float64, unit string) {
	if h.figures != nil {
		h.compared = &Amounts{wants, gives, unit}
	}
}

// comparePower gives the watts or the volt-amps that the next finding is about, whichever are nearer to what is given or farther
// beyond it; a va of 0 is not given.
func (h *holding) comparePower(wantsW, givesW units.Watts, wantsVA, givesVA units.VoltAmps) {
	if givesVA > 0 && float64(wantsVA)*float64(givesW) > float64(wantsW)*float64(givesVA) {
		h.compare(float64(wantsVA), float64(givesVA), "VA")
		return
	}
	h.compare(float64(wantsW), float64(givesW), "W")
}

func (h *holding) note(id string, outcome Outcome, met bool, figures []string, format string, args ...any) {
	f := Finding{ID: id, Outcome: outcome, Met: met, Compared: h.compared}
	h.compared = nil
	if h.figures != nil {
		h.figures.Take(figures...)
		f.Figures, f.Says = figures, fmt.Sprintf(format, args...)
	}
	h.findings = append(h.findings, f)
}

// ask notes a figure that the sheet does not give.
func (h *holding) ask(id, what, why string) {
	h.say(id, NotOnSheet, nil, "Not on the sheet: ask the maker for %s. %s", what, why)
}

// given puts down a figure of the spec sheet.
func (h *holding) given(key string, value float64, unit string) derive.Term {
	if h.figures == nil {
		return h.figures.At("", value)
	}
	return h.givenBy(cmp.Or(h.Source, "spec sheet of "+h.Name), "sheet", key, value, unit)
}

func (h *holding) givenBy(source, what, key string, value float64, unit string) derive.Term {
	return h.figures.Add(derive.Figure{ID: what + "." + key, Value: value, Unit: unit, How: "given: " + docOf(key), Source: source})
}

// docOf is the one line that the home file has about a key of gear.
func docOf(key string) string {
	for _, f := range home.FieldsOf("gear") {
		if f.Key == key {
			return f.Doc
		}
	}
	panic("sheet: gear has no key " + key)
}
