package install

import (
	"strings"

	"holdover/planner/derive"
	"holdover/planner/service"
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
	tall, pairs := w.bothLegs(false)
	for i := range w.Sources {
		s := &w.Sources[i]
		if !s.singleLeg() || s.Cells {
			continue
		}
		var why []string
		if len(tall) > 0 {
			why = append(why, service.Say(rule.Phrase("tall"), "names", derive.Names(tall, 4)))
			w.blame("two-pole-on-120", s)
		}
		if len(pairs) > 0 {
			why = append(why, service.Say(rule.Phrase("halves"), "names", derive.Names(pairs, 4)))
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

// bothLegs lists the circuits of 240 V and the multiwire pairs: of the carried circuits, or of every one in the panel. The halves of a pair move together, so that one half brings the other.
func (w *work) bothLegs(every bool) (tall, pairs []string) {
	seen := map[string]bool{}
	backed := map[string]bool{}
	for _, row := range w.Panel {
		backed[row.Circuit] = row.Backed || every
	}
	for _, row := range w.Panel {
		if row.Poles == 2 && backed[row.Circuit] {
			tall = append(tall, row.Circuit)
		}
		if other := row.SharesWith; other != "" && !seen[row.Circuit] && (backed[row.Circuit] || backed[other]) {
			seen[other] = true
			pairs = append(pairs, row.Circuit+" with "+other)
		}
	}
	return tall, pairs
}
