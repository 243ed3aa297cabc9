package transfer

import (
	"fmt"
	"math"
)

// This file sets heating against cooling: both are never due at once, so the larger counts (220.60), and with it a
// quarter of the largest motor that then runs (430.24).

// addClimate writes heating, cooling, the larger of them, and the largest motor.
func (w *service) addClimate() {
	source := w.rules.Heating.Source
	heaters, heatIDs := w.of(classSpaceHeat)
	extra, extraIDs := w.of(classSupplemental)
	pumps, pumpIDs := w.of(classHeatPump)
	coolers, coolIDs := w.of(classCooling)
	pumpAndExtra, pumpHow := together(pumps, extra)
	heating := w.va("service.heating_va", sum(heaters)+pumpAndExtra, "space heaters whole, heat pump and supplemental heat "+pumpHow, source,
		append(append(heatIDs, extraIDs...), pumpIDs...)...)
	cooling := w.va("service.cooling_va", sum(coolers)+sum(pumps), "air conditioning and heat pump, whole", source, append(coolIDs, pumpIDs...)...)

	winterMotors, summerMotors := w.motorsWith(classHeatPump), w.motorsWith(classCooling, classHeatPump)
	if pumpHow == onlyExtra {
		winterMotors = w.motorsWith()
	}
	share := w.rules.Motors.LargestShare
	winter, summer := heating+share*largestVA(winterMotors), cooling+share*largestVA(summerMotors)
	running, inUse := winterMotors, append(append(heaters, extra...), pumps...)
	w.season, w.hvac = "heating", heating
	if summer > winter {
		w.season, w.hvac = "cooling", cooling
		running, inUse = summerMotors, append(coolers, pumps...)
	}
	w.hvac120 = sum(on120(inUse))
	w.va("service.hvac_va", w.hvac, fmt.Sprintf("the larger of the two, each with a quarter of its largest motor: %s", w.season), source, "service.heating_va", "service.cooling_va")
	var ids []string
	for _, p := range running {
		ids = append(ids, p.id)
	}
	w.running = running
	w.largest = w.va("service.largest_motor_va", share*largestVA(running), largestHow(running, share), w.rules.Motors.Source, ids...)
}

// The ways in which a heat pump and its supplemental heat add up.
const (
	bothOn    = "together"
	onlyPump  = "one or the other, the heat pump being larger"
	onlyExtra = "one or the other, the supplemental heat being larger"
)

// together is the load of heat pumps and their supplemental heat: both, unless the pump is locked out while it is on.
func together(pumps, extra []plate) (va float64, how string) {
	lockedOut := len(pumps) > 0
	for _, p := range pumps {
		lockedOut = lockedOut && p.LockedOut
	}
	switch {
	case !lockedOut:
		return sum(pumps) + sum(extra), bothOn
	case sum(pumps) >= sum(extra):
		return sum(pumps), onlyPump
	}
	return sum(extra), onlyExtra
}

// motorsWith are the motors that run with those of some classes of heating or cooling on.
func (w *service) motorsWith(climate ...string) (out []plate) {
	for _, p := range w.plates {
		isClimate := p.class == classCooling || p.class == classHeatPump
		wanted := !isClimate
		for _, class := range climate {
			wanted = wanted || p.class == class
		}
		if p.hasMotor() && wanted {
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

func largestHow(motors []plate, share float64) string {
	for _, p := range motors {
		if p.eachVA == largestVA(motors) {
			return fmt.Sprintf("%s of the largest motor, %s", percent(share), p.Name)
		}
	}
	return "no motor"
}
