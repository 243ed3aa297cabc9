package choose

import "math"

// nearest keeps the strongest design of a kind that is the fewest kWh short, then the cheapest.
func (s *search) nearest(kind Kind) {
	var designs []Design
	strongest := Design{Modules: s.mostModules()}
	if n := len(s.InvertersVA); n > 0 {
		strongest.InverterVA = s.inverters()[len(s.inverters())-1]
	}
	switch {
	case kind == Generator:
		for i := range s.Generators {
			designs = append(designs, Design{Machine: &s.Generators[i]})
		}
	case kind == Battery && s.Alone:
		designs = append(designs, strongest)
	case kind == Hybrid && s.Beside:
		strongest.ChargerKW = s.ChargersKW[len(s.ChargersKW)-1]
		for i := range s.Machines {
			for _, policy := range s.Policies {
				d := strongest
				d.Machine, d.Policy = &s.Machines[i], policy
				designs = append(designs, d)
			}
		}
	}
	for _, d := range designs {
		if o := s.Try(d); !s.best.Real() || nearer(o, s.best) {
			s.best = o
		}
		if s.spend(offerSteps); s.gaveUp {
			return
		}
	}
}

func nearer(a, b Outcome) bool {
	if math.Abs(a.Run.ShortKWh-b.Run.ShortKWh) > 1e-9 {
		return a.Run.ShortKWh < b.Run.ShortKWh
	}
	return a.Cost.Total() < b.Cost.Total()
}
