package service

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"holdover/loads"
	"holdover/loads/home"
	"holdover/loads/units"
)

// This file says what the neutral carries at most. Loads of 240 V alone are not in it; ranges and dryers are at a share, and so is
// what lies above a number of amperes.

func (w *calculation) addNeutral() {
	rule := w.code.Rule("neutral")
	put := func(id string, va float64, how, from string) float64 { return w.va(rule, id, va, how, from) }
	put("service.neutral_general_va", w.general, "lighting, small appliances and laundry after their demand factors", "service.general_demand_va")
	cooking := put("service.neutral_range_va", rule.Value("cooking_share")*w.cooking, Say(rule.Phrase("cooking")), "service.range_va")
	dryers := put("service.neutral_dryer_va", rule.Value("dryer_share")*w.dryers, Say(rule.Phrase("dryers")), "service.dryer_va")
	put("service.neutral_fastened_va", w.fastened120, "the 120 V ones", "service.fastened_va")
	due, motors := w.neutralDue, w.code.Rule("motors").Phrase("largest")
	rest := put("service.neutral_other_va", sum(on120(due.on))+w.motors120+w.other120, "120 V motors, others, and heating or cooling, whichever loads the neutral more: "+due.name, "service."+due.name+"_va")
	largest := put("service.neutral_largest_motor_va", motors.Value("largest_share")*largestVA(on120(due.motors)), largestHow(on120(due.motors), motors), "service.motor_va")
	va := w.va(rule, "service.neutral_va", w.general+cooking+dryers+w.fastened120+rest+largest, Say(rule),
		"service.neutral_general_va", "service.neutral_range_va", "service.neutral_dryer_va", "service.neutral_fastened_va", "service.neutral_other_va", "service.neutral_largest_motor_va")
	amps, how := w.neutralAmps(va, largest)
	if above := rule.Value("above_a"); amps > above {
		how += Say(rule.Phrase("above"), "amps", amps)
		amps = above + rule.Value("above_share")*(amps-above)
	}
	w.put(rule, "service.neutral_a", whole(amps), "A", how+fmt.Sprintf(": %.1f A, to the whole ampere", amps), "service.neutral_va")
}

// neutralAmps divides by the system's volts, and adds what is given in amps as Annex D1(b) does: loads on opposite lines
// are paired, the larger of a pair counts.
func (w *calculation) neutralAmps(va, largest float64) (amps float64, how string) {
	how = fmt.Sprintf("VA / %.0f V", SystemVolts(w.home))
	onLeg := map[string][]ampItem{}
	spread := va
	for _, item := range w.inAmps(w.neutralDue) {
		if item.leg != "both" {
			spread -= item.va
			onLeg[item.leg] = append(onLeg[item.leg], item)
		}
	}
	if len(onLeg) == 0 {
		return va / SystemVolts(w.home), how
	}
	spread -= largest
	most := 0.0
	for _, p := range on120(w.neutralDue.motors) {
		volts := SystemVolts(w.home)
		if p.isAmps {
			volts = float64(p.Volts)
		}
		most = math.Max(most, p.eachVA/volts)
	}
	return spread/SystemVolts(w.home) + paired(onLeg["A"], onLeg["B"]) + w.code.Rule("motors").Value("largest_share")*most,
		how + "; of what the file gives in amps, the larger of each pair on opposite lines, and the share of the largest 120 V motor"
}

// paired sets the loads of the two lines against each other, the largest first.
func paired(a, b []ampItem) (amps float64) {
	heavier := func(x, y ampItem) int { return cmp.Compare(y.amps, x.amps) }
	slices.SortStableFunc(a, heavier)
	slices.SortStableFunc(b, heavier)
	for i := range max(len(a), len(b)) {
		larger := 0.0
		if i < len(a) {
			larger = a[i].amps
		}
		if i < len(b) {
			larger = math.Max(larger, b[i].amps)
		}
		amps += larger
	}
	return amps
}

// placeOnLegs puts 120 V loads on the line the file gives, the others so that the heavier line is as light as can be: the
// same exact split that the plan uses, on a house of these loads alone.
func placeOnLegs(house *home.Home, items []ampItem) {
	alone := *house
	alone.Circuits = nil
	var at []int
	for i, item := range items {
		if item.both() {
			continue
		}
		alone.Circuits = append(alone.Circuits, home.Circuit{Name: item.Name, Care: home.Keep, Count: 1, Volts: item.Volts, Running: units.Watts(item.va),
			PowerFactor: 1, Leg: item.Leg, SharesWith: item.SharesWith})
		at = append(at, i)
	}
	if len(at) == 0 {
		return
	}
	for n, leg := range loads.Work(&alone).Legs.Of {
		items[at[n]].leg = leg
	}
}
