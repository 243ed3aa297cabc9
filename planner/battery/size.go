package battery

import (
	"fmt"
	"math"

	"holdover/loads/units"
	"holdover/planner/derive"
	"holdover/profiles"
)

// A Wanted is what a battery must do: AC energy over a length at an AC running power, from inverter and modules of a kind. Margin is
// on energy.
type Wanted struct {
	Energy, Running, Length  derive.Term // Wh, W, h
	Efficiency, Idle, Margin derive.Term
	Module                   derive.Term // Wh
	Hourly                   [24]units.Watts
	Start                    units.Hours // clock time at which the outage begins
}

// Ageing is what stands between nameplate and usable energy.
type Ageing struct {
	DepthOfDischarge, EndOfLife, Temperature float64 // shares
	Stated                                   bool    // the temperature's share is the home file's own
	Peukert                                  float64
	Chemistry                                profiles.Chemistry
}

// Size works a battery out and puts it down: its nameplate, Wh, its whole modules, and how long they last.
func Size(f *derive.Figures, w Wanted, a Ageing) (nameplate, modules derive.Term) {
	dc := f.Put("battery.dc_wh", "Wh", w.Energy.Over(w.Efficiency).Plus(w.Idle.Times(w.Length)), "")
	mean := units.Watts(dc.Value / w.Length.Value)
	shares := f.At("assume.depth_of_discharge", a.DepthOfDischarge).Times(f.At("assume.capacity_at_end_of_life", a.EndOfLife)).Times(f.Add(a.temperature()))
	energy := dc.Times(derive.One.Plus(w.Margin))
	rate := derive.Figure{ID: "battery.rate_factor", Value: 1, From: []string{"battery.dc_wh", "outage.length", "assume.peukert"}, Source: "Peukert's law in its rated-hour form",
		How: fmt.Sprintf("(nameplate/(mean DC draw · %.3g h))^(k − 1), solved with the nameplate it depends on, never above 1", a.Chemistry.RatedHours)}
	if base := units.WattHours(energy.Value / shares.Value); base > 0 {
		rate.Value = float64(base / Nameplate(base, mean, a.Chemistry.RatedHours, a.Peukert))
	}
	nameplate = f.Put("battery.nameplate_wh", "Wh", energy.Over(shares.Times(f.Add(rate))), "IEEE 485 and IEEE 1013 give the same factors, from memory")
	modules = f.Add(a.modules(w, nameplate.Value))
	plate := modules.Times(w.Module)
	own := modules.As("their own rate factor", Rate(units.WattHours(plate.Value), mean, a.Chemistry.RatedHours, a.Peukert))
	usable := f.Put("battery.usable_wh", "Wh", plate.Times(shares).Times(own).With("without the margin", "battery.rate_factor"), "")
	lasts := Runtime(units.WattHours(usable.Value), w.Hourly, w.Start, w.Efficiency.Value, units.Watts(w.Idle.Value))
	f.Note("battery.runtime_h", float64(lasts), "h", "how long the whole modules, at the end of their life, carry the hourly draw from the start; held at a year", "",
		"battery.usable_wh", "load.starts_at_h", "assume.inverter_efficiency", "assume.inverter_idle")
	return nameplate, modules
}

func (a Ageing) temperature() derive.Figure {
	f := derive.Figure{ID: "battery.temperature_factor", Value: a.Temperature, From: []string{"site.battery_space"},
		How: "share of the 25 °C capacity at the coldest the battery gets, between the points of the chemistry's table", Source: a.Chemistry.Source}
	switch {
	case a.Stated:
		f.From, f.How, f.Source = []string{"assume.battery_temperature_factor"}, "as given", "the home file"
	case len(a.Chemistry.CellSizeFactors) > 0:
		f.How, f.Source = "1 / cell-size factor at the coldest the battery gets, interpolated", "IEEE 485, Table 1"
	}
	return f
}

// modules are the whole ones for the energy or for the running power, whichever are more.
func (a Ageing) modules(w Wanted, nameplateWh float64) derive.Figure {
	module := units.WattHours(w.Module.Value)
	forEnergy := WholeModules(units.WattHours(nameplateWh), module)
	forPower := PowerModules(units.Watts(w.Running.Value), units.Watts(w.Idle.Value), w.Efficiency.Value, a.Chemistry.DischargePerHour, module)
	return derive.Figure{ID: "battery.modules", Value: float64(max(forEnergy, forPower)), Unit: "modules", From: []string{"battery.nameplate_wh", "assume.module", "load.running_w"},
		How: fmt.Sprintf("whole modules: %d for the energy, %d for the running power at %.2g of nameplate an hour; the larger", forEnergy, forPower, a.Chemistry.DischargePerHour), Source: "chemistry " + string(a.Chemistry.Name)}
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
