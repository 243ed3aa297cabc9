package service

import (
	"fmt"
	"math"
	"slices"

	"holdover/loads/home"
	"holdover/planner/derive"
	"holdover/profiles"
)

// This file is the other methods that a dwelling may be reckoned by, and the lowest of all. An edition may lack one.

// connected is what every method counts whole before its steps: the general load and all plates but heating and cooling.
func (w *calculation) connected(rule profiles.Rule, id string) float64 {
	all, ids := w.of(classRange, classOven, classCooktop, classDryer, classWaterHeater, classFastened, classMotor, classOther, classVehicle)
	ids = append([]string{"service.general_va"}, ids...)
	return w.va(rule, id, w.lighting+w.kitchen+w.laundry+sum(all), "general load + plates of cooking, dryer, water heater, fastened appliances, motors and others", ids...)
}

// amps writes the current of a method's load to the whole ampere.
func (w *calculation) amps(id, of string) {
	amps := w.Value(of) / SystemVolts(w.home)
	w.put(w.code.Rule("rounding"), id, whole(amps), "A", fmt.Sprintf("VA / %.0f V: %.1f A, to the whole ampere", SystemVolts(w.home), amps), of)
}

// addOptional is the optional method, for a dwelling on 120/240 V with a service that is large enough.
func (w *calculation) addOptional() {
	rule := w.code.Rule("optional-method")
	rating := float64(w.home.House.ServiceAmps)
	if rule.None || !w.split() || (rating > 0 && rating < rule.Value("least_service_a")) {
		return
	}
	w.connected(rule, "service.optional_connected_va")
	va, ids, words := w.inSteps(rule, "service.optional_", "service.optional_connected_va")
	general := w.va(rule, "service.optional_general_va", va, "general loads: "+words, ids...)
	climate := w.addOptionalClimate(rule)
	w.va(rule, "service.optional_va", general+climate, "general loads + heating or cooling", "service.optional_general_va", "service.optional_hvac_va")
	w.amps("service.optional_a", "service.optional_va")
}

// addOptionalClimate takes the largest of the rule's selections of heating and cooling.
func (w *calculation) addOptionalClimate(rule profiles.Rule) float64 {
	coolers, ids := w.of(classCooling)
	pumps, pumpIDs := w.of(classHeatPump)
	extra, extraIDs := w.of(classSupplemental)
	heaters, heatIDs := w.of(classSpaceHeat)

	// A heat pump cools too: on a hot day it runs beside the air conditioners.
	best, how := rule.Value("cooling_share")*sum(coolers)+rule.Value("heat_pump_share")*sum(pumps), Say(rule.Phrase("cooling"))
	pick := func(va float64, phrase string, with ...any) {
		if va > best {
			best, how = va, Say(rule.Phrase(phrase), with...)
		}
	}
	pump, supplement := rule.Value("heat_pump_share")*sum(pumps), rule.Value("supplemental_share")*sum(extra)
	if _, together := together(pumps, extra); together == bothOn {
		pick(pump+supplement, "both")
	} else { // a compressor that is locked out while the supplemental heat is on need not be added to it
		pick(pump, "pump")
		pick(supplement, "supplemental")
	}
	share, number := rule.Value("heat_few_share"), 0
	for _, p := range heaters {
		number += p.controls()
	}
	if number >= int(rule.Value("many")) {
		share = rule.Value("heat_many_share")
	}
	pick(share*sum(heaters), "heating", "share", share, "number", number)
	return w.va(rule, "service.optional_hvac_va", best, Say(rule.Phrase("climate"), "how", how), slices.Concat(ids, pumpIDs, extraIDs, heatIDs)...)
}

