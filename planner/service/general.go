package service

import (
	"fmt"
	"math"

	"holdover/loads/units"
)

// This file counts what a dwelling has by its area and its circuits, whatever hangs on them: lighting, receptacles, the
// kitchen's and the laundry's circuits.

// addGeneral writes the general load, connected and after its demand factors.
func (w *calculation) addGeneral() {
	areaFt2 := units.Area.In(float64(w.home.House.FloorArea), "ft2")
	unit := w.code.Rule("unit-load")
	w.lighting = w.va(unit, "service.general_lighting_va", unit.Value("va_per_ft2")*areaFt2, Say(unit, "ft2", areaFt2), "home.floor_area")
	w.addBranches()
	own := w.code.Rule("own-circuits")
	circuits := func(id string, number int, key string) float64 {
		return w.va(own, id, own.Value("va_each")*float64(number), Say(own, "number", number), key)
	}
	w.kitchen = circuits("service.small_appliance_va", w.home.House.SmallAppliances, "home.small_appliance_circuits")
	w.laundry = circuits("service.laundry_va", w.home.House.Laundry, "home.laundry_circuits")
	general := w.code.Rule("general")
	w.va(general, "service.general_va", w.lighting+w.kitchen+w.laundry, Say(general), "service.general_lighting_va", "service.small_appliance_va", "service.laundry_va")
	va, ids, words := w.inSteps(general, "service.general_", "service.general_va")
	w.general = w.va(general, "service.general_demand_va", va, words, ids...)
}

// addBranches says how many lighting circuits the area asks for at least.
func (w *calculation) addBranches() {
	rule := w.code.Rule("lighting-branches")
	amps := w.put(rule, "service.lighting_a", w.lighting/120, "A", Say(rule), "service.general_lighting_va")
	for _, rating := range rule.List {
		w.put(rule, fmt.Sprintf("service.lighting_circuits_%.0fa", rating), math.Ceil(amps/rating-1e-9), "circuits",
			fmt.Sprintf("whole circuits of %.0f A that carry it", rating), "service.lighting_a")
	}
}
