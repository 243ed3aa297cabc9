package sheet

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"holdover/loads"
	"holdover/loads/home"
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
	h := d.held(s, at, &derive.Figures{})
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
	h.addDemand()
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

func (h *holding) note(id string, outcome Outcome, met bool, figures []string, format string, args ...any) {
	f := Finding{ID: id, Outcome: outcome, Met: met}
	if h.figures != nil {
		f.Figures, f.Says = figures, fmt.Sprintf(format, args...)
	}
	h.findings = append(h.findings, f)
}

// ask notes a figure that the sheet does not give.
func (h *holding) ask(id, what, why string) {
	h.say(id, NotOnSheet, nil, "Not on the sheet: ask the maker for %s. %s", what, why)
}

// figure writes a figure where somebody wants to read it, and returns its id.
func (h *holding) figure(id string, value float64, unit, how, source string, from ...string) string {
	if h.figures != nil {
		h.figures.Add(derive.Figure{ID: id, Value: value, Unit: unit, How: how, From: from, Source: source})
	}
	return id
}

// given writes a figure of the spec sheet and returns its id.
func (h *holding) given(key string, value float64, unit string) string {
	if h.figures == nil {
		return ""
	}
	source := "spec sheet of " + h.Name
	if h.Made != nil {
		source = h.Made.Source
	}
	return h.figure("sheet."+key, value, unit, "given: "+docOf(key), source)
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

// assumed writes an input of the home, with the line or default it comes from.
func (h *holding) assumed(path string, value float64, unit string) string {
	if h.figures == nil {
		return ""
	}
	source := cmp.Or(h.home.Source(path), "our own default")
	how := "assumed"
	if h.home.Given(path) {
		how = "given"
	}
	return h.figure(path, value, unit, how, source)
}

const sums = "complex sums of P and Q: alternating-current circuit theory"

// addDemand writes what the circuits ask.
func (h *holding) addDemand() {
	if h.figures == nil {
		return
	}
	d := h.demand
	names := strings.Join(h.Circuits, ", ")
	h.figure("load.running_w", float64(d.RunningW), "W", "every kept circuit on, and the largest that takes turns: "+names, sums)
	h.figure("load.running_va", float64(d.Running.VA()), "VA", "√((ΣP)² + (ΣQ)²), every kept circuit on and the largest that takes turns", sums)
	how := "nothing here starts with a surge, so it is the running total"
	if d.WorstStart != "" {
		how = "the running total without " + d.WorstStart + ", and " + d.WorstStart + " starting"
	}
	h.figure("load.worst_moment_va", float64(d.WorstVA), "VA", how, sums, "load.running_va")
	h.figure("load.worst_moment_w", float64(d.WorstW), "W", "the largest real power over every starter", sums, "load.running_w")
	h.figure("load.start_seconds", float64(d.StartTime), "s", "the longest start among them", "the home file and its profiles")
	h.assumed("outage.length", float64(h.home.Outage.Length), "h")
}
