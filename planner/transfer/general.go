package transfer

import (
	"fmt"
	"math"

	"holdover/loads/units"
)

// This file counts what a dwelling has by its area and its circuits, whatever hangs on them: lighting, receptacles, the
// kitchen's and the laundry's circuits.

// addGeneral writes the general load, connected and after its demand factors.
func (w *service) addGeneral() {
	r := w.rules
	w.areaFt2 = units.Area.In(float64(w.home.House.FloorArea), "ft2")
	w.lighting = w.va("service.general_lighting_va", r.UnitLoad.VAPerFt2*w.areaFt2,
		fmt.Sprintf("%s VA/ft² · %s ft²; receptacles of general use are in it", number(r.UnitLoad.VAPerFt2), number(w.areaFt2)), r.UnitLoad.Source, "home.floor_area")
	w.addBranches()
	w.kitchen = w.va("service.small_appliance_va", r.Circuits.VAEach*float64(w.home.House.SmallAppliances),
		fmt.Sprintf("%d circuits · %s VA", w.home.House.SmallAppliances, number(r.Circuits.VAEach)), r.Circuits.Source, "home.small_appliance_circuits")
	w.laundry = w.va("service.laundry_va", r.Circuits.VAEach*float64(w.home.House.Laundry),
		fmt.Sprintf("%d circuits · %s VA", w.home.House.Laundry, number(r.Circuits.VAEach)), r.Circuits.Source, "home.laundry_circuits")
	connected := w.va("service.general_va", w.lighting+w.kitchen+w.laundry, "lighting and receptacles + small appliances + laundry", r.General.Source,
		"service.general_lighting_va", "service.small_appliance_va", "service.laundry_va")
	sum := 0.0
	parts := r.General.Parts(connected)
	ids := []string{"service.general_first_va", "service.general_rest_va", "service.general_above_va"}
	for i, id := range ids {
		sum += w.va(id, parts[i], fmt.Sprintf("step %d of the demand factors: %s of its part", i+1, percent(r.General.Steps[i].Share)), r.General.Source, "service.general_va")
	}
	w.general = w.va("service.general_demand_va", sum, "first 3,000 VA whole, to 120,000 VA at 35 %, the rest at 25 %", r.General.Source, ids...)
}

// addBranches says how many lighting circuits the area asks for at least.
func (w *service) addBranches() {
	const source = "NEC 210.11(A) and (B), 2020 edition, from memory"
	amps := w.put("service.lighting_a", w.lighting/120, "A", "general lighting VA / 120 V", source, "service.general_lighting_va")
	for _, rating := range []float64{15, 20} {
		w.put(fmt.Sprintf("service.lighting_circuits_%.0fa", rating), math.Ceil(amps/rating-1e-9), "circuits",
			fmt.Sprintf("whole circuits of %.0f A that carry it", rating), source, "service.lighting_a")
	}
}
