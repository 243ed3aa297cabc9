package planner

import (
	"holdover/loads/home"
	"holdover/planner/choose"
	"holdover/planner/generator"
	"holdover/planner/install"
	"holdover/profiles"
)

// Scope works out what the electrician installs for a plan: the calculated load, the transfer rule for each option, the
// panel schedule, equipment, conductors, gas, and what must never be done.
func Scope(r *Result) *install.Scope {
	in := install.Inputs{}
	for _, o := range r.Options {
		if o.Outcome.Real() {
			in.Sources = append(in.Sources, optionSource(r, o))
		}
	}
	for _, g := range r.Home.Gear {
		in.Sources = append(in.Sources, gearSource(r.Home, g))
	}
	if r.Choice != None {
		in.Chosen = string(r.Choice)
	}
	return install.Work(r.Home, r.Home.Code(), &r.Demand, in)
}

// optionSource is an option of the plan as the electrician meets it. A hybrid meets the house through its inverter; the
// generator's own wires go to that.
func optionSource(r *Result, o Option) install.Source {
	s := install.Source{Name: string(o.Kind), Fixed: true}
	if m := o.Outcome.Machine; m != nil {
		addMachine(&s, r, m)
	}
	s.Volts, s.Legs = meets(r.Home, s.EngineKVA)
	s.EngineVolts = s.Volts
	if o.Outcome.Modules > 0 {
		module := float64(r.Home.Assume.Module) / 1000
		s.Inverter = true
		s.RatedKVA = o.Outcome.InverterVA / 1000
		s.Derate = r.Rating.Inverter
		s.SiteKVA = s.RatedKVA * s.Derate
		s.SiteKW = s.SiteKVA
		s.StoredKWh, s.UnitKWh = module*float64(o.Outcome.Modules), module
		s.Volts, s.Legs = meets(r.Home, 0)
		if s.Neutral != "bonded" {
			s.Neutral = "passed" // a house's own inverter passes the neutral through: common practice, no source
		}
		s.NextSize = nextInverterKVA
	}
	return s
}

// addMachine fills in what the generator of an option is.
func addMachine(s *install.Source, r *Result, m *choose.Machine) {
	pf := r.Home.Assume.GeneratorPowerFactor
	engine, alternator := r.Rating.Engine, r.Rating.Alternator
	s.Engine, s.Fixed, s.Fuel, s.Neutral = true, m.Kind == "standby", m.Fuel.Name, m.Neutral
	s.EngineKVA = m.KW / pf
	s.RatedKVA, s.Derate = s.EngineKVA, min(engine*pf, alternator)
	s.SiteKVA, s.SiteKW = s.RatedKVA*alternator, m.KW*engine
	s.NextSize = func(kva float64) float64 {
		return generator.NextMade(profiles.GeneratorSizesKW(), kva*pf, kva, pf) / pf
	}
	if m.Fuel.Name == "natural-gas" || m.Fuel.Name == "propane" {
		s.GasKW = m.KW * (m.Line.IdleUnitsPerHourPerKW + m.Line.UnitsPerKWh) * m.Fuel.KWhPerUnit
	}
}

// meets is the voltage and the number of legs that a source of so many kVA gives to this house. Small portable machines give
// 120 V alone; 0 kVA is an inverter, which is made for its house.
func meets(house *home.Home, kva float64) (volts float64, legs int) {
	small := kva > 0 && kva < profiles.Transfers().SingleLeg.BelowKW
	if house.House.Service != home.SplitPhase || small {
		return float64(house.House.Service.LegVolts()), 1
	}
	return 240, 2
}

func nextInverterKVA(kva float64) float64 {
	for _, va := range profiles.InverterSizesVA() {
		if va >= 1000*kva*(1-1e-9) {
			return va / 1000
		}
	}
	return 0
}

// gearSource is a unit from its spec sheet. One that does not say how many legs it gives has two where its volts are those
// of two.
func gearSource(house *home.Home, g home.Gear) install.Source {
	s := install.Source{Name: g.Name, Offered: true, Owned: g.Owned, Cells: g.Kind == "battery", Untold: g.Volts == 0, Engine: g.Kind == "generator", Inverter: g.Kind != "generator", Neutral: g.Neutral, Fuel: g.Fuel, Derate: 1,
		Volts: float64(g.Volts), Legs: g.Legs, StoredKWh: float64(g.Energy) / 1000, UnitKWh: float64(g.Energy) / 1000}
	if s.Volts == 0 {
		s.Volts = float64(house.House.Service.LegVolts())
	}
	if s.Legs == 0 {
		s.Legs = 1
		if house.House.Service == home.SplitPhase && g.Volts > 200 {
			s.Legs = 2
		}
	}
	s.SiteKVA, s.SiteKW = float64(g.VA)/1000, float64(g.Watts)/1000
	if s.SiteKVA == 0 {
		s.SiteKVA = s.SiteKW
	}
	if s.SiteKW == 0 {
		s.SiteKW = s.SiteKVA
	}
	s.RatedKVA = s.SiteKVA
	if s.Engine {
		s.EngineKVA, s.EngineVolts = s.RatedKVA, s.Volts
	}
	return s
}
