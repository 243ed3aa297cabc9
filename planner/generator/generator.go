// Package generator answers: how large must the generator be here, and how much fuel does it burn?
package generator

import (
	"holdover/loads/units"
	"holdover/profiles"
)

// A Wanted is what a generator must do, and the machine's own nature.
type Wanted struct {
	RunningW, WorstW               units.Watts
	RunningVA, WorstVA             units.VoltAmps
	Margin                         float64 // on running power
	Surge                          float64 // short-time over running rating
	Reactance, Dip                 float64 // X and allowed voltage dip d, per unit
	PowerFactor                    float64 // rated kW / rated kVA
	EngineDerate, AlternatorDerate float64
}

// A Sizing is a generator worked out, in kW and kVA.
type Sizing struct {
	SiteKW   float64 // what the engine must give here
	StartKVA float64 // alternator kVA that holds the dip in the worst moment
	SiteKVA  float64 // what the alternator must give here
	RatedKW  float64
	RatedKVA float64
	MadeKW   float64 // the next size made that does its part; 0 when none does, and until that is asked
}

// Size works a generator out.
//
//	site kW = max(running W · (1 + margin), worst W / surge)
//	site kVA = max(running VA · (1 + margin), worst VA · X·(1 − d)/d)
//	rated kW = site kW / engine derate; rated kVA = max(site kVA / alternator derate, rated kW / power factor)
//
// The second term of the kVA comes from the dip ΔV/V = X/(X + S_rated/S_start), held to d.
func Size(w Wanted) Sizing {
	var s Sizing
	s.SiteKW = max(float64(w.RunningW)*(1+w.Margin), float64(w.WorstW)/w.Surge) / 1000
	s.StartKVA = float64(w.WorstVA) * w.Reactance * (1 - w.Dip) / w.Dip / 1000
	s.SiteKVA = max(float64(w.RunningVA)*(1+w.Margin)/1000, s.StartKVA)
	s.RatedKW = s.SiteKW / w.EngineDerate
	s.RatedKVA = max(s.SiteKVA/w.AlternatorDerate, s.RatedKW/w.PowerFactor)
	return s
}

// NextMade is the smallest of rising sizes that gives both kW and kVA, or 0 when there is none.
func NextMade(sizesKW []float64, kw, kva, powerFactor float64) float64 {
	const hair = 1 - 1e-9
	for _, size := range sizesKW {
		if size >= kw*hair && size/powerFactor >= kva*hair {
			return size
		}
	}
	return 0
}

// Dip is the voltage dip when a start of so many kVA falls on an alternator of so many: X/(X + S_rated/S_start).
func Dip(reactance, ratedKVA, startKVA float64) float64 {
	return reactance / (reactance + ratedKVA/startKVA)
}

// Fuel is what a machine of so many rated kW burns in running for some hours while giving some kWh, in the fuel's unit.
func Fuel(line profiles.Willans, ratedKW float64, hours units.Hours, energyKWh float64) float64 {
	return line.IdleUnitsPerHourPerKW*ratedKW*float64(hours) + line.UnitsPerKWh*energyKWh
}
