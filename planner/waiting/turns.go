package waiting

import (
	"fmt"
	"math"
	"slices"

	"holdover/loads"
	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/planner/effort"
)

// A Turn is one stretch in which a circuit is on, in hours after the start of the outage.
type Turn struct {
	Circuit  string
	From, To units.Hours
}

// A Timetable is when each circuit that takes turns is to be on.
type Timetable struct {
	Start   units.Hours // clock time at which the outage begins
	Length  units.Hours // what it covers, which is a week at most
	Outage  units.Hours // what it would have to cover
	Slot    units.Hours
	Allowed units.VoltAmps // at most so much on at a time
	Watts   units.Watts    // and so much of it real power
	AtStart units.VoltAmps // and so much while one of them starts beside the rest
	Turns   []Turn         // by their beginning
	Energy  units.WattHours
	Bound   units.WattHours // no timetable of turns as long takes less
	Found   bool            // there is a timetable
	Proven  bool            // it is the best; where nothing was found, there provably is none
	Sorting
}

// A Round is what one circuit needs of the timetable.
type Round struct {
	Circuit string
	Index   int
	Wait    units.Hours // at most so long between turns
	Turn    units.Hours // how long a turn is
	Watts   units.Watts
	VA      units.VoltAmps
	Starts  units.VoltAmps // while one unit of it starts; 0 for what has no start
	Count   int            // turns it gets
}

// longestTable is how far a timetable Looks ahead: beyond a week nobody follows a card.
const longestTable = units.Hours(7 * 24)

// slots are the lengths that a slot may have, h: the longest that suits every limit is taken.
var slots = []units.Hours{0.25, 1.0 / 6, 1.0 / 12}

// busiest is the share of the time from which a circuit is on too much to wait (our own rule).
const busiest = 0.9

// Turns makes the timetable for the circuits of a home that take turns. At most allowed may be on at a time; 0 takes the largest
// of them, which is what a plan counts on, and then no two may be on together that want more watts, or start harder, than one of
// them alone. A turn is as long as makes up for the longest wait: with a circuit on a share d of
// the time, d·wait/(1 − d). The end of the budget, of which [Looks] is usual, ends the search, and what is found then is not proven.
func Turns(m *effort.Meter, house *home.Home, d *loads.Demand, allowed units.VoltAmps) Timetable {
	t := Timetable{Start: d.Start, Length: covered(house), Outage: house.Outage.Length, Allowed: allowed, Found: true, Proven: true, Sorting: sort(house, d)}
	t.allow(allowed)
	if len(t.Rounds) > 0 {
		t.fill(m)
	}
	return t
}

// covered is how far a timetable of a home Looks ahead.
func covered(house *home.Home) units.Hours { return min(house.Outage.Length, longestTable) }

// sort puts each circuit that is set to take turns where it belongs.
func sort(house *home.Home, d *loads.Demand) (s Sorting) {
	limits := Limits(house, d.Start)
	for i := range d.Loads {
		if l := &d.Loads[i]; l.Care == home.Rotate {
			s.put(house, l, limits[l.Index])
		}
	}
	return s
}

// put puts one circuit where it belongs: it takes turns, waits the outage out, or can not take turns.
func (s *Sorting) put(house *home.Home, l *loads.Load, limit Limit) {
	duty := max(l.MeanDuty(), guardDuty(house, l))
	length := covered(house)
	if !limit.Known() { // then it is on as its use has it, within each day and within the outage
		s.Unknown = append(s.Unknown, l.Name)
		limit.Hours = min(24, length) * units.Hours(1-duty)
	}
	switch {
	case limit.Hours >= length && limit.Hours < house.Outage.Length:
		s.Later = append(s.Later, fmt.Sprintf("%s (within %s h)", l.Name, units.Format(float64(limit.Hours))))
	case limit.Hours >= length:
		s.WaitOut = append(s.WaitOut, l.Name)
	case limit.Hours < slots[len(slots)-1], duty > busiest:
		s.Keep = append(s.Keep, l.Name)
	default:
		r := Round{Circuit: l.Name, Index: l.Index, Wait: limit.Hours, Turn: limit.Hours * units.Hours(duty/(1-duty)), Watts: l.Running.W(), VA: l.Running.VA()}
		if l.Starts {
			r.Starts = (l.Running - l.Running/loads.Power(complex(float64(l.Count), 0)) + l.Starting).VA()
		}
		s.Rounds = append(s.Rounds, r)
	}
}

