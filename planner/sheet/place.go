package sheet

import (
	"fmt"

	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/profiles"
)

// This file holds a sheet to where it may stand: an engine to its distance from openings, stored energy to the limits of its place.

func (h *holding) checkPlace() {
	switch {
	case h.Engine():
		h.checkClearance()
	case h.Stores() && h.Wired():
		h.checkStorage()
	}
}

// checkClearance holds an engine to a place at all, and to the distance of its exhaust, or of its heat where it is fixed.
func (h *holding) checkClearance() {
	if h.home.Limits.Generator == home.NoGenerator {
		h.say("place", Fails, nil, "There is no place for a generator (limits.generator: none).")
		return
	}
	if !h.home.Given("site.generator_clearance") {
		return
	}
	rule, has := profiles.Transfers().Clearances.Of(h.Stands == home.Fixed), units.Length.In(float64(h.home.Site.Clearance), "ft")
	outcome := Holds
	if has < rule.Feet-1e-9 {
		outcome = Fails
	}
	h.compare(rule.Feet, has, "ft")
	h.say("place", outcome, []string{"site.generator_clearance"}, "It would stand %s from the nearest opening; %s at least %s.",
		feet(has), feet(rule.Feet), rule.Why)
}

// Distance is a length for readers of either system, ft.
func Distance(ft float64) string {
	return fmt.Sprintf("%s ft (%.1f m)", units.Format(ft), units.Length.From(ft, "ft"))
}

// feet is a length that is written when it is read, ft.
type feet float64

func (f feet) String() string { return Distance(float64(f)) }

// checkStorage holds stored energy to the limit of its place and of a single unit.
func (h *holding) checkStorage() {
	if h.home.Limits.BatteryPlace == home.NoPlace {
		h.say("place", Fails, nil, "There is no place for a battery (limits.battery_place: none).")
		return
	}
	outcome := Holds
	most, why := Storage(h.home, float64(h.Energy)/1000/float64(max(1, h.Units)))
	if !most.Allows(float64(h.Energy) / 1000) {
		outcome = Fails
	}
	if most.Ends() {
		h.compare(most.Most(), float64(h.Energy)/1000, "kWh")
	}
	h.say("place", outcome, nil, "It stores %s kWh; %s.", number(float64(h.Energy)/1000), why)
}

// Storage is the most energy that may be stored in units of so many kWh each where a home has its battery, kWh, and why.
func Storage(house *home.Home, unitKWh float64) (kWh units.Limit, why string) {
	rules := profiles.Places()
	if unitKWh > rules.UnitLimitKWh*hair {
		return units.AtMost(0), fmt.Sprintf("its largest unit has %s kWh, of which %s kWh is the most", units.Format(unitKWh), units.Format(rules.UnitLimitKWh))
	}
	place, known := rules.Find(house.Limits.BatteryPlace)
	if !known {
		return units.Limit{}, "nothing says where the battery stands (limits.battery_place)"
	}
	return units.AtMost(place.LimitKWh), fmt.Sprintf("%s may hold %s kWh", place.Title, units.Format(place.LimitKWh))
}

// MostModules is how many modules of the size that a home file assumes its battery's place takes, up to most.
func MostModules(house *home.Home, most int) int {
	if house.Limits.BatteryPlace == home.NoPlace {
		return 0
	}
	module := float64(house.Assume.Module) / 1000
	allowed, _ := Storage(house, module)
	return int(min(float64(most), allowed.Most()/module+1e-9))
}
