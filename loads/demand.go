// Package loads answers: what does this house draw in an outage, hour by hour, leg by leg, at its worst moment?
//
// Start with [Work], which gives the [Demand] of a house that [home.Read] returned. The neighbours are [holdover/loads/home] (what
// stands in the home file) and [holdover/loads/units] (quantities). Everything here is pure.
package loads

import (
	"math"

	"holdover/loads/home"
	"holdover/loads/units"
)

// A Demand is what the kept and rotated circuits of a house ask of whatever carries them.
type Demand struct {
	Loads   []Load // kept and rotated circuits, in the order of the file
	Running Power  // every kept circuit on, and the largest rotated one
	// RunningW is the largest real power of any turn; it is Running.W() unless the rotated circuit with the most VA is
	// not the one with the most W.
	RunningW   units.Watts
	WorstVA    units.VoltAmps // one unit starts, everything else kept runs
	WorstW     units.Watts
	WorstStart string // the circuit that starts in the worst moment; empty when none does
	ColdReturn units.VoltAmps
	StartTime  units.Seconds // longest start among them
	Legs       LegSplit
	SineFor    []string // circuits that need a sine wave
	Outdoors   [24]units.Celsius
	Hourly     [24]units.Watts // mean draw in each clock hour
	Start      units.Hours     // clock time at which the outage begins, the worst one resolved
	Energy     units.WattHours // over the outage
	Average    units.Watts     // over the outage
}

// Work works out the demand of a house. It never fails on one that [home.Read] returned.
func Work(house *home.Home) Demand {
	d := AtBest(house)
	given := d.givenLegs(house)
	d.Legs = d.assign(house, heavierLeg(), given)
	d.Legs.proposeMoves(&d, house, given)
	return d
}

// AtBest is the demand but for what takes longest to work out: of the legs there is only Heaviest, as light as no split can
// beat. What cannot carry this cannot carry the whole demand.
func AtBest(house *home.Home) Demand {
	d := Demand{Loads: workLoads(house), Outdoors: Outdoors(house.Site, house.Outage.Season)}
	d.sumRunning()
	d.worstMoment()
	d.Legs.Heaviest = d.Running.VA()
	if house.House.Service == home.SplitPhase {
		d.Legs.Heaviest /= 2 // |A| and |B| cannot both be less than half of |A + B|
	}
	for i := range d.Loads {
		l := &d.Loads[i]
		if l.Needs.Wave == home.Sine {
			d.SineFor = append(d.SineFor, l.Name)
		}
		for h, w := range l.Hourly {
			d.Hourly[h] += w
		}
	}
	d.Start = house.Outage.Start.At
	if house.Outage.Start.Worst {
		d.Start = hardestStart(d.Hourly, house.Outage.Length)
	}
	d.Energy = EnergyOver(d.Hourly, d.Start, house.Outage.Length)
	d.Average = units.Watts(float64(d.Energy) / float64(house.Outage.Length))
	return d
}

// kept sums the kept circuits, all on.
func kept(loads []Load) (sum Power) {
	for i := range loads {
		if loads[i].Care == home.Keep {
			sum += loads[i].Running
		}
	}
	return sum
}

// turns lists what can run beside the kept circuits: nothing, or one rotated circuit.
func turns(loads []Load) []*Load {
	out := []*Load{nil}
	for i := range loads {
		if loads[i].Care == home.Rotate {
			out = append(out, &loads[i])
		}
	}
	return out
}

func (d *Demand) sumRunning() {
	base := kept(d.Loads)
	d.Running, d.RunningW = base, base.W()
	for _, turn := range turns(d.Loads)[1:] {
		sum := base + turn.Running
		if sum.VA() > d.Running.VA() {
			d.Running = sum
		}
		d.RunningW = max(d.RunningW, sum.W())
	}
}

// A Moment is the largest draw in which one circuit starts beside all else that runs.
type Moment struct {
	Circuit string
	W       units.Watts
	VA      units.VoltAmps
	Seconds units.Seconds // that the start lasts
}

// Worst is the worst moment of those starts that last longer than some seconds, its W and VA each the largest of any of them; the
// zero Moment where none does.
func (d *Demand) Worst(longerThan units.Seconds) (worst Moment) {
	if d.StartTime <= longerThan {
		return worst
	}
	base := kept(d.Loads)
	for _, turn := range turns(d.Loads) {
		running := base
		if turn != nil {
			running += turn.Running
		}
		for i := range d.Loads {
			l := &d.Loads[i]
			if !l.Starts || l.StartTime <= longerThan || (l.Care == home.Rotate && l != turn) {
				continue
			}
			moment := running - l.unit() + l.Starting
			if va := moment.VA(); va > worst.VA {
				worst.Circuit, worst.VA, worst.Seconds = l.Name, va, l.StartTime
			}
			worst.W = max(worst.W, moment.W())
		}
	}
	return worst
}

// worstMoment takes the largest over every turn and every starter in it: the running total with one unit starting in
// place of running. The cold return has every kept starter at once.
func (d *Demand) worstMoment() {
	base := kept(d.Loads)
	cold := base
	for i := range d.Loads {
		l := &d.Loads[i]
		if l.Starts {
			d.StartTime = max(d.StartTime, l.StartTime)
			if l.Care == home.Keep {
				cold += Power(complex(float64(l.Count), 0)) * (l.Starting - l.unit())
			}
		}
	}
	for _, turn := range turns(d.Loads) {
		running := base
		if turn != nil {
			running += turn.Running
			d.startOf(turn, running)
		}
		d.raise(running, "")
		d.ColdReturn = max(d.ColdReturn, cold.VA())
		if turn != nil {
			d.ColdReturn = max(d.ColdReturn, (cold + turn.Running).VA())
		}
		for i := range d.Loads {
			if d.Loads[i].Care == home.Keep {
				d.startOf(&d.Loads[i], running)
			}
		}
	}
}

func (d *Demand) startOf(l *Load, running Power) {
	if l.Starts {
		d.raise(running-l.unit()+l.Starting, l.Name)
	}
}

func (d *Demand) raise(moment Power, starter string) {
	if va := moment.VA(); va > d.WorstVA {
		d.WorstVA, d.WorstStart = va, starter
	}
	d.WorstW = max(d.WorstW, moment.W())
}

// EnergyOver integrates a day's hourly draw exactly from a clock time over a length, part hours included, the day
// repeating.
func EnergyOver(hourly [24]units.Watts, start, length units.Hours) units.WattHours {
	var day units.WattHours
	for _, w := range hourly {
		day += units.WattHours(w)
	}
	whole := math.Floor(float64(length) / 24)
	sum := day * units.WattHours(whole)
	at, left := float64(start), float64(length)-24*whole
	for left > 0 {
		hour := math.Floor(at)
		step := min(hour+1-at, left)
		sum += units.WattHours(float64(hourly[int(hour)%24]) * step)
		at, left = hour+1, left-step
	}
	return sum
}

// hardestStart is the whole clock hour from which an outage of this length asks the most energy, the first of equals.
func hardestStart(hourly [24]units.Watts, length units.Hours) units.Hours {
	best, most := units.Hours(0), units.WattHours(-1)
	for h := range 24 {
		if e := EnergyOver(hourly, units.Hours(h), length); e > most*(1+1e-12) {
			best, most = units.Hours(h), e
		}
	}
	return best
}
