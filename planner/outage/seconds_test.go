package outage_test

import (
	"math"

	"holdover/planner/outage"
)

// A plain second implementation of the run, by the package comment: small steps, no events.

// ticksPerHour makes a step of a quarter of a second, so that a few dozen switchings drift by less than two seconds.
const ticksPerHour = 4 * 3600

// A house is what outage.New is given, in kW and h.
type house struct {
	drawKW, sunKW      [24]float64
	startH, lengthH    float64
	quietFrom, quietTo float64 // clock hours; equal for none
}

// A stepped run is what the small steps add up to.
type stepped struct {
	served, short, generator, sun, fuel, runHours, end float64
	shortAt                                            float64
	switches                                           []float64 // h at which the generator went on or off
	starts                                             int
}

func (h *house) quiet(clock float64) bool {
	if h.quietFrom <= h.quietTo {
		return clock >= h.quietFrom && clock < h.quietTo
	}
	return clock >= h.quietFrom || clock < h.quietTo
}

// lead is the three hours before quiet hours. A step that begins just three hours before them, up to rounding, is the first.
func (h *house) lead(clock float64) bool {
	until := math.Mod(h.quietFrom-clock+24, 24)
	return h.quietFrom != h.quietTo && !h.quiet(clock) && until <= 3+1e-9
}

// step runs a design in small steps.
func (h *house) step(d outage.Design) stepped {
	out := stepped{shortAt: math.Inf(1)}
	charge, fuel, on := d.UsableKWh, d.FuelStore, false
	last := 0.0 // kW into the battery in the step before
	startTick := int(math.Round(h.startH * ticksPerHour))
	for tick := range int(math.Round(h.lengthH * ticksPerHour)) {
		clockTick := (startTick + tick) % (24 * ticksPerHour)
		clock := float64(clockTick) / ticksPerHour
		draw, sun := h.drawKW[clockTick/ticksPerHour], h.sunKW[clockTick/ticksPerHour]
		parts := 1
		if math.Abs(last) > 1e-9 && nearLevel(d, charge) {
			parts = 32
		}
		for part := range parts {
			at := (float64(tick) + float64(part)/float64(parts)) / ticksPerHour
			dt := 1 / float64(ticksPerHour*parts)
			was, may := on, d.SiteKW > 0 && fuel > 0 && !h.quiet(clock)
			on = decide(d, on, charge, draw-sun, may, h.lead(clock))
			if on != was {
				out.switches = append(out.switches, at)
				if on {
					out.starts++
				}
			}
			f := flow(d, on, charge, draw, sun)
			last = f.battery
			charge = land(d, on, may, h.lead(clock), charge, math.Max(0, math.Min(d.UsableKWh, charge+f.battery*dt)))
			fuel = math.Max(0, fuel-out.add(d, f, on, draw, at, dt))
		}
	}
	out.end = charge
	return out
}

// add counts one step and returns the fuel it burnt.
func (s *stepped) add(d outage.Design, f plainFlow, on bool, draw, at, dt float64) (burnt float64) {
	if on {
		burnt = (d.IdleBurn + d.BurnPerKWh*math.Max(f.generator, d.LeastKW)) * dt
		s.runHours += dt
	}
	s.fuel += burnt
	s.served += f.served * dt
	s.generator += f.generator * dt
	s.sun += f.sun * dt
	if short := draw - f.served; short > 1e-9 {
		s.short += short * dt
		s.shortAt = math.Min(s.shortAt, at)
	}
	return burnt
}

// land holds a charge that would pass the level at which the engine starts or stops to that level. What a step is too long by is
// then lost, a few joules; if it stayed in the charge, a slow slope later on would make minutes of it.
func land(d outage.Design, on, may, lead bool, from, to float64) float64 {
	threshold, stop := d.StartAt, d.StopAt*d.UsableKWh
	if lead {
		threshold = d.LeadAt
	}
	start := threshold * d.UsableKWh
	switch {
	case on && from < stop && to > stop:
		return stop
	case !on && may && from > start && to < start:
		return start
	}
	return to
}

// nearLevel says that a step may reach a charge at which something changes. It is then cut small, since what a fast drain
// overshoots a slow charger takes long to make good.
func nearLevel(d outage.Design, charge float64) bool {
	const reachKWh = 20.0 / ticksPerHour // 20 kW, more than anything here
	for _, share := range []float64{0, d.StartAt, d.LeadAt, d.StopAt} {
		if level := share * d.UsableKWh; charge != level && math.Abs(charge-level) < reachKWh {
			return true
		}
	}
	return false
}

// limit is the AC power that battery and inverter can add.
func limit(d outage.Design) float64 {
	return math.Max(0, math.Min(d.InverterKW, (d.DischargeKW-d.IdleKW)*d.Efficiency))
}

func decide(d outage.Design, on bool, charge, beyondSun float64, may, lead bool) bool {
	threshold := d.StartAt
	if lead {
		threshold = d.LeadAt
	}
	must := d.UsableKWh == 0 || beyondSun > limit(d)*(1+1e-12) || threshold >= 1 // what is equal but for rounding is not beyond
	switch {
	case !may:
		return false
	case must:
		return true
	case on:
		return charge < d.StopAt*d.UsableKWh
	}
	return charge <= threshold*d.UsableKWh
}

// A plainFlow is the powers of one step, kW; battery is the change of charge.
type plainFlow struct{ served, generator, sun, battery float64 }

func flow(d outage.Design, on bool, charge, draw, sun float64) plainFlow {
	sunServed := math.Min(draw, sun)
	want := draw - sunServed
	fromEngine := 0.0
	if on {
		fromEngine = math.Min(want, d.SiteKW)
	}
	without := plainFlow{served: sunServed + fromEngine, generator: fromEngine, sun: sunServed}
	if d.UsableKWh == 0 {
		return without
	}
	fromBattery := math.Min(want-fromEngine, limit(d))
	full := d.UsableKWh
	if on {
		full *= math.Min(1, d.StopAt)
	}
	wanted := d.ChargeKW
	if charge >= full {
		wanted = math.Min(d.ChargeKW, d.IdleKW/d.ChargeEfficiency)
	}
	sunSpare := math.Min(wanted, sun-sunServed)
	engineSpare := 0.0
	if on {
		engineSpare = math.Min(math.Min(wanted-sunSpare, d.ChargerKW), d.SiteKW-fromEngine)
	}
	f := plainFlow{served: sunServed + fromEngine + fromBattery, generator: fromEngine + engineSpare, sun: sunServed + sunSpare,
		battery: (sunSpare+engineSpare)*d.ChargeEfficiency - fromBattery/d.Efficiency - d.IdleKW}
	if charge > 0 || f.battery >= 0 {
		return f
	}
	if !on { // the inverter has dropped out; sun cannot stand alone
		return plainFlow{}
	}
	return without
}
