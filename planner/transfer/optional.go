package transfer

import (
	"fmt"

	"holdover/loads/home"
)

// split says whether the service has two lines.
func (w *service) split() bool { return w.home.House.Service == home.SplitPhase }

// connected is what every method counts whole before its steps: the general load and all plates but heating and cooling.
func (w *service) connected(id, source string) float64 {
	all, ids := w.of(classRange, classOven, classCooktop, classDryer, classWaterHeater, classFastened, classMotor, classOther)
	ids = append([]string{"service.general_va"}, ids...)
	return w.va(id, w.lighting+w.kitchen+w.laundry+sum(all), "general load + plates of cooking, dryer, water heater, fastened appliances, motors and others", source, ids...)
}

// addOptional is 220.82, for a dwelling on 120/240 V of 100 A or more.
func (w *service) addOptional() {
	rule := w.rules.Optional
	if !w.split() || (w.home.House.ServiceAmps > 0 && float64(w.home.House.ServiceAmps) < rule.LeastServiceA) {
		return
	}
	connected := w.connected("service.optional_connected_va", rule.Source)
	parts := rule.Parts(connected)
	first := w.va("service.optional_first_va", parts[0], "first 10,000 VA whole", rule.Source, "service.optional_connected_va")
	rest := w.va("service.optional_rest_va", parts[1], "the rest at 40 %", rule.Source, "service.optional_connected_va")
	general := w.va("service.optional_general_va", first+rest, "general loads: the two steps together", rule.Source, "service.optional_first_va", "service.optional_rest_va")
	climate := w.addOptionalClimate()
	va := w.va("service.optional_va", general+climate, "general loads + heating or cooling", rule.Source, "service.optional_general_va", "service.optional_hvac_va")
	w.optionalA = whole(va / w.systemVolts())
	w.put("service.optional_a", w.optionalA, "A", fmt.Sprintf("VA / %.0f V: %.1f A, to the whole ampere", w.systemVolts(), va/w.systemVolts()), w.rules.Rounding.Source, "service.optional_va")
}

// addOptionalClimate is 220.82(C): the largest of its selections.
func (w *service) addOptionalClimate() float64 {
	rule := w.rules.Optional
	coolers, ids := w.of(classCooling)
	pumps, pumpIDs := w.of(classHeatPump)
	extra, extraIDs := w.of(classSupplemental)
	heaters, heatIDs := w.of(classSpaceHeat)
	ids = append(append(append(ids, pumpIDs...), extraIDs...), heatIDs...)

	// A heat pump cools too: on a hot day it runs beside the air conditioners (220.82(C)(1) and (2)).
	best, how := rule.CoolingShare*sum(coolers)+rule.HeatPumpShare*sum(pumps), fmt.Sprintf("air conditioning, heat pump included, at %s", percent(rule.CoolingShare))
	pick := func(va float64, why string) {
		if va > best {
			best, how = va, why
		}
	}
	pump, supplement := rule.HeatPumpShare*sum(pumps), rule.SupplementalShare*sum(extra)
	switch _, together := together(pumps, extra); together {
	case bothOn:
		pick(pump+supplement, fmt.Sprintf("heat pump at %s and supplemental heat at %s", percent(rule.HeatPumpShare), percent(rule.SupplementalShare)))
	default: // 220.82(C)(3): a compressor that is locked out while the supplemental heat is on need not be added to it.
		pick(pump, fmt.Sprintf("heat pump at %s, never together with its supplemental heat", percent(rule.HeatPumpShare)))
		pick(supplement, fmt.Sprintf("supplemental heat at %s, never together with its heat pump", percent(rule.SupplementalShare)))
	}
	share, number := rule.HeatFewShare, controls(heaters)
	if number >= rule.Many {
		share = rule.HeatManyShare
	}
	pick(share*sum(heaters), fmt.Sprintf("space heating at %s, %d separately controlled", percent(share), number))
	return w.va("service.optional_hvac_va", best, "the largest of the selections of (C): "+how, rule.Source, ids...)
}

// controls counts separately controlled heaters; one that does not say is controlled by itself.
func controls(heaters []plate) (number int) {
	for _, p := range heaters {
		number += max(p.Controlled, p.Count)
	}
	return number
}

// addExisting is 220.83, for a dwelling that stands already: (A), or (B) where heating or cooling comes with the job.
func (w *service) addExisting() {
	if !w.split() {
		return
	}
	rule := w.rules.Existing
	connected := w.connected("service.existing_connected_va", rule.Source)
	heating, cooling, ids, added := w.existingClimate()
	climate := max(heating, cooling)
	inSteps := w.va("service.existing_stepped_va", connected+climate, "(A), no heating or cooling is added: all loads, the larger of heating and cooling", rule.Source, append(ids, "service.existing_connected_va")...)
	whole100 := 0.0
	if few := cooling >= heating || w.fewHeaters(); added && few {
		inSteps = w.va("service.existing_stepped_va", connected, "(B), heating or cooling is added: all other loads", rule.Source, "service.existing_connected_va")
		whole100 = climate
	}
	w.va("service.existing_hvac_va", whole100, "(B): heating or cooling counted whole beside the steps", rule.Source, ids...)
	parts := rule.Parts(inSteps)
	va := w.va("service.existing_va", parts[0]+parts[1]+whole100, "first 8,000 VA whole, the rest at 40 %, and what (B) counts whole", rule.Source, "service.existing_stepped_va", "service.existing_hvac_va")
	w.put("service.existing_a", whole(va/w.systemVolts()), "A", fmt.Sprintf("VA / %.0f V: %.1f A, to the whole ampere", w.systemVolts(), va/w.systemVolts()), w.rules.Rounding.Source, "service.existing_va")
}

func (w *service) fewHeaters() bool {
	heaters, _ := w.of(classSpaceHeat)
	return controls(heaters) < w.rules.Existing.Many
}

func (w *service) existingClimate() (heating, cooling float64, ids []string, added bool) {
	coolers, coolIDs := w.of(classCooling, classHeatPump)
	heaters, heatIDs := w.of(classSpaceHeat)
	pumps, _ := w.of(classHeatPump)
	extra, extraIDs := w.of(classSupplemental)
	pumpAndExtra, _ := together(pumps, extra)
	for _, p := range append(append(append([]plate{}, coolers...), heaters...), extra...) {
		added = added || p.Added
	}
	return sum(heaters) + sum(pumpAndExtra), sum(coolers), append(append(coolIDs, heatIDs...), extraIDs...), added
}

// addMeasured is 220.87: the highest demand measured, a quarter more, and what is new.
func (w *service) addMeasured() {
	measured := float64(w.home.House.MeasuredDemand)
	if measured == 0 {
		return
	}
	rule := w.rules.Measured
	added, ids := 0.0, []string{"home.measured_demand"}
	for _, p := range w.plates {
		if p.Added {
			added += p.va()
			if p.class != classLighting && p.class != classReceptacles {
				ids = append(ids, p.id)
			}
		}
	}
	va := w.va("service.measured_va", rule.Share*measured+added, fmt.Sprintf("%s of the demand measured over %s + plates of what is added", percent(rule.Share), w.over()), rule.Source, ids...)
	w.put("service.measured_a", whole(va/w.systemVolts()), "A", fmt.Sprintf("VA / %.0f V, to the whole ampere", w.systemVolts()), w.rules.Rounding.Source, "service.measured_va")
}

func (w *service) over() string {
	if w.home.House.MeasuredOver == "30-days" {
		return "30 days"
	}
	return "a year"
}
