// Package transfer answers: what does the electrician install so that these circuits can be carried, and what must never
// be done?
//
// [Work] is the one call. Its [Scope] holds the calculated load of the service, the panel schedule, the equipment, the
// conductors, the gas piping, each check with its reason, what is refused, and the cautions. The tables stand in package
// profiles; the rules are those of the US National Electrical Code (NEC), 2020 edition, from memory where nothing else is
// said. Homes on 230 V get what physics says and never a clause of it.
package transfer

import (
	"strings"

	"holdover/loads"
	"holdover/loads/home"
	"holdover/planner/working"
	"holdover/profiles"
)

// Inputs are what could carry the house.
type Inputs struct {
	Sources []Source
	Chosen  string // name of the source that the job is for; empty where nothing carries the house
}

// A Source is something that gives power: an option of the plan, or a unit from its spec sheet.
type Source struct {
	Name        string                    `json:"name"`         // option or unit
	Offered     bool                      `json:"offered"`      // a unit under gear, not an option of the plan
	Engine      bool                      `json:"engine"`       // burns fuel
	Fixed       bool                      `json:"fixed"`        // stays where it is; else it is brought and plugged in
	RatedKVA    float64                   `json:"rated_kva"`    // on its plate
	SiteKVA     float64                   `json:"site_kva"`     // what it gives here
	SiteKW      float64                   `json:"site_kw"`      //
	EngineVolts float64                   `json:"engine_volts"` // that its generator gives
	EngineKVA   float64                   `json:"engine_kva"`   // rated, of the generator, where it has one
	Volts       float64                   `json:"volts"`        // 120 or 240
	Legs        int                       `json:"legs"`         // 120 V legs it gives, 1 or 2
	Neutral     string                    `json:"neutral"`      // floating, bonded or passed
	Fuel        profiles.FuelName         `json:"fuel"`
	GasKW       float64                   `json:"gas_kw"` // higher heating value burnt at full load, of an engine on gas
	StoredKWh   float64                   `json:"stored_kwh"`
	UnitKWh     float64                   `json:"unit_kwh"` // the largest single unit of it
	Inverter    bool                      `json:"inverter"` // its power comes through an inverter
	Derate      float64                   `json:"derate"`   // the lesser of site kVA and kW over rated kVA, 0 < derate ≤ 1
	NextSize    func(kva float64) float64 `json:"-"`        // the next size made that gives so much here, rated kVA; 0 where none is
}

// A Scope is the electrician's part of the plan.
type Scope struct {
	Sheet      *working.Sheet
	US         bool // the NEC holds
	Mode       string
	Source     *Source // the one the job is for, nil where nothing carries the house
	Sources    []Source
	Service    Service
	Rules      []Rule
	Panel      []Row
	Legs       loads.LegSplit
	Equipment  []Item
	Conductors []Conductor
	Gas        []GasLine
	Checks     []Check
	Refusals   []Refusal
	Cautions   []profiles.Caution
}

// A Check is one thing looked into.
type Check struct {
	Name   string `json:"name"`
	Result string `json:"result"` // pass, fail, or needs where a figure is missing
	Reason string `json:"reason"`
	Source string `json:"source"`
	About  string `json:"about"` // the source of power it is about; empty when about all or none
}

// The results of a check.
const (
	Pass  = "pass"
	Fail  = "fail"
	Needs = "needs"
)

// A Refusal is a source that must not carry these circuits, and why.
type Refusal struct {
	Source string `json:"source"`
	Reason string `json:"reason"`
	Rule   string `json:"rule"`
}

// The ways of transfer, as home.transfer has them.
const (
	Manual    = string(home.Manual)
	Automatic = string(home.Automatic)
	Managed   = string(home.Managed)
)

// work is a scope being worked out.
type work struct {
	*Scope
	book
	home    *home.Home
	demand  *loads.Demand
	hazards map[string]bool
	blamed  map[string][]string // hazard: the sources that raise it
}

// blame raises a hazard for one source.
func (w *work) blame(hazard string, s *Source) {
	w.hazards[hazard] = true
	w.blamed[hazard] = append(w.blamed[hazard], s.Name)
}

// Work works out the scope of a home, its demand and what could carry it. It never fails on a [home.Home] that
// [home.Read] returned.
func Work(house *home.Home, d *loads.Demand, in Inputs) *Scope {
	sheet := &working.Sheet{}
	s := &Scope{Sheet: sheet, US: house.House.Service != home.Only230, Mode: string(house.House.Transfer), Sources: in.Sources, Legs: d.Legs}
	w := &work{Scope: s, book: book{sheet}, home: house, demand: d, hazards: map[string]bool{}, blamed: map[string][]string{}}
	s.Source = chosen(in)
	w.addService()
	if s.Source == nil && len(d.Loads) > 0 {
		w.check("source", Fail, "nothing carries this house within its limits, so there is nothing to connect yet", "the plan")
	}
	w.refuse()
	w.addRules()
	w.addPanel()
	w.addEquipment()
	w.addConductors()
	w.addGas()
	w.addPlaces()
	w.warn()
	return s
}

func chosen(in Inputs) *Source {
	for i := range in.Sources {
		if in.Sources[i].Name == in.Chosen {
			return &in.Sources[i]
		}
	}
	return nil
}

// check notes one thing looked into. On a 230 V home the source is never a clause of the US code.
func (w *work) check(name, result, reason, source string) {
	if !w.US {
		source = localRules
	}
	about := ""
	for _, s := range w.Sources {
		if strings.HasSuffix(name, " "+s.Name) {
			about = s.Name
		}
	}
	w.Checks = append(w.Checks, Check{name, result, reason, source, about})
}

// verdict is a check that passes or fails, and the hazard that a failure is.
func (w *work) verdict(ok bool, name, reason, source, hazard string) {
	result := Pass
	if !ok {
		result = Fail
		w.hazards[hazard] = true
	}
	w.check(name, result, reason, source)
}

// addService writes the calculated load and holds the service to it.
func (w *work) addService() {
	const name = "calculated load"
	if !w.US {
		workConnected(w.book, w.home)
		w.check(name, Needs, "what of the connected load counts, the local wiring rules say", localRules)
		return
	}
	w.Service = workService(w.book, w.home)
	rating := float64(w.home.House.ServiceAmps)
	switch {
	case !w.Service.Known:
		w.check(name, Needs, "home.floor_area is missing: without it there is no general lighting load, and no calculated load", "NEC 220.12, 2020 edition, from memory")
	case rating == 0:
		w.check(name, Needs, "home.service_amps is missing; a new service would be "+number(w.Service.MinimumA)+" A at least", "NEC 230.42 and 230.79, 2020 edition, from memory")
	default:
		w.verdict(!w.Service.TooSmall, name, "the least that the code lets it be reckoned at is "+number(w.Service.LeastVA)+" VA; the service gives "+number(w.Service.ServiceVA)+" VA",
			"NEC 230.42, 2020 edition, from memory", "service-too-small")
	}
	if w.home.House.MeasuredDemand > 0 && w.home.House.MeasuredOver != "year" && w.home.Site.Sun.PerDay > 0 {
		w.check("measured demand", Fail, "a recording of 30 days may not be used where a solar source shaves the peaks; it is left out", "NEC 220.87, exception, 2020 edition, from memory")
	}
}
