package outage

import "math"

// A Design is one set of machines and the rule by which they run. The zero value of a machine is its absence.
type Design struct {
	UsableKWh        float64 // battery, between full and empty as planned for, at this age and temperature
	DischargeKW      float64 // greatest DC power out
	ChargeKW         float64 // greatest AC power that the battery can take, whatever the source
	ChargerKW        float64 // greatest AC power that the charger takes from the generator, within ChargeKW
	ChargeEfficiency float64 // AC for charging to DC that comes out of the battery again
	InverterKW       float64 // greatest continuous AC power
	Efficiency       float64 // DC to AC
	IdleKW           float64 // DC, while energised

	SiteKW     float64 // generator, after derating
	LeastKW    float64 // it burns as if it gave at least this much
	IdleBurn   float64 // fuel units an hour while on: a·P_rated of Willans' line
	BurnPerKWh float64 // fuel units a kWh: b of Willans' line
	FuelStore  float64 // fuel units; +Inf when piped

	// StartAt, StopAt and LeadAt are shares of UsableKWh; LeadAt holds in place of StartAt in the lead hours before quiet
	// hours. From a start share of 1 up the engine is on whatever the charge.
	StartAt, StopAt, LeadAt float64
}

// A Summary is how a run went. Energies balance:
// begin + generator + sun = served + inverter losses + charging losses + end.
type Summary struct {
	ShortAt      float64 // hours after the start of the first shortfall; +Inf when there was none
	ShortKWh     float64 // wanted but not supplied
	ServedKWh    float64
	GeneratorKWh float64 // AC
	SunKWh       float64 // AC, used
	Fuel         float64 // fuel units
	RunHours     float64 // generator on
	Starts       int
	BeginKWh     float64 // in the battery
	EndKWh       float64
	InverterLoss float64 // kWh, idle draw included
	ChargeLoss   float64 // kWh

	Steps int // stretches between events that were followed, one by one: what the run took to work out
}

// forgivenKWh is a shortfall taken for rounding: a milliwatt-hour.
const forgivenKWh = 1e-6

// Carried says whether everything was supplied throughout.
func (s Summary) Carried() bool { return s.ShortKWh <= forgivenKWh }

// A Step is one stretch of a trace between two events.
type Step struct {
	From, To    float64 // hours after the start
	BeginKWh    float64 // in the battery at From
	EndKWh      float64 // in the battery at To
	GeneratorKW float64
	DrawKW      float64
	SunKW       float64
	ShortKW     float64
	On          bool
}

// Run carries a design through the outage. With a non-nil trace every stretch between events is appended to it; without
// one nothing is allocated, and days that only repeat the day before are added up instead of followed.
func (o *Outage) Run(d *Design, trace *[]Step) Summary {
	r := newRun(o, d)
	r.follow(o, trace)
	return r.sum
}

// Carry is Run for those who only want a design that carries the outage: it stops at the first shortfall, and the summary
// then is of no use.
func (o *Outage) Carry(d *Design) (s Summary, carried bool) {
	r := newRun(o, d)
	r.impatient = true
	r.follow(o, nil)
	return r.sum, r.sum.Carried()
}

func newRun(o *Outage, d *Design) run {
	return run{Design: d, soc: d.UsableKWh, fuel: d.FuelStore, addsKW: d.inverterLimit(),
		startsLeft: int(math.Ceil(startsPerHour * float64(o.Length))),
		sum:        Summary{ShortAt: math.Inf(1), BeginKWh: d.UsableKWh}}
}

// follow goes through the spans of an outage.
func (r *run) follow(o *Outage, trace *[]Step) {
	day := 0
	for i := 0; i < len(o.Spans); i++ {
		if day < len(o.days) && i == o.days[day] {
			day++
			if trace == nil {
				skipped := r.skipDays(len(o.days) - day)
				if day += skipped; skipped > 0 {
					i = o.days[day-1]
				}
			}
		}
		s := &o.Spans[i]
		for at := s.From; at < s.To; {
			at = r.step(s, at, trace)
		}
		if r.impatient && !r.sum.Carried() {
			return
		}
	}
	r.sum.EndKWh = r.soc
}

// run is the state of a run between two events.
type run struct {
	*Design
	soc  float64 // kWh in the battery
	fuel float64 // fuel units left
	on   bool
	sum  Summary

	addsKW     float64 // AC power that the battery can add
	startsLeft int
	impatient  bool    // stop at the first shortfall
	dawn       morning // how the last day began
}

// step goes from at to the next event inside the span and returns its time.
func (r *run) step(s *Span, at float64, trace *[]Step) float64 {
	r.sum.Steps++
	threshold := r.decide(s)
	f := r.flows(s)
	dt, level := s.To-at, math.NaN()
	if t, l, ok := r.nextLevel(&f, threshold, r.mayRun(s)); ok && t < dt {
		dt, level = t, l
	}
	fuelGone := f.burn > 0 && r.fuel < f.burn*dt
	if fuelGone {
		dt, level = r.fuel/f.burn, math.NaN()
	}
	begin := r.soc
	r.advance(s, &f, dt, at)
	end := at + dt
	switch {
	case fuelGone:
		r.fuel = 0
	case math.IsNaN(level):
		end = s.To
	default:
		r.soc = level
	}
	if trace != nil && end > at {
		*trace = append(*trace, Step{at, end, begin, r.soc, f.generator, f.served + f.short, f.sun, f.short, r.on})
	}
	return end
}

