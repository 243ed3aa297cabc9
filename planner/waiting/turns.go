package waiting

import (
	"fmt"
	"math"
	"slices"

	"holdover/loads"
	"holdover/loads/units"
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
	Slot    units.Hours
	Allowed units.VoltAmps // at most so much on at a time
	Turns   []Turn         // by their beginning
	Rounds  []Round        // one for each circuit that takes turns
	Energy  units.WattHours
	Bound   units.WattHours // no timetable of turns as long takes less
	Found   bool            // there is a timetable
	Proven  bool            // it is the best; where nothing was found, there provably is none
	WaitOut []string        // circuits that can wait the whole outage, and get no turn
	Keep    []string        // circuits that can not take turns: they never wait, or are on nearly all the time
}

// A Round is what one circuit needs of the timetable.
type Round struct {
	Circuit string
	Index   int
	Wait    units.Hours // at most so long between turns
	Turn    units.Hours // how long a turn is
	Watts   units.Watts
	VA      units.VoltAmps
	Count   int // turns it gets
}

// longestTable is how far a timetable looks ahead: beyond a week nobody follows a card.
const longestTable = units.Hours(7 * 24)

// slots are the lengths that a slot may have, h: the longest that suits every limit is taken.
var slots = []units.Hours{0.25, 1.0 / 6, 1.0 / 12}

// busiest is the share of the time from which a circuit is on too much to wait (our own rule).
const busiest = 0.9

// Turns makes the timetable for the circuits of a home that take turns. At most allowed may be on at a time; 0 takes the largest
// of them, which is what a plan counts on. A turn is as long as makes up for the longest wait: with a circuit on a share d of
// the time, d·wait/(1 − d).
func Turns(home *loads.Home, d *loads.Demand, allowed units.VoltAmps) Timetable {
	t := Timetable{Start: d.Start, Length: min(home.Outage.Length, longestTable), Allowed: allowed, Found: true, Proven: true}
	limits := Limits(home, d.Start)
	for i := range d.Loads {
		if l := &d.Loads[i]; l.Care == loads.Rotate {
			t.sort(l, limits[l.Index])
		}
	}
	if allowed == 0 {
		for _, r := range t.Rounds {
			t.Allowed = max(t.Allowed, r.VA)
		}
	}
	if len(t.Rounds) > 0 {
		t.fill()
	}
	return t
}

// sort puts one circuit where it belongs: it takes turns, waits the outage out, or can not take turns.
func (t *Timetable) sort(l *loads.Load, limit Limit) {
	duty := 0.0
	for _, share := range l.Duty {
		duty += share / 24
	}
	switch {
	case limit.Hours >= t.Length:
		t.WaitOut = append(t.WaitOut, l.Name)
	case limit.Hours < slots[len(slots)-1], duty > busiest:
		t.Keep = append(t.Keep, l.Name)
	default:
		t.Rounds = append(t.Rounds, Round{Circuit: l.Name, Index: l.Index, Wait: limit.Hours, Turn: limit.Hours * units.Hours(duty/(1-duty)),
			Watts: l.Running.W(), VA: l.Running.VA()})
	}
}

// fill finds the turns.
func (t *Timetable) fill() {
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
			cost: float64(r.Watts) * float64(t.Slot), load: float64(r.VA)}
		r.Turn = t.Slot * units.Hours(jobs[i].turn)
	}
	f := schedule(jobs, count, float64(t.Allowed))
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
	case len(t.Rounds) == 0 && len(t.WaitOut) == 0:
		return "No circuit takes turns."
	case len(t.Rounds) == 0:
		return "No circuit that takes turns has to have one within the outage."
	case !t.Found && t.Proven:
		return fmt.Sprintf("No timetable keeps every waiting limit with %s VA at a time.", units.Format(float64(t.Allowed)))
	case !t.Found:
		return fmt.Sprintf("No timetable was found that keeps every waiting limit with %s VA at a time; that there is none is not proven.", units.Format(float64(t.Allowed)))
	case t.Proven:
		return fmt.Sprintf("The turns take %s Wh; no timetable of turns as long takes less.", units.Format(float64(t.Energy)))
	}
	return fmt.Sprintf("The turns take %s Wh; the best there can be takes %s Wh or more.", units.Format(float64(t.Energy)), units.Format(float64(t.Bound)))
}
