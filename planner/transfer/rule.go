package transfer

import (
	"fmt"
	"math"
)

// A Rule says what one source must give under one way of transfer: NEC 702.4.
type Rule struct {
	Source   string  `json:"source"`
	Mode     string  `json:"mode"`
	Applies  bool    `json:"applies"` // this is the way that the home file asks for
	NeededVA float64 `json:"needed_va"`
	HasVA    float64 `json:"has_va"`
	OK       bool    `json:"ok"`
	MustBe   string  `json:"must_be"`  // what the source must then be, in words
	MadeKVA  float64 `json:"made_kva"` // the next rating made that is enough; 0 where none is or none is known
	Why      string  `json:"why"`
	Clause   string  `json:"clause"`
}

// transferClause was read as a trade forum quotes its text; the edition's wording is from memory. The 2023 edition has it as
// 702.4(A).
const transferClause = "NEC 702.4, 2020 edition, from memory"

// addRules holds every source of the plan to each way of transfer. A manual transfer may be sized to the circuits chosen;
// an automatic one carries the whole calculated load, unless load management holds it to what the circuits chosen draw.
func (w *work) addRules() {
	if len(w.demand.Loads) == 0 {
		return
	}
	for i := range w.Sources {
		if w.Sources[i].Offered {
			continue
		}
		for _, mode := range []string{Manual, Automatic, Managed} {
			w.addRule(&w.Sources[i], mode)
		}
		w.checkLegs(&w.Sources[i])
	}
}

// addRule holds a source to one way of transfer: VA to its kVA, and W to its kW.
func (w *work) addRule(s *Source, mode string) {
	r := Rule{Source: s.Name, Mode: mode, Applies: mode == w.Mode, NeededVA: float64(w.demand.Running.VA()), HasVA: 1000 * s.SiteKVA, Clause: transferClause}
	if !w.US {
		r.Clause = localRules
	}
	watts, from, has := float64(w.demand.RunningW), "load.running_va", "what "+s.Name+" gives here"
	switch mode {
	case Automatic:
		if !w.US || !w.Service.Known {
			if r.Applies {
				w.check("transfer of "+s.Name, Needs, "an automatic transfer carries the whole load, which is not known here", r.Clause)
			}
			return
		}
		// Article 220 counts a kVA as a kW, so the source must have both.
		watts, from, has = w.Service.LeastVA, "service.least_va", has+", the lesser of its kVA and its kW"
		r.NeededVA, r.HasVA = w.Service.LeastVA, 1000*math.Min(s.SiteKVA, s.SiteKW)
		r.Why = "the whole calculated load comes on at once"
	case Managed:
		r.Why = "load management keeps the rest off: the most that it lets on together"
	default:
		r.Why = "a person chooses what is on: every kept circuit and the largest that takes turns"
	}
	r.OK = r.NeededVA <= r.HasVA*(1+1e-9) && watts <= 1000*s.SiteKW*(1+1e-9)
	r.MadeKVA, r.MustBe = mustBe(s, r.NeededVA)
	id := fmt.Sprintf("transfer.%s.%s", s.Name, mode)
	w.va(id+".needed_va", r.NeededVA, r.Why, r.Clause, from)
	w.va(id+".has_va", r.HasVA, has, "the plan's option")
	w.Rules = append(w.Rules, r)
	if r.Applies {
		w.verdict(r.OK, mode+" transfer of "+s.Name, fmt.Sprintf("%s: %s VA and %s W; it gives %s VA and %s W here%s", r.Why, number(r.NeededVA), number(watts),
			number(r.HasVA), number(1000*s.SiteKW), shortOf(r)), r.Clause, undersized(mode))
		w.checkStart(s, mode)
	}
}

// checkStart asks who starts an engine that an automatic switch waits for.
func (w *work) checkStart(s *Source, mode string) {
	if mode == Manual || !s.Engine || s.Fixed || s.Inverter {
		return
	}
	w.check("start of "+s.Name, Needs, "a switch that moves over by itself waits for a machine that starts by itself; a portable one is brought, plugged in and started by hand", "common practice, no source")
}

func undersized(mode string) string {
	if mode == Automatic {
		return "automatic-undersized"
	}
	return "" // a plan that carries the house has enough; where it has not, the plan says so
}

func shortOf(r Rule) string {
	if r.OK {
		return ""
	}
	return "; it must be " + r.MustBe
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

// checkLegs holds a source of two legs to its heavier one: each carries half of the rating.
func (w *work) checkLegs(s *Source) {
	if s.Legs != 2 {
		return
	}
	half, heaviest := 500*s.SiteKVA, float64(w.demand.Legs.Heaviest)
	w.verdict(heaviest <= half*(1+1e-9), "legs of "+s.Name, fmt.Sprintf("the heavier leg draws %s VA; each half of the source gives %s VA", number(heaviest), number(half)),
		"physics: each leg of a centre-tapped source carries its own half", "legs-unbalanced")
}
