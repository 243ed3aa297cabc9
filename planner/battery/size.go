package battery

import (
	"math"

	"holdover/loads/units"
	"holdover/profiles"
)

// A Wanted is what a battery must do.
type Wanted struct {
	Energy     units.WattHours // AC energy over the outage
	Continuous units.Watts     // AC running power
	Length     units.Hours
	Efficiency float64     // of the inverter
	Idle       units.Watts // of the inverter, while energised
	Margin     float64     // on energy
}

// Ageing is what stands between nameplate and usable energy.
type Ageing struct {
	DepthOfDischarge, EndOfLife, Temperature float64 // shares
	Peukert                                  float64
	Chemistry                                profiles.Chemistry
}

// A Sizing is a battery worked out.
type Sizing struct {
	DC            units.WattHours // drawn from the battery over the outage
	Rate          float64         // factor for the rate of discharge
	Nameplate     units.WattHours
	EnergyModules int             // whole modules for the energy
	PowerModules  int             // whole modules for the running power, at the chemistry's greatest discharge rate
	Modules       int             // the larger
	Usable        units.WattHours // of the whole modules, at their own rate factor, without the margin
}

// Size works a battery out.
//
//	DC = energy / inverter efficiency + idle · length
//	nameplate = DC · (1 + margin) / (depth of discharge · end of life · temperature · rate)
func Size(w Wanted, a Ageing, module units.WattHours) Sizing {
	var s Sizing
	s.DC = w.Energy/units.WattHours(w.Efficiency) + units.WattHours(float64(w.Idle)*float64(w.Length))
	shares := a.DepthOfDischarge * a.EndOfLife * a.Temperature
	base := s.DC * units.WattHours(1+w.Margin) / units.WattHours(shares)
	mean := units.Watts(float64(s.DC) / float64(w.Length))
	s.Nameplate = Nameplate(base, mean, a.Chemistry.RatedHours, a.Peukert)
	s.Rate = 1
	if s.Nameplate > 0 {
		s.Rate = float64(base / s.Nameplate)
	}
	s.EnergyModules = WholeModules(s.Nameplate, module)
	s.PowerModules = PowerModules(w.Continuous, w.Idle, w.Efficiency, a.Chemistry.DischargePerHour, module)
	s.Modules = max(s.EnergyModules, s.PowerModules)
	plate := module * units.WattHours(s.Modules)
	s.Usable = plate * units.WattHours(shares*Rate(plate, mean, a.Chemistry.RatedHours, a.Peukert))
	return s
}

// PowerModules is the fewest whole modules that give an AC power and the inverter's idle draw, at a greatest discharge rate
// in shares of nameplate an hour.
func PowerModules(continuous, idle units.Watts, efficiency, perHour float64, module units.WattHours) int {
	dc := float64(continuous)/efficiency + float64(idle)
	return max(1, WholeModules(units.WattHours(dc/perHour), module))
}

// WholeModules rounds up to whole modules; a hair over a whole number, as rounding errors leave it, does not count.
func WholeModules(wanted, module units.WattHours) int {
	return int(math.Ceil(float64(wanted/module) - 1e-9))
}

// Runtime is how long usable DC energy carries an hourly AC draw from a clock time, exactly, the day repeating. It is held
// at a year.
func Runtime(usable units.WattHours, hourly [24]units.Watts, start units.Hours, efficiency float64, idle units.Watts) units.Hours {
	const year = 365 * 24
	left, at := float64(usable), float64(start)
	for at-float64(start) < year {
		hour := math.Floor(at)
		step := hour + 1 - at
		draw := float64(hourly[int(hour)%24])/efficiency + float64(idle)
		if draw*step >= left && draw > 0 {
			return units.Hours(at + left/draw - float64(start))
		}
		left -= draw * step
		at = hour + 1
	}
	return year
}
