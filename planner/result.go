package planner

import (
	"slices"

	"holdover/loads"
	"holdover/loads/home"
	"holdover/planner/choose"
	"holdover/planner/derive"
	"holdover/planner/outage"
	"holdover/planner/sheet"
	"holdover/planner/site"
	"holdover/planner/waiting"
)

// Kind is one way to carry a house through an outage.
type Kind = choose.Kind

// The kinds of option, and None for a house that nothing carries within its limits (or that needs nothing).
const (
	Battery   = choose.Battery
	Generator = choose.Generator
	Hybrid    = choose.Hybrid
	None      = choose.None
)

// A Result is the verdict on one home, as far as it was wanted.
type Result struct {
	Home     *home.Home
	Has      Want // what is worked out; all else is zero
	Demand   loads.Demand
	Rating   site.Rating // what the site does to machines
	Choice   Kind
	Carried  bool     // the chosen option carries the house; with Choice None: nothing needs carrying
	Reasons  []string // why this choice, in plain words, the weightiest first
	Sheet    *derive.Figures
	Options  []Option // battery, generator, hybrid, in this order
	Cautions []Caution
	Legs     loads.LegSplit    // how the circuits lie on the legs: as suits the design chosen, else as evenly as can be
	Turns    waiting.Timetable // of the circuits that take turns; with Choice
	Outlook  Outlook
	Chance   Chance

	duty *sheet.Duty
	c    *choose.Case // without a meter
}

// copied is the same plan, of which more can be worked out without a change to this one.
func (r *Result) copied() *Result {
	out := *r
	out.Options, out.Reasons = slices.Clone(r.Options), slices.Clone(r.Reasons)
	out.Sheet = &derive.Figures{}
	for i := range out.Options {
		out.Options[i].Sheet = &derive.Figures{}
	}
	return &out
}

// An Option is one way worked out: what it takes, whether it carries the house within its limits, and if not, each why.
type Option struct {
	Kind        Kind
	Carried     bool
	FellShortAt *float64 // hours after the start, nil when it never did
	WhyNot      []string // each limit it breaks; empty when it is open to choose
	Cost        float64  // present cost over the planning years, in the currency of the price bands
	Sheet       *derive.Figures
	BatteryKWh  float64        // nameplate of its modules
	Outcome     choose.Outcome // the design itself and how its run went; whether it is proven the cheapest of its kind
	Trace       []outage.Step  // its run, stretch by stretch, from the hardest start
}

// Open says whether the option may be chosen.
func (o Option) Open() bool { return o.Carried && len(o.WhyNot) == 0 }

// A Caution is one warning that belongs to this home.
type Caution struct {
	ID     string `json:"id"`
	Word   string `json:"word"` // DANGER, WARNING, CAUTION or NOTICE, as ANSI Z535 uses them
	Text   string `json:"text"`
	Source string `json:"source"`
}

// Option finds the option of a kind.
func (r *Result) Option(kind Kind) (Option, bool) {
	for _, o := range r.Options {
		if o.Kind == kind {
			return o, true
		}
	}
	return Option{}, false
}
