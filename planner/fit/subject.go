package fit

import (
	"cmp"
	"fmt"
	"strings"

	"holdover/loads"
	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/planner/site"
	"holdover/planner/working"
)

// A subject is one unit under check, with what it is held to.
type subject struct {
	home.Gear
	home   *home.Home // only the circuits to serve are kept
	demand *loads.Demand
	rating site.Rating
	sheet  *working.Sheet
	checks []Check

	reserve  *bounds // what it lasts; nil until that is known
	total    float64
	hasPrice bool
}

// The kinds of unit.
const (
	ups          = "ups"
	powerStation = "power-station"
	inverter     = "inverter"
	batteryOnly  = "battery"
	generatorSet = "generator"
)

// check holds the unit to everything.
func (s *subject) check() Unit {
	s.addDemand()
	if s.Kind != batteryOnly {
		s.checkWave()
		s.checkCorrected()
		s.checkVolts()
		s.checkHertz()
		s.checkLegs()
		s.checkNeutral()
	}
	s.checkPower()
	if s.Kind != batteryOnly {
		s.checkSurge()
		s.checkGap()
	}
	switch s.Kind {
	case generatorSet:
		s.checkFuel()
		s.checkQuiet()
	case inverter:
		s.wantBattery()
	default:
		s.checkCold()
		s.checkRuntime()
		s.checkRecharge()
	}
	s.checkPrice()
	u := Unit{Gear: s.Gear, Verdict: verdictOf(s.checks), Checks: s.checks, Sheet: s.sheet, Price: s.total, Priced: s.hasPrice}
	if s.reserve != nil {
		u.Stored, u.Runtime, u.Spare = true, s.reserve.runtime, s.reserve.runtime-s.home.Outage.Length
	}
	return u
}

func verdictOf(checks []Check) Verdict {
	verdict := Fits
	for _, c := range checks {
		switch {
		case c.Outcome == Failed:
			return DoesNotFit
		case c.Outcome != Passed:
			verdict = FitsIf
		}
	}
	return verdict
}

func (s *subject) say(id string, outcome Outcome, figures []string, format string, args ...any) {
	s.checks = append(s.checks, Check{id, outcome, fmt.Sprintf(format, args...), figures})
}

// ask notes a figure that the sheet does not give.
func (s *subject) ask(id, what, why string) {
	s.say(id, Asked, nil, "Not on the sheet: ask the maker for %s. %s", what, why)
}

// given writes a figure of the spec sheet on the working sheet and returns its id.
func (s *subject) given(key string, value float64, unit string) string {
	id := "sheet." + key
	s.sheet.Add(working.Figure{ID: id, Value: value, Unit: unit, How: "given: " + docOf(key), Source: "spec sheet of " + s.Name})
	return id
}

// docOf is the one line that the home file has about a key of gear.
func docOf(key string) string {
	for _, f := range home.FieldsOf("gear") {
		if f.Key == key {
			return f.Doc
		}
	}
	panic("fit: gear has no key " + key)
}

func (s *subject) figure(id string, value float64, unit, how, source string, from ...string) string {
	s.sheet.Add(working.Figure{ID: id, Value: value, Unit: unit, How: how, From: from, Source: source})
	return id
}

// assumed writes an input of the home on the sheet, with the line or default it comes from.
func (s *subject) assumed(path string, value float64, unit string) string {
	source := cmp.Or(s.home.Source(path), "our own default")
	how := "assumed"
	if s.home.Given(path) {
		how = "given"
	}
	return s.figure(path, value, unit, how, source)
}

const sums = "complex sums of P and Q: alternating-current circuit theory"

// addDemand writes what the circuits ask.
func (s *subject) addDemand() {
	d := s.demand
	names := strings.Join(loadNames(d), ", ")
	s.figure("load.running_w", float64(d.RunningW), "W", "all on at once: "+names, sums)
	s.figure("load.running_va", float64(d.Running.VA()), "VA", "√((ΣP)² + (ΣQ)²), all on at once", sums)
	how := "nothing here starts with a surge, so it is the running total"
	if d.WorstStart != "" {
		how = "the running total without " + d.WorstStart + ", and " + d.WorstStart + " starting"
	}
	s.figure("load.worst_moment_va", float64(d.WorstVA), "VA", how, sums, "load.running_va")
	s.figure("load.worst_moment_w", float64(d.WorstW), "W", "the largest real power over every starter", sums, "load.running_w")
	s.figure("load.start_seconds", float64(d.StartTime), "s", "the longest start among them", "the home file and its profiles")
	s.assumed("outage.length", float64(s.home.Outage.Length), "h")
}

func loadNames(d *loads.Demand) []string {
	names := make([]string, len(d.Loads))
	for i := range d.Loads {
		names[i] = d.Loads[i].Name
	}
	return names
}

// derate is the share of its rating that the unit gives here: watts and volt-amps.
func (s *subject) derate() (watts, va float64, from []string) {
	if s.Kind == generatorSet {
		s.figure("site.engine_derate", s.rating.Engine, "", "what an engine gives at this height and warmth", "ISO 3046-1, or what the home file says")
		s.figure("site.alternator_derate", s.rating.Alternator, "", "(1 − 1 % per 100 m above 1000 m)·(1 − 1 % per K above 40 °C)", "common practice among makers, no source")
		return s.rating.Engine, s.rating.Alternator, []string{"site.engine_derate", "site.alternator_derate"}
	}
	s.figure("site.inverter_derate", s.rating.Inverter, "", "1 up to the knee, then less by so much per K", "common practice, no source; the maker's curve goes first")
	return s.rating.Inverter, s.rating.Inverter, []string{"site.inverter_derate"}
}

func watts(w units.Watts) string        { return units.Format(float64(w)) + " W" }
func voltAmps(va units.VoltAmps) string { return units.Format(float64(va)) + " VA" }
func number(v float64) string           { return units.Format(v) }
func percent(share float64) string      { return units.Format(100*share) + " %" }

// span writes a length of time in the unit that suits it.
func span(h units.Hours) string {
	switch {
	case h >= longest:
		return "a year or more"
	case h < 2:
		return units.Format(float64(h)*60) + " min"
	case h >= 72:
		return units.Format(float64(h)/24) + " days"
	}
	return units.Format(float64(h)) + " h"
}

// brief writes a moment in ms, s or longer.
func brief(t units.Seconds) string {
	switch {
	case t < 1:
		return units.Format(float64(t)*1000) + " ms"
	case t >= 120:
		return span(units.Hours(float64(t) / 3600))
	}
	return units.Format(float64(t)) + " s"
}

// verb is the form of a verb that goes with so many names.
func verb(names []string, one, many string) string {
	if len(names) == 1 {
		return one
	}
	return many
}

// list writes a few names.
func list(names []string) string {
	const most = 4
	if len(names) <= most {
		return strings.Join(names, ", ")
	}
	return fmt.Sprintf("%s and %d more", strings.Join(names[:most], ", "), len(names)-most)
}
