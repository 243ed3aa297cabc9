package transfer

import (
	"fmt"

	"holdover/loads/units"
	"holdover/profiles"
)

// This file says where things may stand: stored energy by place, an engine by its distance, fuel by its amount.

func (w *work) addPlaces() {
	var engine, portable bool
	for i := range w.Sources {
		s := &w.Sources[i]
		if s.Offered && !w.sheet(s).Owned {
			continue
		}
		engine = engine || s.Engine
		portable = portable || (s.Engine && !s.Fixed)
		if s.StoredKWh > 0 {
			w.checkStorage(s)
		}
	}
	if engine {
		w.hazards["carbon-monoxide"] = true
		w.hazards["quiet-hours"] = w.home.Limits.Quiet.Any()
		w.checkClearance(portable)
	}
	w.checkFuel()
}

// checkStorage holds the energy to the limit of its place and of a single unit.
func (w *work) checkStorage(s *Source) {
	rules, name := profiles.Places(), "stored energy of "+s.Name
	source := profiles.Transfers().Clearances.StorageSource
	unit := fmt.Sprintf("%s kWh in the largest unit, of which %s kWh is the most", number(s.UnitKWh), number(rules.UnitLimitKWh))
	place, known := rules.Find(w.home.Limits.BatteryPlace)
	switch unitOK := s.UnitKWh <= rules.UnitLimitKWh; {
	case known:
		w.verdict(unitOK && s.StoredKWh <= place.LimitKWh, name, fmt.Sprintf("%s kWh in %s, which may hold %s kWh; %s", number(s.StoredKWh), place.Title, number(place.LimitKWh), unit), source, "storage-beyond-place")
	case !unitOK:
		w.verdict(false, name, unit, source, "storage-beyond-place")
	default:
		w.check(name, Needs, "limits.battery_place does not say where the battery stands; the limit depends on it", source)
	}
}

// checkClearance holds a portable engine to the distance of its exhaust and a fixed one to that of its heat.
func (w *work) checkClearance(portable bool) {
	c := profiles.Transfers().Clearances
	least, source, why := c.FixedFt, c.FixedSource, "for a fixed machine; 20 ft, as advised for portable ones, is better"
	if portable {
		least, source, why = c.ExhaustFt, c.ExhaustSource, "for its exhaust"
	}
	if !w.home.Given("site.generator_clearance") {
		w.check("generator's distance", Needs, fmt.Sprintf("site.generator_clearance is missing; %s from every door, window and vent at least %s", distance(least), why), source)
		return
	}
	has := feet(w.home.Site.Clearance)
	w.verdict(has >= least-1e-9, "generator's distance", fmt.Sprintf("%s from the nearest opening; %s at least %s", distance(has), distance(least), why), source, "generator-too-close")
}

// distance is a length for readers of either system.
func distance(ft float64) string {
	return fmt.Sprintf("%s ft (%.1f m)", number(ft), units.Length.From(ft, "ft"))
}

// checkFuel holds the fuel kept to what a dwelling usually may keep of the stored fuels that are to be burnt here.
func (w *work) checkFuel() {
	kept := w.home.Limits.FuelStore
	if kept.None() || !kept.Ends() {
		return
	}
	store := kept.Most()
	seen := map[profiles.FuelName]bool{}
	for i := range w.Sources {
		fuel, ok := profiles.FindFuel(w.Sources[i].Fuel)
		if !ok || seen[fuel.Name] || !fuel.Stored {
			continue
		}
		seen[fuel.Name] = true
		w.verdict(store <= fuel.StoreLimitL*1.001, "store of "+string(fuel.Name), fmt.Sprintf("%s gal of %s kept; about %s gal is the usual limit for a dwelling", number(units.Volume.In(store, "gal")), fuel.Name, number(units.Volume.In(fuel.StoreLimitL, "gal"))),
			"common practice, no source; local fire codes differ", "fuel-store-limit")
	}
}
