package home

import (
	"gopkg.in/yaml.v3"

	"holdover/loads/units"
	"holdover/profiles"
)

// A Sun is a further source: solar panels that help through the outage. The zero Sun is none.
type Sun struct {
	PerDay units.WattHours // AC energy on a day of the outage
	Shares [24]float64     // of the day's energy in each clock hour; they add up to 1
}

// Hourly is the mean power of the sun in each clock hour.
func (s Sun) Hourly() (day [24]units.Watts) {
	for h, share := range s.Shares {
		day[h] = units.Watts(float64(s.PerDay) * share)
	}
	return day
}

// sunKeys is the form a sun mapping takes.
type sunKeys struct {
	KWhPerDay float64   `key:"kwh_per_day" unit:"kWh" range:"0,1000" doc:"AC energy on a day of the outage, kWh"`
	Hours     []float64 `key:"hours" range:"0,1000" doc:"how it falls on the clock hours from midnight, in any proportion"`
}

func (s *Sun) readNode(r *reader, n *yaml.Node, path string) {
	*s = Sun{}
	var k sunKeys
	if !r.fill(n, &k, path) {
		return
	}
	if k.KWhPerDay == 0 {
		r.fault(n, join(path, "kwh_per_day"), "the energy of a day is missing; give it like {kwh_per_day: 12}")
		return
	}
	if k.Hours == nil {
		fractions := profiles.SunHourFractions()
		k.Hours = fractions[:]
	}
	if len(k.Hours) != 24 {
		r.fault(n, join(path, "hours"), "%d figures found; 24 are wanted, one for each clock hour from midnight", len(k.Hours))
		return
	}
	sum := 0.0
	for _, share := range k.Hours {
		sum += share
	}
	if sum == 0 {
		r.fault(n, join(path, "hours"), "every hour is 0; at least one must have sun")
		return
	}
	s.PerDay = units.WattHours(k.KWhPerDay * 1000)
	for h, share := range k.Hours {
		s.Shares[h] = share / sum
	}
}

// String says the energy of a day, or nothing.
func (s Sun) String() string {
	if s.PerDay == 0 {
		return ""
	}
	return units.Format(float64(s.PerDay)/1000) + " kWh a day"
}