// addExisting is for a dwelling that stands already; another way where heating or cooling comes with the job.
func (w *calculation) addExisting() {
	rule := w.code.Rule("existing-method")
	if rule.None || !w.split() {
		return
	}
	w.connected(rule, "service.existing_connected_va")
	ids := []string{"service.heating_va", "service.cooling_va"}
	heating, cooling := w.Value(ids[0]), w.Value(ids[1])
	climate, heaters, added := max(heating, cooling), 0, false
	all, _ := w.of(classSpaceHeat, classSupplemental, classCooling, classHeatPump)
	for _, p := range all {
		added = added || p.Added
		if p.class == classSpaceHeat {
			heaters += p.controls()
		}
	}
	stepped, beside, phrase, from := w.Value("service.existing_connected_va")+climate, 0.0, "same", append(ids, "service.existing_connected_va")
	if few := heaters < int(rule.Value("many")); added && (cooling >= heating || few) {
		stepped, beside, phrase, from = stepped-climate, climate, "more", []string{"service.existing_connected_va"}
	}
	w.va(rule, "service.existing_stepped_va", stepped, Say(rule.Phrase(phrase)), from...)
	w.va(rule, "service.existing_hvac_va", beside, Say(rule.Phrase("whole")), ids...)
	va, parts, words := w.inSteps(rule, "service.existing_", "service.existing_stepped_va")
	w.va(rule, "service.existing_va", va+beside, Say(rule.Phrase("sum"), "steps", words), append(parts, "service.existing_hvac_va")...)
	w.amps("service.existing_a", "service.existing_va")
}

// addMeasured is the highest demand measured with a share on top, and what is new.
func (w *calculation) addMeasured() {
	measured := float64(w.home.House.MeasuredDemand)
	if measured == 0 {
		return
	}
	rule := w.code.Rule("measured-method")
	added, ids, time := 0.0, []string{"home.measured_demand"}, "a year"
	if w.home.House.MeasuredOver == "30-days" {
		time = "30 days"
	}
	for _, p := range w.plates {
		if p.Added {
			added += p.va()
			if p.counts() {
				ids = append(ids, p.id)
			}
		}
	}
	w.va(rule, "service.measured_va", rule.Value("share")*measured+added, Say(rule, "time", time), ids...)
	w.amps("service.measured_a", "service.measured_va")
}

// addLeast says what a new service must be rated at least, and which of the methods gives the least load: the code allows each of
// them.
func (w *calculation) addLeast() (out Load) {
	out.Known = true
	rating, from := w.addMinimum("service.standard_minimum_a", "service.standard_a"), "service.standard_minimum_a"
	if _, ok := w.Get("service.optional_a"); ok {
		if optional := w.addMinimum("service.optional_minimum_a", "service.optional_a"); optional < rating {
			rating, from = optional, "service.optional_minimum_a"
		}
	}
	rule := w.code.Rule("new-service")
	out.MinimumA = w.put(rule, "service.minimum_a", rating, "A", Say(rule), from)
	out.LeastVA, out.LeastBy = w.Value("service.standard_va"), "service.standard_va"
	for _, id := range []string{"service.optional_va", "service.existing_va", "service.measured_va"} {
		if f, ok := w.Get(id); ok && f.Value < out.LeastVA && (id != "service.measured_va" || MayUseMeasured(w.home)) {
			out.LeastVA, out.LeastBy = f.Value, id
		}
	}
	rule = w.code.Rule("methods")
	w.va(rule, "service.least_va", out.LeastVA, Say(rule), out.LeastBy)
	if rating := float64(w.home.House.ServiceAmps); rating > 0 {
		out.ServiceVA = rating * SystemVolts(w.home)
		out.TooSmall = whole(out.LeastVA/SystemVolts(w.home)) > rating
	}
	return out
}

// MayUseMeasured says whether a demand that was measured may be reckoned by: 30 days of recording only where no solar source
// shaves the peaks.
func MayUseMeasured(house *home.Home) bool {
	return house.House.MeasuredOver == "year" || house.Site.Sun.PerDay == 0
}

// addMinimum writes the least rating of a service that carries the current of one method.
func (w *calculation) addMinimum(id, of string) float64 {
	rule := w.code.Rule("least-service")
	least := rule.Value("other_a")
	if w.split() {
		least = rule.Value("one_family_a")
	}
	return w.Add(derive.Figure{ID: id, Value: math.Max(least, w.code.NextRating(w.Value(of))), Unit: "A", How: Say(rule, "least", least),
		Source: rule.Source() + "; ratings of " + w.code.Rule("ratings").Source(), From: []string{of}}).Value
}
