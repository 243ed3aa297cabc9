// Package fit answers: will this unit, by its spec sheet, serve these circuits, and if not, why not?
//
// [Of] is the one call: it holds every unit to the kept circuits of a home, or to one of them, and ranks those that fit. Each
// check has its number on the unit's own sheet. A figure that the sheet does not give is asked for by its name and never taken
// for granted: with a question open a unit at best fits if the answer is good. The mathematics stands in functions that are
// usable alone: [SteppedDistortion], [FitLaw], [Reserve].
package fit

import (
	"fmt"
	"slices"
	"strings"

	"holdover/loads"
	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/planner/site"
	"holdover/planner/working"
)

// A Verdict is what a unit comes to.
type Verdict string

// The verdicts.
const (
	Fits       Verdict = "fits"
	FitsIf     Verdict = "fits if"
	DoesNotFit Verdict = "does not fit"
)

// An Outcome is what one check comes to.
type Outcome string

// The outcomes.
const (
	Passed      Outcome = "passed"
	Conditional Outcome = "if"     // it serves on a condition, which the check says
	Asked       Outcome = "asked"  // the sheet does not say
	Failed      Outcome = "failed" // it does not serve
)

// A Check is one thing a unit was held to.
type Check struct {
	ID      string // wave, corrected-supply, volts, hertz, legs, neutral, watts, va, surge, gap, …
	Outcome Outcome
	Says    string   // with its numbers
	Figures []string // ids on the unit's sheet
}

// A Unit is one spec sheet checked.
type Unit struct {
	Gear    home.Gear
	Verdict Verdict
	Checks  []Check
	Sheet   *working.Sheet
	Price   float64     // in all, in the currency of the price bands; see Priced
	Priced  bool        // the sheet has a price
	Runtime units.Hours // what it lasts, for a unit with something stored; see Stored
	Spare   units.Hours // Runtime less the outage
	Stored  bool
}

// Says lists what the checks of some outcomes say, in their order.
func (u Unit) Says(outcomes ...Outcome) []string {
	var out []string
	for _, c := range u.Checks {
		if slices.Contains(outcomes, c.Outcome) {
			out = append(out, c.Says)
		}
	}
	return out
}

// A Pair is a generator that would feed a ups.
type Pair struct {
	Generator, UPS string
	Verdict        Verdict
	Checks         []Check
	Sheet          *working.Sheet
}

// A Request says what the units are to serve.
type Request struct {
	Circuit string      // its name; empty for every kept circuit
	Length  units.Hours // 0: the home's outage
}

// A Report is every unit checked.
type Report struct {
	Circuits []string // what they are to serve
	Length   units.Hours
	Demand   loads.Demand // of these circuits alone
	Units    []Unit       // what fits first, by price and then by spare runtime
	Pairs    []Pair
}

// Any says whether a unit fits.
func (r Report) Any() bool {
	return slices.ContainsFunc(r.Units, func(u Unit) bool { return u.Verdict == Fits })
}

// Of checks the gear of a home. The error says that there is nothing to check, or nothing to serve.
func Of(house *home.Home, q Request) (Report, error) {
	alone, names, err := Only(house, q.Circuit)
	if err != nil {
		return Report{}, err
	}
	if len(house.Gear) == 0 {
		return Report{}, fmt.Errorf("there is no unit to check; list spec sheets under gear")
	}
	if q.Length > 0 {
		alone.Outage.Length = q.Length
	}
	r := Report{Circuits: names, Length: alone.Outage.Length, Demand: loads.Work(alone)}
	rating := site.Rate(alone)
	for _, gear := range house.Gear {
		s := &subject{Gear: gear, home: alone, demand: &r.Demand, rating: rating, sheet: &working.Sheet{}}
		r.Units = append(r.Units, s.check())
	}
	rank(r.Units)
	r.Pairs = pairs(house.Gear, rating)
	return r, nil
}

// Only is a home in which one circuit is kept and the rest are shed, or, without a name, in which the kept ones stay and the
// rest are shed; names lists those that stay.
func Only(house *home.Home, circuit string) (alone *home.Home, names []string, err error) {
	at := -1
	if circuit != "" {
		if at = find(house, circuit); at < 0 {
			return nil, nil, fmt.Errorf("no circuit is called %q; there are %s", circuit, circuitNames(house))
		}
	}
	changed := *house
	changed.Circuits = slices.Clone(house.Circuits)
	for i := range changed.Circuits {
		c := &changed.Circuits[i]
		switch {
		case i == at, at < 0 && c.Care == home.Keep:
			c.Care = home.Keep
			names = append(names, c.Name)
		default:
			c.Care = home.Shed
		}
	}
	if len(names) == 0 {
		return nil, nil, fmt.Errorf("no circuit is kept; name the one to serve")
	}
	return &changed, names, nil
}

// find looks for a circuit by its name, then by its profile's.
func find(house *home.Home, name string) int {
	at := slices.IndexFunc(house.Circuits, func(c home.Circuit) bool { return strings.EqualFold(c.Name, name) })
	if at < 0 {
		at = slices.IndexFunc(house.Circuits, func(c home.Circuit) bool { return c.Like == name })
	}
	return at
}

func circuitNames(house *home.Home) string {
	var names []string
	for _, c := range house.Circuits {
		names = append(names, c.Name)
	}
	return working.Names(names, 12)
}
