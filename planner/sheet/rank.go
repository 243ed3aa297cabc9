package sheet

import (
	"cmp"
	"fmt"
	"slices"

	"holdover/loads"
	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/planner/derive"
)

// A Unit is one unit of gear held to a duty.
type Unit struct {
	Gear    home.Gear
	Part    Part
	Verdict Verdict
	Checks  []Finding
	Sheet   *derive.Figures
	Price   float64     // in all, in the currency of the price bands; see Priced
	Priced  bool        // the sheet has a price
	Runtime units.Hours // what it lasts, for a unit with something stored; see Stored
	Spare   units.Hours // Runtime less the outage
	Stored  bool
}

// Says lists what the findings of some outcomes say, in their order.
func (u Unit) Says(outcomes ...Outcome) []string { return Said(u.Checks, outcomes...) }

// Unit holds one unit of gear to a duty, to carry its circuits.
func (d *Duty) Unit(gear home.Gear) Unit {
	h := d.held(Sheet{Gear: gear}, Place{Part: House}, derive.Over(d.written()))
	h.checkPrice()
	u := Unit{Gear: gear, Part: House, Verdict: VerdictOf(h.findings), Checks: h.findings, Sheet: h.figures, Price: h.total, Priced: h.hasPrice}
	if h.reserve != nil {
		u.Stored, u.Runtime, u.Spare = true, h.reserve.runtime, h.reserve.runtime-d.Home.Outage.Length
	}
	return u
}

// A Request says what the units are to serve.
type Request struct {
	Circuit string      // its name; empty for all that is kept or takes turns
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

// Of checks the gear of a home and ranks it. The error says that there is nothing to check, or nothing to serve.
func Of(house *home.Home, q Request) (Report, error) {
	if q.Length > 0 {
		changed := *house
		changed.Outage.Length = q.Length
		house = &changed
	}
	d := (*Duty)(nil)
	if q.Circuit == "" {
		d = NewDuty(house)
	} else {
		alone, err := Alone(house, q.Circuit)
		if err != nil {
			return Report{}, err
		}
		d = alone
	}
	return d.Rank(house.Gear)
}

// Rank checks units and ranks them. The error says that there is nothing to check, or nothing to serve.
func (d *Duty) Rank(gear []home.Gear) (Report, error) {
	switch {
	case len(d.Circuits) == 0:
		return Report{}, fmt.Errorf("no circuit is kept; name the one to serve")
	case len(gear) == 0:
		return Report{}, fmt.Errorf("there is no unit to check; list spec sheets under gear")
	}
	r := Report{Circuits: d.Circuits, Length: d.Home.Outage.Length, Demand: d.Demand}
	for _, g := range gear {
		r.Units = append(r.Units, d.Unit(g))
	}
	rank(r.Units)
	r.Pairs = d.pairs(gear)
	return r, nil
}

// rank puts what fits first, then what fits if, then the rest; within each by price, those without one last, and at one price
// by spare runtime, a unit that has no end of it first. What does not fit keeps its order.
func rank(all []Unit) {
	order := []Verdict{Fits, FitsIf, DoesNotFit}
	slices.SortStableFunc(all, func(a, b Unit) int {
		if by := cmp.Compare(slices.Index(order, a.Verdict), slices.Index(order, b.Verdict)); by != 0 || a.Verdict == DoesNotFit {
			return by
		}
		if a.Priced != b.Priced {
			return map[bool]int{true: -1, false: 1}[a.Priced]
		}
		if by := cmp.Compare(a.Price, b.Price); by != 0 && a.Priced {
			return by
		}
		return -cmp.Compare(a.spare(), b.spare())
	})
}

func (u Unit) spare() float64 {
	if !u.Stored {
		return float64(longest)
	}
	return float64(u.Spare)
}