// nextLevel is when the charge next meets a level that changes something, and that level in kWh.
func (r *run) nextLevel(f *flows, threshold float64, mayRun bool) (hours, level float64, ok bool) {
	switch {
	case f.dc < 0 && !r.on && mayRun && threshold < r.soc:
		level = threshold
	case f.dc < 0:
		level = 0
	case f.dc > 0 && r.soc < r.ceiling():
		level = r.ceiling()
	default:
		return 0, 0, false
	}
	return (level - r.soc) / f.dc, level, true
}

// ceiling is the charge, kWh, at which charging ends: the stop threshold while the generator is on, full otherwise.
func (r *run) ceiling() float64 {
	if r.on {
		return min(1, r.StopAt) * r.UsableKWh
	}
	return r.UsableKWh
}

// startsPerHour is how often an engine can be started, over an outage: a battery too small for its loads would have it start
// by the minute, and its own starter battery would soon be flat (common practice, no source).
const startsPerHour = 4

func (r *run) mayRun(s *Span) bool {
	return r.SiteKW > 0 && !s.Quiet && r.fuel > 0 && (r.on || r.startsLeft > 0)
}

// decide starts or stops the generator and returns the charge in kWh at which it would start.
func (r *run) decide(s *Span) (threshold float64) {
	share := r.StartAt
	if s.Lead {
		share = r.LeadAt
	}
	threshold = share * r.UsableKWh
	if !r.mayRun(s) {
		r.on = false
		return threshold
	}
	always := r.UsableKWh == 0 || share >= 1 || r.beyondInverter(s)
	switch {
	case r.on:
		r.on = always || r.soc < r.StopAt*r.UsableKWh
	case always || r.soc <= threshold:
		r.on = true
		r.startsLeft--
		r.sum.Starts++
	}
	return threshold
}

// beyondInverter says whether battery and inverter alone cannot carry the draw.
func (r *run) beyondInverter(s *Span) bool { return s.DrawKW-s.SunKW > r.addsKW*(1+1e-12) }

// inverterLimit is the AC power the battery can add, kW.
func (d *Design) inverterLimit() float64 {
	return max(0, min(d.InverterKW, (d.DischargeKW-d.IdleKW)*d.Efficiency))
}

// flows are the constant powers between two events, kW.
type flows struct {
	generator, sun, served, short float64 // AC
	charge                        float64 // AC into the charger
	dc                            float64 // change of the battery
	inverterLoss                  float64
	burn                          float64 // fuel units an hour
}

// flows works out the powers that hold until the next event.
func (r *run) flows(s *Span) (f flows) {
	want := max(0, s.DrawKW-s.SunKW) // beyond the sun
	spare := max(0, s.SunKW-s.DrawKW)
	f.sun = s.DrawKW - want
	if r.on {
		f.generator = min(want, r.SiteKW)
	}
	var idle, added, fromSun, fromGenerator float64
	if r.UsableKWh > 0 {
		idle = r.IdleKW
		added = min(want-f.generator, r.addsKW)
		wanted := r.chargeWanted()
		fromSun = min(wanted, spare)
		if r.on {
			fromGenerator = min(wanted-fromSun, r.ChargerKW, r.SiteKW-f.generator)
		}
		f.charge = fromSun + fromGenerator
	}
	f.dc = f.charge*r.ChargeEfficiency - added/r.Efficiency - idle
	if r.soc <= 0 && f.dc < 0 { // the inverter drops out, and takes with it sun that cannot stand alone
		idle, added, fromSun, fromGenerator, f.charge, f.dc = 0, 0, 0, 0, 0, 0
		if !r.on {
			f.sun = 0
		}
	}
	f.served = f.sun + f.generator + added
	f.short = s.DrawKW - f.served
	f.sun += fromSun
	f.generator += fromGenerator
	f.inverterLoss = added/r.Efficiency - added + idle
	if r.on {
		f.burn = r.IdleBurn + r.BurnPerKWh*max(f.generator, r.LeastKW)
	}
	return f
}

// chargeWanted is the AC power the battery takes if it is to be had: all it can below the ceiling, and at it just what the
// idle inverter draws.
func (r *run) chargeWanted() float64 {
	if r.soc < r.ceiling() {
		return r.ChargeKW
	}
	return min(r.ChargeKW, r.IdleKW/r.ChargeEfficiency)
}

// advance lets dt hours pass from at.
func (r *run) advance(s *Span, f *flows, dt, at float64) {
	t := &r.sum
	if f.short > LeastShortKW && dt > 0 {
		t.ShortAt = min(t.ShortAt, at)
		t.ShortKWh += f.short * dt
	}
	t.ServedKWh += f.served * dt
	t.GeneratorKWh += f.generator * dt
	t.SunKWh += f.sun * dt
	t.InverterLoss += f.inverterLoss * dt
	t.ChargeLoss += f.charge * (1 - r.ChargeEfficiency) * dt
	t.Fuel += f.burn * dt
	if r.on {
		t.RunHours += dt
	}
	r.fuel -= f.burn * dt
	r.soc += f.dc * dt
}
