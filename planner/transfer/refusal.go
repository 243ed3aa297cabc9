package transfer

import (
	"strings"

	"holdover/loads/home"
)

// This file says no to a single 120 V source that would feed 240 V circuits or shared neutrals. Physics: both halves of a
// multiwire circuit are then in step, so their neutral carries the sum of their currents, not the difference.

const singleSupply = "NEC 710.15(C), 2020 edition, from memory"

// singleLeg says whether a source has one leg where the circuits lie on two, or are wired as if they did.
func (s Source) singleLeg() bool { return s.Legs < 2 }

func (w *work) refuse() {
	if w.home.House.Service == home.Only230 {
		return
	}
	tall, pairs := w.tallCircuits(), w.sharedPairs()
	for i := range w.Sources {
		s := &w.Sources[i]
		if !s.singleLeg() || w.sheet(s).Kind == "battery" { // cells alone feed no circuit
			continue
		}
		var why []string
		if len(tall) > 0 {
			why = append(why, "these need 240 V: "+names(tall, 4))
			w.blame("two-pole-on-120", s)
		}
		if len(pairs) > 0 {
			why = append(why, "these share a neutral, which would carry the sum of both currents: "+names(pairs, 4))
			w.blame("shared-neutral-120", s)
		}
		if len(why) == 0 {
			continue
		}
		w.Refusals = append(w.Refusals, Refusal{s.Name, w.legWords(s) + ", and " + strings.Join(why, "; "), singleSupply})
		if s == w.Source {
			w.check("source", Fail, s.Name+" is refused for these circuits: what follows must not be built until that is mended", singleSupply)
		}
	}
}

// legWords says what a source of one leg gives. Where its sheet has no volts, the safe side is taken.
func (w *work) legWords(s *Source) string {
	if s.Offered && w.sheet(s).Volts == 0 {
		return "its sheet gives no volts, so it is taken for one that gives 120 V on one leg"
	}
	return "it gives 120 V on one leg"
}

// sheet is the unit under gear that a source is, empty for an option of the plan.
func (w *work) sheet(s *Source) home.Gear {
	for _, g := range w.home.Gear {
		if s.Offered && g.Name == s.Name {
			return g
		}
	}
	return home.Gear{}
}

// tallCircuits are the carried circuits of 240 V.
func (w *work) tallCircuits() (out []string) {
	for i := range w.demand.Loads {
		if l := &w.demand.Loads[i]; l.Volts > 130 {
			out = append(out, l.Name)
		}
	}
	return out
}

// sharedPairs are the multiwire pairs of which a half at least is carried: the halves of a pair move together (NEC
// 210.4(B)), so that one half brings the other.
func (w *work) sharedPairs() (out []string) {
	carried := map[string]bool{}
	for i := range w.demand.Loads {
		carried[w.demand.Loads[i].Name] = true
	}
	seen := map[string]bool{}
	for i := range w.home.Circuits {
		c := &w.home.Circuits[i]
		if c.SharesWith == "" || seen[c.Name] || !(carried[c.Name] || carried[c.SharesWith]) {
			continue
		}
		seen[c.Name], seen[c.SharesWith] = true, true
		out = append(out, c.Name+" with "+c.SharesWith)
	}
	return out
}
