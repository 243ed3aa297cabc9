package install

import (
	"slices"

	"holdover/loads/home"
	"holdover/planner/sheet"

	"fmt"
	"math"

	"holdover/planner/service"
)

// A Rule says what one source must give under one way of transfer.
type Rule struct {
	Source   string            `json:"source"`
	Mode     home.TransferMode `json:"mode"`
	Applies  bool              `json:"applies"` // this is the way that the home file asks for
	NeededVA float64           `json:"needed_va"`
	HasVA    float64           `json:"has_va"`
	OK       bool              `json:"ok"`
	MustBe   string            `json:"must_be"`  // what the source must then be, in words
	MadeKVA  float64           `json:"made_kva"` // the next rating made that is enough; 0 where none is or none is known
	Why      string            `json:"why"`
	Clause   string            `json:"clause"`
}

// addRules holds each source of the plan to each way of transfer, as [service.Wanted] has it.
func (w *work) addRules() {
	if len(w.demand.Loads) == 0 {
		return
	}
	var wants []service.Want
	for _, way := range service.Ways() {
		wants = append(wants, service.Wanted(w.home, w.Code, w.demand, way))
	}
	for i := range w.Sources {
		if !w.isHeld(&w.Sources[i]) {
			continue
		}
		for _, want := range wants {
			w.addRule(&w.Sources[i], want)
		}
		w.tell(&w.Sources[i], "legs of "+w.Sources[i].Name, "physics: each leg of a centre-tapped source carries its own share", "legs-unbalanced", "legs", "leg-start")
	}
}

// addRule holds a source to one way of transfer: VA to its kVA, and W to its kW. Of a calculated load it must have both.
func (w *work) addRule(s *Source, want service.Want) {
	applies, clause := want.Way == w.Mode, want.Rule.Source()
	if !want.Known {
		if applies {
			w.check(s, "transfer of "+s.Name, Needs, want.Why+", which is not known here", clause)
		}
		return
	}
	r := Rule{Source: s.Name, Mode: want.Way, Applies: applies, NeededVA: float64(want.VA), HasVA: 1000 * s.SiteKVA, Why: want.Why, Clause: clause}
	has := "what " + s.Name + " gives here"
	if want.Way != home.Manual {
		r.HasVA, has = 1000*math.Min(s.SiteKVA, s.SiteKW), has+", the lesser of its kVA and its kW"
	}
	r.OK = want.Met(s.SiteKVA, s.SiteKW)
	r.MadeKVA, r.MustBe = mustBe(s, r.NeededVA)
	id := fmt.Sprintf("transfer.%s.%s", s.Name, want.Way)
	w.put(id+".needed_va", r.NeededVA, "VA", r.Why, clause, want.From...)
	w.put(id+".has_va", r.HasVA, "VA", has, "the plan's option")
	w.Rules = append(w.Rules, r)
	if !applies {
		return
	}
	reason := fmt.Sprintf("%s: %s VA and %s W; it gives %s VA and %s W here", r.Why, number(r.NeededVA), number(float64(want.W)), number(r.HasVA), number(1000*s.SiteKW))
	if !r.OK {
		reason += "; it must be " + r.MustBe
	}
	hazard := "automatic-undersized"
	if want.Way == home.Manual { // a plan that carries the house has enough; where it has not, the plan says so
		hazard = ""
	}
	w.verdict(s, r.OK, string(want.Way)+" transfer of "+s.Name, reason, clause, hazard, "")
	w.checkStart(s)
}

// checkStart asks who starts an engine that an automatic switch waits for.
func (w *work) checkStart(s *Source) {
	if w.Mode == home.Manual || !s.Engine || s.Fixed || s.Inverter {
		return
	}
	w.check(s, "start of "+s.Name, Needs, "a switch that moves over by itself waits for a machine that starts by itself; a portable one is brought, plugged in and started by hand", "common practice, no source")
}

// mustBe says what rating a source would need.
func mustBe(s *Source, va float64) (madeKVA float64, words string) {
	kind := "a generator"
	if s.Inverter {
		kind = "an inverter"
	}
	rated := va / 1000 / s.Derate
	text := fmt.Sprintf("%s of %s kVA rated at least", kind, number(rated))
	if s.NextSize == nil {
		return 0, text
	}
	if made := s.NextSize(rated); made > 0 {
		return made, fmt.Sprintf("%s (next made: %s)", text, number(made))
	}
	return 0, text + ", and none is made so large"
}

// tell notes what a source was found to be on its own sheet, by the ids of the findings, as a check of the job sheet.
func (w *work) tell(s *Source, name, source, hazard string, ids ...string) (told bool) {
	for _, f := range s.Findings {
		if !slices.Contains(ids, f.ID) {
			continue
		}
		told = true
		switch {
		case f.Met:
			w.check(s, name, Pass, f.Says, source)
		case f.Outcome == sheet.NotOnSheet, f.Outcome == sheet.HoldsIf:
			w.check(s, name, Needs, f.Says, source)
		default:
			w.verdict(s, false, name, f.Says, source, hazard, "")
		}
	}
	return told
}
