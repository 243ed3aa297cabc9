package install

import (
	"strings"

	"holdover/planner/service"
	"holdover/planner/working"
)

// This file says no to a single 120 V source that would feed 240 V circuits or shared neutrals. Physics: both halves of a
// multiwire circuit are then in step, so their neutral carries the sum of their currents, not the difference.

// singleLeg says whether a source has one leg where the circuits lie on two, or are wired as if they did.
func (s Source) singleLeg() bool { return s.Legs < 2 }

func (w *work) refuse() {
	if !w.Code.Detailed {
		return
	}
	rule := w.Code.Rule("single-supply")
	tall, pairs := w.tallCircuits(w.carried()), w.sharedPairs(w.carried())
	for i := range w.Sources {
		s := &w.Sources[i]
		if !s.singleLeg() || s.Cells {
			continue
		}
		var why []string
		if len(tall) > 0 {
			why = append(why, service.Say(rule.Phrase("tall"), "names", working.Names(tall, 4)))
			w.blame("two-pole-on-120", s)
		}
		if len(pairs) > 0 {
			why = append(why, service.Say(rule.Phrase("halves"), "names", working.Names(pairs, 4)))
			w.blame("shared-neutral-120", s)
		}
		if len(why) == 0 {
			continue
		}
		gives := "it gives 120 V on one leg"
		if s.Untold { // the safe side
			gives = "its sheet gives no volts, so it is taken for one that gives 120 V on one leg"
		}
		w.Refusals = append(w.Refusals, Refusal{s.Name, gives + ", and " + strings.Join(why, "; "), rule.Source()})
		if s == w.Source {
			w.check(s, "source", Fail, s.Name+" is refused for these circuits: what follows must not be built until that is mended", rule.Source())
		}
	}
}

// A namesSet holds names of circuits; nil holds all of them.
type namesSet map[string]bool

func (n namesSet) has(name string) bool { return n == nil || n[name] }

// carried are the circuits that get supply.
func (w *work) carried() namesSet {
	names := namesSet{}
	for i := range w.demand.Loads {
		names[w.demand.Loads[i].Name] = true
	}
	return names
}

// tallCircuits are those of some circuits that are of 240 V.
func (w *work) tallCircuits(of namesSet) (out []string) {
	for i := range w.home.Circuits {
		if c := &w.home.Circuits[i]; of.has(c.Name) && c.Volts > 130 {
			out = append(out, c.Name)
		}
	}
	return out
}

// sharedPairs are the multiwire pairs of which a half at least is among some circuits: the halves of a pair move together, so that
// one half brings the other.
func (w *work) sharedPairs(of namesSet) (out []string) {
	seen := map[string]bool{}
	for i := range w.home.Circuits {
		c := &w.home.Circuits[i]
		if c.SharesWith == "" || seen[c.Name] || !(of.has(c.Name) || of.has(c.SharesWith)) {
			continue
		}
		seen[c.Name], seen[c.SharesWith] = true, true
		out = append(out, c.Name+" with "+c.SharesWith)
	}
	return out
}