// guardDuty is the share of the coldest hour that a heater's frost heaters are on: its turns must make up for that too.
func guardDuty(house *home.Home, l *loads.Load) (most float64) {
	around, ok := loads.Around(house, l.Index)
	if !ok || l.Heater.FreezeGuard == 0 {
		return 0
	}
	for _, at := range around {
		most = max(most, loads.GuardDuty(l.Heater, at))
	}
	return most
}

// allow sets what may be on at a time. What somebody allows in VA bounds the watts too, which are never more.
func (t *Timetable) allow(va units.VoltAmps) {
	t.Allowed, t.Watts, t.AtStart = va, units.Watts(va), va
	for _, r := range t.Rounds {
		t.AtStart = max(t.AtStart, r.VA, r.Starts)
		if va == 0 {
			t.Allowed, t.Watts = max(t.Allowed, r.VA), max(t.Watts, r.Watts)
		}
	}
}

// fill finds the turns.
func (t *Timetable) fill(m *effort.Meter) {
	shortest := slices.MinFunc(t.Rounds, func(a, b Round) int { return int(1e6 * (a.Wait - b.Wait)) }).Wait
	t.Slot = slots[len(slots)-1]
	for _, slot := range slots {
		if slot <= shortest {
			t.Slot = slot
			break
		}
	}
	count := int(math.Ceil(float64(t.Length/t.Slot) - 1e-9))
	jobs := make([]job, len(t.Rounds))
	for i := range t.Rounds {
		r := &t.Rounds[i]
		jobs[i] = job{wait: int(math.Floor(float64(r.Wait/t.Slot) + 1e-9)), turn: max(1, int(math.Ceil(float64(r.Turn/t.Slot)-1e-9))),
			cost: float64(r.Watts) * float64(t.Slot), power: power{load: float64(r.VA), watts: float64(r.Watts), start: float64(r.Starts)}}
		r.Turn = t.Slot * units.Hours(jobs[i].turn)
	}
	f := schedule(m, jobs, count, power{load: float64(t.Allowed), watts: float64(t.Watts), start: float64(t.AtStart)})
	t.Found, t.Proven, t.Energy = f.ok, f.proven, units.WattHours(f.cost)
	if !math.IsInf(f.bound, 1) {
		t.Bound = units.WattHours(f.bound)
	}
	t.read(f.slots)
}

// read turns slots into turns, each cut off at the end of the outage.
func (t *Timetable) read(on [][]bool) {
	for i := range t.Rounds {
		r := &t.Rounds[i]
		begin := -1
		for slot := 0; slot <= len(on); slot++ {
			is := slot < len(on) && on[slot][i]
			switch {
			case is && begin < 0:
				begin = slot
			case !is && begin >= 0:
				t.Turns = append(t.Turns, Turn{r.Circuit, t.Slot * units.Hours(begin), min(t.Length, t.Slot*units.Hours(slot))})
				r.Count++
				begin = -1
			}
		}
	}
	slices.SortStableFunc(t.Turns, func(a, b Turn) int { return int(math.Round(1e6 * float64(a.From-b.From))) })
}

// Says writes what the timetable comes to in a sentence or two.
func (t Timetable) Says() string {
	switch {
	case len(t.Rounds) == 0 && len(t.WaitOut)+len(t.Later)+len(t.Unknown) == 0:
		return "No circuit takes turns."
	case len(t.Rounds) == 0 && len(t.Later) > 0:
		return fmt.Sprintf("No circuit that takes turns has to have one within the first %s days.", units.Format(float64(t.Length)/24))
	case len(t.Rounds) == 0 && len(t.Unknown) > 0:
		return "No circuit whose waiting limit is known has to have a turn within the outage."
	case len(t.Rounds) == 0:
		return "No circuit that takes turns has to have one within the outage."
	case !t.Found && t.Proven:
		return fmt.Sprintf("No timetable keeps every waiting limit with %s VA at a time: set the circuit that waits least to keep, or one to shed.", units.Format(float64(t.Allowed)))
	case !t.Found:
		return fmt.Sprintf("No timetable was found that keeps every waiting limit with %s VA at a time; that there is none is not proven. Set the circuit that waits least to keep, or one to shed.", units.Format(float64(t.Allowed)))
	case t.Proven:
		return fmt.Sprintf("The turns%s take %s Wh; no timetable of turns as long takes less.", t.part(), units.Format(float64(t.Energy)))
	}
	return fmt.Sprintf("The turns%s take %s Wh; the best there can be takes %s Wh or more.", t.part(), units.Format(float64(t.Energy)), units.Format(float64(t.Bound)))
}

// part says so where the table does not cover the whole outage.
func (t Timetable) part() string {
	if t.Length >= t.Outage {
		return ""
	}
	return fmt.Sprintf(" of the first %s days", units.Format(float64(t.Length)/24))
}
