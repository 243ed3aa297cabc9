// Package sheet answers: will this machine do its part of carrying these circuits, here, and if not, why not?
//
// Three things meet. A [Sheet] is what a source gives, by its papers: a size commonly sold, a unit on offer and a thing the house
// owns are the same struct. A [Duty] is what circuits ask of a source in their house and outage. [Duty.Check] holds one against the
// other and returns findings; it alone says whether a machine will do. The choice goes through the sheets whose findings hold, [Of]
// ranks those of what is on offer, and the job sheet installs them, so that none of the three can deny another.
//
// A figure that a sheet does not give is asked for by its name and never taken for granted. The mathematics stands in functions
// that are usable alone: [SteppedDistortion], [FitLaw], [Reserve].
package sheet

import (
	"slices"

	"holdover/loads/home"
	"holdover/profiles"
)

// A Sheet is what one source gives, by its papers.
type Sheet struct {
	home.Gear
	Made   *profiles.Generator // the size commonly sold that it is, of a generator; nil for a unit with papers of its own
	Units  int                 // single units that its energy is in; 0 is one
	Source string              // of the figures of a size commonly sold; empty where they are its maker's
}

// Engine says whether it burns fuel.
func (s Sheet) Engine() bool { return s.Kind == home.Generator }

// Stores says whether it holds energy.
func (s Sheet) Stores() bool {
	return s.Kind == home.UPS || s.Kind == home.PowerStation || s.Kind == home.Battery || s.Kind == home.Set
}

// Bare says whether it is cells without an inverter, which feed no circuit by themselves.
func (s Sheet) Bare() bool { return s.Kind == home.Battery }

// Wired says whether it is built in, and so has a place in the house and what the place allows.
func (s Sheet) Wired() bool {
	return s.Kind == home.Battery || s.Kind == home.Set || s.Kind == home.Inverter
}

// MeetsHouse says whether it can be wired to feed a house by itself: an engine, or an inverter with its battery.
func (s Sheet) MeetsHouse() bool { return s.Engine() || s.Kind == home.Set }

// TwoLegs says whether it gives 120 V on each of two legs. It is not known where the sheet is silent.
func (s Sheet) TwoLegs() (is, known bool) {
	if s.Volts < 200 {
		return false, true
	}
	return s.Legs == 2, s.Has("legs")
}

// An Outcome is what one check comes to.
type Outcome string

// The outcomes.
const (
	Holds      Outcome = "passed"
	HoldsIf    Outcome = "if"     // on a condition, which the finding says
	NotOnSheet Outcome = "asked"  // the sheet does not say
	Fails      Outcome = "failed" // it does not serve
)

// A Finding is one thing a sheet was held to.
type Finding struct {
	ID      string // wave, corrected-supply, volts, hertz, legs, neutral, watts, va, surge, gap, …
	Outcome Outcome
	Says    string   // with its numbers
	Figures []string // ids on the sheet's own figures
	// Met says that it holds as the design stands: nothing is open but what the job sheet has done, or what the circuits bear by
	// the home file's own word.
	Met bool
	// Compared are the amounts that decided it, where it was amounts; only a finding that is read has them.
	Compared *Amounts
}

// Amounts are what a duty wants, head-room included, or the most that it bears, and what a sheet gives here.
type Amounts struct {
	Wants, Gives float64
	Unit         string
}

// A Verdict is what all findings on a sheet come to.
type Verdict string

// The verdicts.
const (
	Fits       Verdict = "fits"
	FitsIf     Verdict = "fits if"
	DoesNotFit Verdict = "does not fit"
)

// VerdictOf is the worst of some findings.
func VerdictOf(findings []Finding) Verdict {
	verdict := Fits
	for _, f := range findings {
		switch {
		case f.Outcome == Fails:
			return DoesNotFit
		case f.Outcome != Holds:
			verdict = FitsIf
		}
	}
	return verdict
}

// AllMet says whether every finding holds as the design stands, so that the sheet may be part of one.
func AllMet(findings []Finding) bool {
	return !slices.ContainsFunc(findings, func(f Finding) bool { return !f.Met })
}

// Said lists what the findings of some outcomes say, in their order.
func Said(findings []Finding, outcomes ...Outcome) (out []string) {
	for _, f := range findings {
		if slices.Contains(outcomes, f.Outcome) {
			out = append(out, f.Says)
		}
	}
	return out
}
