package install

import (
	"fmt"

	"holdover/loads/units"
	"holdover/planner/sheet"
	"holdover/profiles"
)

// This file says where things may stand: stored energy by place, an engine by its distance, fuel by its amount.

func (w *work) addPlaces() {
	c := profiles.Transfers().Clearances
	var engine, portable bool
	for i := range w.Sources {
		s := &w.Sources[i]
		if s.Offered && !s.Owned {
			continue
		}
		engine = engine || s.Engine
		portable = portable || (s.Engine && !s.Fixed)
		name, source, hazard := "stored energy of "+s.Name, c.StorageSource, "storage-beyond-place"
		if s.Engine {
			name, source, hazard = "distance of "+s.Name, c.Of(s.Fixed).Source, "generator-too-close"
		}
		w.tell(s, name, source, hazard, "place")
		if s.StoredKWh > 0 && w.home.Limits.BatteryPlace == "" {
			w.check(s, name, Needs, "limits.battery_place does not say where the battery stands; the limit depends on it", source)
		}
	}
	if engine {
		w.hazards["carbon-monoxide"] = true
		w.hazards["quiet-hours"] = w.home.Limits.Quiet.Any()
	}
	if rule := c.Of(!portable); engine && !w.home.Given("site.generator_clearance") {
		w.check(nil, "generator's distance", Needs, fmt.Sprintf("site.generator_clearance is missing; %s from every door, window and vent at least %s", sheet.Distance(rule.Feet), rule.Why), rule.Source)
	}
	w.checkFuel()
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
		w.verdict(nil, store <= fuel.StoreLimitL*1.001, "store of "+string(fuel.Name), fmt.Sprintf("%s gal of %s kept; about %s gal is the usual limit for a dwelling", number(units.Volume.In(store, "gal")), fuel.Name, number(units.Volume.In(fuel.StoreLimitL, "gal"))),
			"common practice, no source; local fire codes differ", "fuel-store-limit", "")
	}
}
