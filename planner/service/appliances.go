package service

import "math"

// This file counts appliances by their plates: cooking, dryers, what is fastened in place, motors, and everything else.

// cookers are the cooking appliances that the table knows; smaller ones are fastened appliances like any other.
func (w *calculation) cookers() (known, small []plate, ids []string) {
	all, _ := w.of(classRange, classOven, classCooktop)
	for _, p := range all {
		if p.eachVA > 1000*w.code.Cooking().LeastKW {
			known, ids = append(known, p), append(ids, p.id)
		} else {
			small = append(small, p)
		}
	}
	return known, small, ids
}

func (w *calculation) addCooking() {
	rule := w.code.Rule("cooking")
	known, _, ids := w.cookers()
	va, how := 0.0, Say(rule.Phrase("none"))
	if len(known) > 0 {
		var all []cooker
		for _, p := range known {
			all = append(all, cooker{p.eachVA / 1000, p.Count})
		}
		va, how = cookingVA(w.code, all)
	}
	w.cooking = w.va(rule, "service.range_va", va, how, ids...)
}

func (w *calculation) addDryers() {
	rule, table := w.code.Rule("dryers"), w.code.Dryers()
	all, ids := w.of(classDryer)
	count, va := 0, 0.0
	for _, p := range all {
		count += p.Count
		va += math.Max(p.eachVA, table.LeastVA) * float64(p.Count)
	}
	how := Say(rule.Phrase("none"))
	if count > 0 {
		share := table.Share(count)
		va, how = share*va, Say(rule, "least_va", table.LeastVA, "share", share, "number", count)
	}
	w.dryers = w.va(rule, "service.dryer_va", va, how, ids...)
}

// addFastened counts appliances fastened in place: from some number of them on at a share.
func (w *calculation) addFastened() {
	all, _ := w.of(classWaterHeater, classFastened)
	_, small, _ := w.cookers()
	all = append(all, small...)
	rule := w.code.Rule("fastened")
	count := 0
	var ids []string
	for _, p := range all {
		ids = append(ids, p.id)
		if p.eachVA >= rule.Value("least_va") {
			count += p.Count
		}
	}
	w.va(rule, "service.fastened_connected_va", sum(all), Say(rule), ids...)
	how := rule.Phrase("few")
	w.fastenedShare = 1
	if count >= int(rule.Value("least_number")) {
		w.fastenedShare, how = rule.Value("share"), rule.Phrase("many")
	}
	for _, p := range all {
		va := p.va() * w.shareOf(p)
		w.fastened += va
		if !p.both() {
			w.fastened120 += va
		}
	}
	w.va(rule, "service.fastened_va", w.fastened, Say(how, "number", count), "service.fastened_connected_va")
}

// shareOf is the demand factor of a fastened appliance.
func (w *calculation) shareOf(p plate) float64 {
	if p.eachVA >= w.code.Rule("fastened").Value("least_va") {
		return w.fastenedShare
	}
	return 1
}

func (w *calculation) addMotorsAndOther() {
	motors, ids := w.of(classMotor)
	w.motors, w.motors120 = sum(motors), sum(on120(motors))
	rule := w.code.Rule("motors")
	w.va(rule, "service.motor_va", w.motors, Say(rule), ids...)
	other, ids := w.of(classOther, classVehicle)
	w.other, w.other120 = sum(other), sum(on120(other))
	rule = w.code.Rule("other")
	w.va(rule, "service.other_va", w.other, Say(rule), ids...)
}
