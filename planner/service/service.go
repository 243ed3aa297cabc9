// Package service answers: what load does the wiring code in force reckon this dwelling at, and what must a source give by it?
//
// [Calculate] works out the calculated load by each method that the code has; [Wanted] says what a source must give for each way
// of transfer, before there is any. Every clause, factor and phrase comes from the home's [profiles.Code]: another edition says
// other things and asks for other loads, and one that has no calculated load gives the sum of the plates.
package service

import (
	"slices"

	"holdover/loads/home"
	"holdover/planner/derive"
	"holdover/profiles"
)

// A Load is what the calculated load comes to.
type Load struct {
	Known     bool    // the code has one and the floor area is there; without, all else is zero
	LeastVA   float64 // the lowest that the code lets this dwelling be reckoned at
	LeastBy   string  // the figure that is
	MinimumA  float64 // least rating of a new service
	ServiceVA float64 // what service_amps gives, 0 when not given
	TooSmall  bool    // the service is less than every method allows
}

// Calculate works out the calculated load of a home and writes its lines on a sheet. Without a floor area there is none: better no
// figure than one that leaves out the lights.
func Calculate(house *home.Home, code *profiles.Code, sheet *derive.Figures) Load {
	w := newCalculation(house, code, sheet, plates(house, code))
	if !code.Detailed {
		w.addConnected()
		return Load{}
	}
	return w.work()
}

// A calculation is a calculated load being worked out. What is on the sheet is for people; the fields are what one part hands to
// the next.
type calculation struct {
	book
	home   *home.Home
	plates []plate // of all circuits, or of those that are left on

	lighting, kitchen, laundry         float64 // connected VA
	general, cooking, dryers           float64 // VA after demand factors
	fastened, fastened120              float64 // of that, what loads the neutral
	fastenedShare                      float64 // of those that count towards the number
	motors, motors120, other, other120 float64
	hvac, largest, standard            float64
	due, neutralDue                    season // the one that counts on the lines, and on the neutral
}

func newCalculation(house *home.Home, code *profiles.Code, sheet *derive.Figures, all []plate) *calculation {
	return &calculation{book: book{sheet, code}, home: house, plates: all}
}

func (w *calculation) work() Load {
	w.addPlates()
	if w.home.House.FloorArea == 0 {
		return Load{}
	}
	w.addGeneral()
	w.addCooking()
	w.addDryers()
	w.addFastened()
	w.addMotorsAndOther()
	w.addClimate()
	w.addStandard()
	w.addNeutral()
	w.addOptional()
	w.addExisting()
	w.addMeasured()
	return w.addLeast()
}

// addPlates writes the nameplate of each circuit that counts by itself.
func (w *calculation) addPlates() {
	for _, p := range w.plates {
		if p.counts() {
			w.addPlate(p)
		}
	}
}

func (w *calculation) addPlate(p plate) {
	w.Add(derive.Figure{ID: p.id, Value: p.va(), Unit: "VA", How: p.how, Source: p.source})
}

// addConnected is for a code without a calculated load: the sum of the plates, which is physics.
func (w *calculation) addConnected() {
	var ids []string
	for _, p := range w.plates {
		w.addPlate(p)
		ids = append(ids, p.id)
	}
	va := w.va(w.code.Rule("standard-method"), "service.connected_va", sum(w.plates), "the sum of the plates, nothing left out; what of it counts, the local wiring rules say", ids...)
	w.Add(derive.Figure{ID: "service.connected_a", Value: va / float64(w.home.House.Service.LegVolts()), Unit: "A", How: "VA / volts", Source: "physics", From: []string{"service.connected_va"}})
}

// split says whether the service has two lines.
func (w *calculation) split() bool { return w.home.House.Service == home.SplitPhase }

// of gathers the plates of some classes and their ids.
func (w *calculation) of(classes ...string) (in []plate, ids []string) {
	for _, class := range classes {
		for _, p := range w.plates {
			if p.class == class {
				in, ids = append(in, p), append(ids, p.id)
			}
		}
	}
	return in, ids
}

func sum(all []plate) (va float64) {
	for _, p := range all {
		va += p.va()
	}
	return va
}

func on120(all []plate) []plate {
	return slices.DeleteFunc(slices.Clone(all), plate.both)
}
