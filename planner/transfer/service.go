package transfer

import (
	"fmt"
	"math"

	"holdover/loads/home"
	"holdover/profiles"
)

// A service is the calculated load being worked out: NEC Article 220. What is on the sheet is for people; the fields are
// what one part hands to the next.
type service struct {
	book
	home   *home.Home
	plates []plate
	rules  profiles.DwellingLoad

	areaFt2                            float64
	lighting, kitchen, laundry         float64 // connected VA
	general, cooking, dryers           float64 // VA after demand factors
	fastened, fastened120              float64 // of that, what loads the neutral
	fastenedShare                      float64 // of those of 500 VA and more
	motors, motors120, other, other120 float64
	hvac, largest, standard            float64
	due, neutralDue                    season // the one that counts on the lines, and on the neutral
	standardA, optionalA               float64
}

// Service is what the calculated load comes to, for the rest of the scope.
type Service struct {
	Known     bool    // the floor area is there; without, all else is zero
	LeastVA   float64 // the lowest that the code lets this dwelling be reckoned at
	LeastBy   string  // the figure that is
	MinimumA  float64 // least rating of a new service
	ServiceVA float64 // what service_amps gives, 0 when not given
	TooSmall  bool    // the service is less than every method allows
}

// workService writes the calculated load of a home on US rules. Without a floor area there is none: better no figure
// than one that leaves out the lights.
func workService(b book, house *home.Home) Service {
	w := &service{book: b, home: house, plates: plates(house), rules: profiles.DwellingLoads()}
	w.addPlates()
	if house.House.FloorArea == 0 {
		return Service{}
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
func (w *service) addPlates() {
	for _, p := range w.plates {
		if p.class != classLighting && p.class != classReceptacles {
			w.va(p.id, p.va(), p.how, p.fromFile)
		}
	}
}

// of gathers the plates of some classes and their ids.
func (w *service) of(classes ...string) (in []plate, ids []string) {
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

// cookers are the cooking appliances that the table knows; smaller ones are fastened appliances like any other.
func (w *service) cookers() (known, small []plate, ids []string) {
	all, _ := w.of(classRange, classOven, classCooktop)
	for _, p := range all {
		if p.eachVA > 1000*w.rules.Cooking.LeastKW {
			known, ids = append(known, p), append(ids, p.id)
		} else {
			small = append(small, p)
		}
	}
	return known, small, ids
}

func (w *service) addCooking() {
	known, _, ids := w.cookers()
	if len(known) == 0 {
		w.cooking = w.va("service.range_va", 0, "no electric cooking", w.rules.Cooking.Source)
		return
	}
	var all []cooker
	for _, p := range known {
		all = append(all, cooker{p.eachVA / 1000, p.Count})
	}
	va, how := cookingVA(w.rules.Cooking, all)
	w.cooking = w.va("service.range_va", va, how, w.rules.Cooking.Source, ids...)
}

func (w *service) addDryers() {
	all, ids := w.of(classDryer)
	count, va := 0, 0.0
	for _, p := range all {
		count += p.Count
		va += math.Max(p.eachVA, w.rules.Dryers.LeastVA) * float64(p.Count)
	}
	if count == 0 {
		w.dryers = w.va("service.dryer_va", 0, "no electric dryer", w.rules.Dryers.Source)
		return
	}
	share := w.rules.Dryers.Share(count)
	w.dryers = w.va("service.dryer_va", share*va, fmt.Sprintf("each as its plate says but %s VA at least; %s for %d", number(w.rules.Dryers.LeastVA), percent(share), count), w.rules.Dryers.Source, ids...)
}

// addFastened counts appliances fastened in place: four or more of 500 VA and up at 75 %.
func (w *service) addFastened() {
	all, _ := w.of(classWaterHeater, classFastened)
	_, small, _ := w.cookers()
	all = append(all, small...)
	rule := w.rules.Fastened
	count := 0
	var ids []string
	for _, p := range all {
		ids = append(ids, p.id)
		if p.eachVA >= rule.LeastVA {
			count += p.Count
		}
	}
	w.fastenedShare = 1
	how := fmt.Sprintf("%d of %s VA or more, fewer than %d: whole", count, number(rule.LeastVA), rule.LeastNumber)
	if count >= rule.LeastNumber {
		w.fastenedShare = rule.Share
		how = fmt.Sprintf("%d of %s VA or more: those at %s, smaller ones whole", count, number(rule.LeastVA), percent(rule.Share))
	}
	w.va("service.fastened_connected_va", sum(all), "plates of the appliances fastened in place", rule.Source, ids...)
	for _, p := range all {
		va := p.va() * w.shareOf(p)
		w.fastened += va
		if !p.both() {
			w.fastened120 += va
		}
	}
	w.va("service.fastened_va", w.fastened, how, rule.Source, "service.fastened_connected_va")
}

// shareOf is the demand factor of a fastened appliance.
func (w *service) shareOf(p plate) float64 {
	if p.eachVA >= w.rules.Fastened.LeastVA {
		return w.fastenedShare
	}
	return 1
}

func (w *service) addMotorsAndOther() {
	motors, ids := w.of(classMotor)
	w.motors, w.motors120 = sum(motors), sum(on120(motors))
	w.va("service.motor_va", w.motors, "plates of the motors that stand by themselves", w.rules.Motors.Source, ids...)
	other, ids := w.of(classOther)
	w.other, w.other120 = sum(other), sum(on120(other))
	w.va("service.other_va", w.other, "plates of everything else with a circuit of its own", "NEC 220.14(A), 2020 edition, from memory", ids...)
}

func on120(all []plate) (out []plate) {
	for _, p := range all {
		if !p.both() {
			out = append(out, p)
		}
	}
	return out
}
