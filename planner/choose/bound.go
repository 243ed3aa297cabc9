package choose

import (
	"math"

	"holdover/planner/outage"
)

// needs are what the energy bounds take from the outages: over all of them, the least where less is weaker.
type needs struct {
	loadKWh, sunKWh         float64 // AC energy wanted, and the most sun
	hours                   float64 // in which something is wanted beyond the sun
	quietKWh                float64 // wanted beyond the sun in quiet hours
	leastWantKW, mostWantKW float64 // beyond the sun
}

func needsOf(outages []outage.Outage) needs {
	n := needs{loadKWh: math.Inf(1), quietKWh: math.Inf(1), hours: math.Inf(1), leastWantKW: math.Inf(1)}
	for i := range outages {
		o := &outages[i]
		sun, quiet, wanted := 0.0, 0.0, 0.0
		for _, span := range o.Spans {
			want, hours := max(0, span.DrawKW-span.SunKW), span.To-span.From
			n.leastWantKW, n.mostWantKW = min(n.leastWantKW, want), max(n.mostWantKW, want)
			sun += span.SunKW * hours
			if want > 0 {
				wanted += hours
			}
			if span.Quiet {
				quiet += want * hours
			}
		}
		n.loadKWh, n.sunKWh, n.quietKWh = min(n.loadKWh, o.LoadKWh), max(n.sunKWh, sun), min(n.quietKWh, quiet)
		n.hours = min(n.hours, wanted)
	}
	return n
}

// leastRunning is the present cost of the least fuel and wear that a carried run can have, by the energy balance; +Inf where
// even that is more than the store.
//
// With x the AC energy that comes through the battery, E what it holds, ce and e the efficiencies of charging and of the
// inverter, the engine must give at least load − sun − x + max(0, (x/e + idle − E)/ce). That falls with x until x/e + idle
// = E and rises after; x is at least what the quiet hours want. When on, the engine gives no more than the largest draw and
// what the charger passes, which bounds its hours. An empty battery's inverter drops out and draws no idle power, so the
// idle draw counts only in hours in which something is wanted, and only for a machine that, when running, always charges
// with more than the idle draw, with the smallest charger and battery too: then a carried run has the inverter on in all
// those hours, and the bound falls with the charger and the modules.
//
// Hours wear the engine out: beyond upkeep by the hour it is bought again the sooner. A shorter life never costs less, and the
// hours bounded are no more than those run, so neither does that wear.
func (s *search) leastRunning(m *Machine, modules int, chargerKW float64) float64 {
	n := &s.needs
	full, idle := s.Battery.UsableKWh[modules], 0.0
	ce := s.Battery.ChargeEfficiency()
	if min(s.ChargersKW[0], s.Battery.TakesKW(s.PowerModules), m.SiteKW-n.mostWantKW)*ce >= s.IdleKW {
		idle = s.IdleKW * n.hours
	}
	through := max(n.quietKWh, min(n.loadKWh, (full-idle)*s.Efficiency))
	energy := n.loadKWh - n.sunKWh - through + max(0, (through/s.Efficiency+idle-full)/ce)
	if energy <= 0 {
		return 0
	}
	hours := energy / min(m.SiteKW, n.mostWantKW+min(chargerKW, s.Battery.TakesKW(modules)))
	fuel := m.Line.IdleUnitsPerHourPerKW*m.KW*hours + m.Line.UnitsPerKWh*max(energy, m.LeastKW*hours)
	if !m.Store.Allows(fuel) {
		return math.Inf(1)
	}
	yearly := s.OutagesPerYear * s.Horizon.Annuity
	return fuel*(m.Fuel.Price.PerUnit.Typical*yearly+m.Fuel.Price.StorePerUnit.Typical) + hours*m.Price.UpkeepPerHour.Typical*yearly +
		s.leastWear(m, hours*(1-1e-6)-1e-6)
}

// leastWear is what running so many hours an outage adds to buying an engine again, over what its years alone ask. Its price
// goes in steps, so hours that are a hair too many would cost a whole engine: they are given a little less.
func (s *search) leastWear(m *Machine, hours float64) float64 {
	worn, rested := s.machinePrice(m, max(0, hours)), s.machinePrice(m, 0)
	if worn.LifeYears == rested.LifeYears {
		return 0
	}
	return worn.Purchase() * (s.Horizon.Replacements(worn.LifeYears) - s.Horizon.Replacements(rested.LifeYears))
}
