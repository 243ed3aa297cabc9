package planner

import (
	"cmp"

	"holdover/loads/home"
	"holdover/planner/generator"
	"holdover/planner/install"
	"holdover/planner/sheet"
	"holdover/profiles"
)

// Scope works out what the electrician installs for a plan: the calculated load, the transfer rule for each option, the
// panel schedule, equipment, conductors, gas, and what must never be done.
func Scope(r *Result) *install.Scope {
	in := install.Inputs{}
	for _, o := range r.Options {
		if o.Outcome.Real() {
			in.Sources = append(in.Sources, sourceOf(r, string(o.Kind), r.Sheets(o)...))
		}
	}
	for _, g := range r.Home.Gear {
		s := sourceOf(r, g.Name, Placed{sheet.Sheet{Gear: g}, sheet.Place{Part: sheet.House}})
		s.Offered, s.Owned, s.Cells, s.Untold = true, g.Owned, g.Kind == home.Battery, g.Volts == 0
		in.Sources = append(in.Sources, s)
	}
	in.Chosen = r.sourceOfJob()
	demand := r.Demand
	demand.Legs = r.Legs
	return install.Work(r.duty.Home, r.Home.Code(), &demand, in)
}

// sourceOfJob names what the job is for: a machine that the household has where its sheet says nothing against it, else what the plan
// chooses, else the machine that there is, so that the job sheet says why it must not be built in.
func (r *Result) sourceOfJob() string {
	name, refused := "", ""
	if r.Choice != None {
		name = string(r.Choice)
	}
	for _, g := range r.Home.Gear {
		s := sheet.Sheet{Gear: g}
		if !g.Owned || !s.MeetsHouse() || len(r.Demand.Loads) == 0 {
			continue
		}
		if findings, _ := r.duty.Check(s, sheet.Place{Part: sheet.House}); len(sheet.Said(findings, sheet.Fails)) == 0 {
			return g.Name
		}
		refused = cmp.Or(refused, g.Name)
	}
	return cmp.Or(name, refused)
}

// sourceOf is what the electrician meets of the sheets of a design, ours or the household's own, or of one unit. What has an
// inverter meets the house through that; the wires of its generator go to it.
func sourceOf(r *Result, name string, sheets ...Placed) install.Source {
	s := install.Source{Name: name, Fixed: true, Derate: 1, Legs: 1, Volts: float64(r.Home.House.Service.LegVolts())}
	for i := range sheets {
		switch u := &sheets[i].Sheet; {
		case u.Engine():
			addEngine(&s, r, u)
		case u.Bare():
			addCells(&s, u)
		default:
			addInverterOf(&s, r, u)
		}
	}
	for _, p := range sheets {
		p.Standing = true
		findings, _ := r.duty.Check(p.Sheet, p.Place)
		s.Findings = append(s.Findings, findings...)
	}
	if s.Engine && !s.Inverter {
		s.RatedKVA, s.Volts = s.EngineKVA, s.EngineVolts
	}
	return s
}

// addEngine fills in what the generator is. Behind an inverter it gives the house nothing by itself.
func addEngine(s *install.Source, r *Result, u *sheet.Sheet) {
	s.Engine, s.Fixed, s.Fuel = true, u.Stands == home.Fixed, u.Fuel
	s.EngineKVA, s.EngineVolts = ratedKVA(u), cmp.Or(float64(u.Volts), s.Volts)
	if e, ok := r.duty.EngineOf(*u); ok && e.Fuel.Gas() {
		s.GasKW = e.FullKW()
	}
	if s.Inverter {
		if u.Neutral == home.Bonded {
			s.Neutral = string(u.Neutral)
		}
		return
	}
	engine, alternator := r.Rating.Engine, r.Rating.Alternator
	s.Neutral, s.Legs = string(u.Neutral), legsOf(r, u)
	s.SiteKVA, s.SiteKW = s.EngineKVA*alternator, ratedKW(u)*engine
	if s.Derate = alternator; s.EngineKVA > 0 {
		s.Derate = min(alternator, s.SiteKW/s.EngineKVA)
	}
	if u.Made != nil {
		pf := r.Home.Assume.GeneratorPowerFactor
		s.NextSize = func(kva float64) float64 {
			return generator.NextMade(profiles.GeneratorSizesKW(), kva*pf, kva, pf) / pf
		}
	}
}

func addInverterOf(s *install.Source, r *Result, u *sheet.Sheet) {
	s.Inverter, s.Neutral, s.Derate = true, string(u.Neutral), r.Rating.Inverter
	s.RatedKVA = ratedKVA(u)
	s.SiteKVA, s.SiteKW = s.RatedKVA*s.Derate, ratedKW(u)*s.Derate
	s.Volts, s.Legs = cmp.Or(float64(u.Volts), s.Volts), legsOf(r, u)
	if u.Kind == home.Inverter && !u.Has("price") {
		s.NextSize = nextInverterKVA
	}
	addCells(s, u)
}

func addCells(s *install.Source, u *sheet.Sheet) {
	if u.Energy > 0 {
		s.StoredKWh = float64(u.Energy) / 1000
		s.UnitKWh = s.StoredKWh / float64(max(1, u.Units))
	}
}

// ratedKVA and ratedKW take one for the other where a sheet gives but one.
func ratedKVA(u *sheet.Sheet) float64 { return cmp.Or(float64(u.VA), float64(u.Watts)) / 1000 }
func ratedKW(u *sheet.Sheet) float64  { return cmp.Or(float64(u.Watts), float64(u.VA)) / 1000 }

// legsOf is how many legs a sheet gives. One that does not say has two where its volts are those of two.
func legsOf(r *Result, u *sheet.Sheet) int {
	if u.Legs == 0 && r.duty.SplitPhase() && u.Volts > 200 {
		return 2
	}
	return max(1, u.Legs)
}

func nextInverterKVA(kva float64) float64 {
	return generator.NextMade(profiles.InvertersMade().VA, 1000*kva, 0, 1) / 1000
}
