// Package install answers: what does the electrician install so that these circuits can be carried, and what must never be done?
//
// [Work] is the one call. Its [Scope] holds the calculated load (package service), what each source must give, the panel
// schedule, the equipment, the conductors, the gas piping, each check with its reason, what is refused, and the cautions. What a
// wiring code says stands in the home's [profiles.Code]; one without details gives what physics says and never a clause.
package install

import (
	"slices"

	"holdover/loads"
	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/planner/derive"
	"holdover/planner/service"
	"holdover/planner/sheet"
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
	Owned       bool                      `json:"owned"`        // a unit that the household has
	Cells       bool                      `json:"cells"`        // a battery without an inverter, which feeds no circuit
	Untold      bool                      `json:"untold"`       // its sheet gives no volts: those here are the least there are
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
	Findings    []sheet.Finding           `json:"-"`        // on the sheets that it is made of, whatever the run
	NextSize    func(kva float64) float64 `json:"-"`        // the next size made that gives so much here, rated kVA; 0 where none is
}

// A Scope is the electrician's part of the plan.
type Scope struct {
	Sheet      *derive.Figures
	Code       *profiles.Code
	Mode       home.TransferMode
	Source     *Source // the one the job is for, nil where nothing carries the house
	Sources    []Source
	Service    service.Load
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
	Step   string `json:"step"`  // what to do so that a failure holds; empty where nothing but another source does
}

// The results of a check.
const (
	Pass  = "pass"
	Fail  = "fail"
	Needs = "needs"
)

// DoNotBuild lists the checks for which the source of the job must not be built: those about it that fail, and that no step of the
// job sheet mends.
func (s *Scope) DoNotBuild() []Check {
	return slices.DeleteFunc(slices.Clone(s.Checks), func(c Check) bool {
		return s.Source == nil || c.About != s.Source.Name || c.Result != Fail || c.Step != ""
	})
}

// A Refusal is a source that must not carry these circuits, and why.
type Refusal struct {
	Source string `json:"source"`
	Reason string `json:"reason"`
	Rule   string `json:"rule"`
}

// work is a scope being worked out.
type work struct {
	*Scope
	home    *home.Home
	demand  *loads.Demand
	hazards map[string]bool
	blamed  map[string][]string // hazard: the sources that raise it
}

// Work works out the scope of a home by a code, its demand and what could carry it. It never fails on a [home.Home] that
// [home.Read] returned. What is checked comes first: nothing is listed for a source that must not be built.
func Work(house *home.Home, code *profiles.Code, d *loads.Demand, in Inputs) *Scope {
	s := &Scope{Sheet: &derive.Figures{}, Code: code, Mode: house.House.Transfer, Sources: in.Sources, Legs: d.Legs}
	w := &work{Scope: s, home: house, demand: d, hazards: map[string]bool{}, blamed: map[string][]string{}}
	if i := slices.IndexFunc(in.Sources, func(s Source) bool { return s.Name == in.Chosen }); i >= 0 {
		s.Source = &in.Sources[i]
	}
	w.addService()
	if s.Source == nil && len(d.Loads) > 0 {
		w.check(nil, "source", Fail, "nothing carries this house within its limits, so there is nothing to connect yet", "the plan")
	}
	w.addPanel()
	w.refuse()
	w.addRules()
	w.addGas()
	w.addPlaces()
	w.addEquipment()
	w.addConductors()
	w.warn()
	return s
}

// isHeld says whether a source is held to the rules of this job: the options of the plan, what the household has, and what the job
// is for.
func (w *work) isHeld(s *Source) bool { return !s.Offered || s.Owned || s == w.Source }

// split says whether the service has two legs.
func (w *work) split() bool { return w.home.House.Service == home.SplitPhase }

// blame raises a hazard for one source.
func (w *work) blame(hazard string, s *Source) {
	w.hazards[hazard] = true
	w.blamed[hazard] = append(w.blamed[hazard], s.Name)
}

// cite is a source as this job quotes it: where the code has no details, no rule of another country is quoted.
func (w *work) cite(source string) string {
	if !w.Code.Detailed {
		return w.Code.Unknown
	}
	return source
}

// rule is where the code has a rule.
func (w *work) rule(id string) string { return w.Code.Rule(id).Source() }

// check notes one thing looked into, about a source or about none.
func (w *work) check(about *Source, name, result, reason, source string) {
	c := Check{Name: name, Result: result, Reason: reason, Source: w.cite(source)}
	if about != nil {
		c.About = about.Name
	}
	w.Checks = append(w.Checks, c)
}

// verdict is a check that passes or fails, the hazard that a failure is, and the step that mends it, if any does.
func (w *work) verdict(about *Source, ok bool, name, reason, source, hazard, step string) {
	if ok {
		w.check(about, name, Pass, reason, source)
		return
	}
	w.hazards[hazard] = true
	w.check(about, name, Fail, reason, source)
	w.Checks[len(w.Checks)-1].Step = step
}

// put writes a figure and returns its value.
func (w *work) put(id string, value float64, unit, how, source string, from ...string) float64 {
	return w.Sheet.Add(derive.Figure{ID: id, Value: value, Unit: unit, How: how, Source: source, From: from}).Value
}

func number(value float64) string { return units.Format(value) }

// addService writes the calculated load and holds the service to it.
func (w *work) addService() {
	const name = "calculated load"
	w.Service = service.Calculate(w.home, w.Code, w.Sheet)
	rating := float64(w.home.House.ServiceAmps)
	switch {
	case !w.Code.Detailed:
		w.check(nil, name, Needs, "what of the connected load counts, the local wiring rules say", "")
	case !w.Service.Known:
		w.check(nil, name, Needs, "home.floor_area is missing: without it there is no general lighting load, and no calculated load", w.rule("unit-load"))
	case rating == 0:
		w.check(nil, name, Needs, "home.service_amps is missing; a new service would be "+number(w.Service.MinimumA)+" A at least", w.rule("service-rating"))
	default:
		w.verdict(nil, !w.Service.TooSmall, name, "the least that the code lets it be reckoned at is "+number(w.Service.LeastVA)+" VA; the service gives "+number(w.Service.ServiceVA)+" VA",
			w.rule("service-capacity"), "service-too-small", "a larger service, a job of its own that comes first")
	}
	if w.Code.Detailed && w.home.House.MeasuredDemand > 0 && !service.MayUseMeasured(w.home) {
		rule := w.Code.Rule("measured-sun")
		w.check(nil, "measured demand", Fail, service.Say(rule), rule.Source())
	}
}
