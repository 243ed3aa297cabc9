package service

import (
	"fmt"
	"math"

	"holdover/loads/home"
)

// addStandard sums the standard method and spreads it over the two lines.
func (w *calculation) addStandard() {
	rule := w.code.Rule("standard-method")
	w.standard = w.va(rule, "service.standard_va", w.general+w.cooking+w.dryers+w.fastened+w.hvac+w.motors+w.other+w.largest, Say(rule), "service.general_demand_va", "service.range_va", "service.dryer_va",
		"service.fastened_va", "service.hvac_va", "service.motor_va", "service.other_va", "service.largest_motor_va")
	a, b, how := w.lines()
	w.put(rule, "service.line_a_a", a, "A", how, "service.standard_va")
	w.put(rule, "service.line_b_a", b, "A", how, "service.standard_va")
	w.put(w.code.Rule("rounding"), "service.standard_a", whole(math.Max(a, b)), "A", fmt.Sprintf("the heavier line, %.1f A, to the whole ampere", math.Max(a, b)),
		"service.line_a_a", "service.line_b_a")
}

// whole drops less than half an ampere and rounds up the rest.
func whole(amps float64) float64 { return math.Floor(amps + 0.5 + 1e-9) }

// SystemVolts is what a load in VA is divided by: the voltage between the lines of a service, or of its only one.
func SystemVolts(house *home.Home) float64 {
	if house.House.Service == home.SplitPhase {
		return 240
	}
	return float64(house.House.Service.LegVolts())
}

// lines gives the current in each line. Loads whose plates give VA are spread over both, as Annex D2 divides by 240 V;
// those whose plates give amps are added to the line they lie on, as Annex D1(b) does, each line with the share of its
// own largest motor.
func (w *calculation) lines() (a, b float64, how string) {
	inAmps := w.inAmps(w.due)
	spread := w.standard - w.largest
	motorA, motorB := w.largestAmps(inAmps, "A"), w.largestAmps(inAmps, "B")
	for _, item := range inAmps {
		spread -= item.va
		if item.leg != "B" {
			a += item.amps
		}
		if item.leg != "A" {
			b += item.amps
		}
	}
	share := w.code.Rule("motors").Value("largest_share")
	a += spread/SystemVolts(w.home) + share*motorA
	b += spread/SystemVolts(w.home) + share*motorB
	how = fmt.Sprintf("VA / %.0f V", SystemVolts(w.home))
	if len(inAmps) > 0 {
		how += "; what the file gives in amps lies on its own line, with the share of the line's largest motor"
	}
	return a, b, how
}

// An ampItem is a load added in amps.
type ampItem struct {
	plate
	leg      string // A, B or both
	va, amps float64
}

// inAmps lists the loads of the standard method in a season whose plates give amps.
func (w *calculation) inAmps(due season) (out []ampItem) {
	if !w.split() {
		return nil
	}
	for _, p := range w.plates {
		if share := w.counted(p, due); p.isAmps && share > 0 {
			out = append(out, ampItem{p, "both", share * p.va(), share * p.va() / float64(p.Volts)})
		}
	}
	placeOnLegs(w.home, out)
	return out
}

// counted is the share of a plate that is in the standard method by itself, 0 where it is not, or where a demand factor
// of a whole group is on it.
func (w *calculation) counted(p plate, due season) float64 {
	switch p.class {
	case classMotor, classOther, classVehicle:
		return 1
	case classFastened, classWaterHeater:
		return w.shareOf(p)
	case classCooling, classHeatPump, classSpaceHeat, classSupplemental:
		if due.has(p) {
			return 1
		}
	}
	return 0
}

// largestAmps is the largest motor on a line, A. A motor given in VA is on both at the system's volts.
func (w *calculation) largestAmps(inAmps []ampItem, leg string) (most float64) {
	for _, p := range w.due.motors {
		amps := p.eachVA / SystemVolts(w.home)
		for _, item := range inAmps {
			if item.id != p.id {
				continue
			}
			amps = p.eachVA / float64(p.Volts)
			if item.leg != leg && item.leg != "both" {
				amps = 0
			}
		}
		most = math.Max(most, amps)
	}
	return most
}
