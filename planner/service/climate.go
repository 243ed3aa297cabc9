package service

import (
	"math"
	"slices"

	"holdover/profiles"
)

// This file sets heating against cooling: both are never due at once, so the larger counts, and with it a share
// of the largest motor that then runs.

// A season is what heating or cooling may be on together, and every motor that may then run.
type season struct {
	name       string // heating or cooling
	on, motors []plate
}

// total is its load with a share of its largest motor, VA; onNeutral the part of it that the neutral carries.
func (s season) total(share float64) float64 { return sum(s.on) + share*largestVA(s.motors) }
func (s season) onNeutral(share float64) float64 {
	return sum(on120(s.on)) + share*largestVA(on120(s.motors))
}

func (s season) has(p plate) bool {
	return slices.ContainsFunc(s.on, func(q plate) bool { return q.id == p.id })
}

// addClimate writes heating, cooling, the larger of them, and the largest motor. The neutral has a season of its own:
// heat of 240 V alone puts nothing on it, and small coolers of 120 V do.
func (w *calculation) addClimate() {
	rule, motors := w.code.Rule("heating"), w.code.Rule("motors")
	heaters, heatIDs := w.of(classSpaceHeat)
	extra, extraIDs := w.of(classSupplemental)
	pumps, pumpIDs := w.of(classHeatPump)
	coolers, coolIDs := w.of(classCooling)
	pumpAndExtra, how := together(pumps, extra)
	winter := season{"heating", slices.Concat(heaters, pumpAndExtra), w.motorsWith(pumpAndExtra)}
	cooling := slices.Concat(coolers, pumps)
	summer := season{"cooling", cooling, w.motorsWith(cooling)}
	w.va(rule, "service.heating_va", sum(winter.on), Say(rule, "how", how), slices.Concat(heatIDs, extraIDs, pumpIDs)...)
	w.va(rule, "service.cooling_va", sum(summer.on), Say(rule.Phrase("cooling")), slices.Concat(coolIDs, pumpIDs)...)

	share := motors.Value("largest_share")
	w.due, w.neutralDue = winter, winter
	if summer.total(share) > winter.total(share) {
		w.due = summer
	}
	if summer.onNeutral(share) > winter.onNeutral(share) {
		w.neutralDue = summer
	}
	w.hvac = w.va(rule, "service.hvac_va", sum(w.due.on), Say(rule.Phrase("larger"), "season", w.due.name), "service.heating_va", "service.cooling_va")
	var ids []string
	for _, p := range w.due.motors {
		ids = append(ids, p.id)
	}
	w.largest = w.va(motors, "service.largest_motor_va", share*largestVA(w.due.motors), largestHow(w.due.motors, motors.Phrase("largest")), ids...)
}

// The ways in which a heat pump and its supplemental heat add up.
const (
	bothOn    = "together"
	onlyPump  = "one or the other, the heat pump being larger"
	onlyExtra = "one or the other, the supplemental heat being larger"
)

// together is what of heat pumps and their supplemental heat is on: both, unless the pump is locked out meanwhile.
func together(pumps, extra []plate) (on []plate, how string) {
	lockedOut := len(pumps) > 0
	for _, p := range pumps {
		lockedOut = lockedOut && p.LockedOut
	}
	switch {
	case !lockedOut:
		return slices.Concat(pumps, extra), bothOn
	case sum(pumps) >= sum(extra):
		return pumps, onlyPump
	}
	return extra, onlyExtra
}

// motorsWith are the motors that may run while some of the heating or cooling is on.
func (w *calculation) motorsWith(on []plate) (out []plate) {
	climate := season{on: on}
	for _, p := range w.plates {
		isClimate := p.class == classCooling || p.class == classHeatPump
		if p.hasMotor() && (!isClimate || climate.has(p)) {
			out = append(out, p)
		}
	}
	return out
}

func largestVA(motors []plate) (va float64) {
	for _, p := range motors {
		va = math.Max(va, p.eachVA)
	}
	return va
}

func largestHow(motors []plate, rule profiles.Rule) string {
	for _, p := range motors {
		if p.eachVA == largestVA(motors) {
			return Say(rule, "name", p.Name)
		}
	}
	return "no motor"
}
