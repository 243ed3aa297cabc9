package waiting

import (
	"cmp"
	"fmt"
	"math"
	"slices"

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
	Start  units.Hours // clock time at which the outage begins
	Length units.Hours // what it covers, which is a week at most
	Outage units.Hours // what it would have to cover
	Slot   units.Hours
	Turns  []Turn // by their beginning; no two at a time
	Energy units.WattHours
	Bound  units.WattHours // no timetable in such slots takes less
	Found  bool            // there is a timetable
	Proven bool            // it takes the least; where nothing was found, there provably is none
	Sorting
}

// A Round is what one circuit needs of the timetable.
type Round struct {
	Circuit string
	Index   int
	Wait    units.Hours // at most so long between turns
	Duty    float64     // share of the time that it has to be on, 0 to 1
	Watts   units.Watts
	Turn    units.Hours // its longest turn
	Count   int         // turns it gets
}

// longestTable is how far a timetable looks ahead: beyond a week nobody follows a card.
const longestTable = units.Hours(7 * 24)

// slots are the lengths that a slot may have, h; each but the last is a whole number of the last.
var slots = []units.Hours{0.25, 1.0 / 6, 1.0 / 12}

// Looks is the budget of a timetable that is usual, in steps of some 30 ns.
const Looks = 400_000

// Turns makes the timetable for circuits that take turns, one at a time, in an outage of a length that begins at a clock time. A
// wait is made up for by being on for d·wait/(1 − d), where a circuit is on a share d of the time; search.go says what that means
// for waits and turns that differ. Slots of 15 min are tried first, then of 10 and of 5. That there is no timetable is proven for
// slots of 5 min, and so for the others, each of which is some of them; not for shorter ones. The end of the budget, of which
// [Looks] is usual, ends the search.
func Turns(m *effort.Meter, s Sorting, length, start units.Hours) Timetable {
	t := Timetable{Start: start, Length: min(length, longestTable), Outage: length, Found: true, Proven: true, Sorting: s}
	t.Rounds = slices.Clone(s.Rounds)
	if len(t.Rounds) > 0 {
		t.fill(m)
	}
	return t
}

// fill finds the turns, in the longest slots in which there are any.
func (t *Timetable) fill(m *effort.Meter) {
	var f found
	for i, slot := range slots {
		t.Slot = slot
		if f = schedule(m, t.jobs(), t.count(), i == len(slots)-1); f.on != nil {
			break
		}
	}
	t.Found, t.Proven, t.Energy, t.Bound = f.on != nil, f.proven, units.WattHours(f.cost), units.WattHours(f.bound)
	if t.Proven && !t.Found && t.Slot*units.Hours(t.count()) > t.Length+1e-9 {
		// The last slot goes on beyond the outage, and somebody may have waited too long only there.
		f = schedule(m, t.jobs(), t.count()-1, true)
		t.Proven = f.proven && f.on == nil
	}
	t.read(f.on)
}

// jobs are the circuits as the search has them.
func (t *Timetable) jobs() (jobs []job) {
	for _, r := range t.Rounds {
		jobs = append(jobs, newJob(r.Duty, float64(r.Wait/t.Slot), float64(r.Watts)*float64(t.Slot)))
	}
	return jobs
}

// count is how many slots there are.
func (t *Timetable) count() int { return int(math.Ceil(float64(t.Length/t.Slot) - 1e-9)) }

// read turns slots into turns, the last cut off at the end of the outage.
func (t *Timetable) read(on []int) {
	for from := 0; from < len(on); {
		to := from + 1
		for to < len(on) && on[to] == on[from] {
			to++
		}
		if on[from] != idle {
			r := &t.Rounds[on[from]]
			turn := Turn{r.Circuit, t.Slot * units.Hours(from), min(t.Length, t.Slot*units.Hours(to))}
			t.Turns = append(t.Turns, turn)
			r.Count++
			r.Turn = max(r.Turn, turn.To-turn.From)
		}
		from = to
	}
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
		return "No timetable keeps every waiting limit, one circuit at a time in slots of " + t.slotText() + " min: " + t.wayOut()
	case !t.Found:
		return "No timetable was found that keeps every waiting limit, one circuit at a time in slots of " + t.slotText() + " min; that there is none is not proven: " + t.wayOut()
	case t.Proven:
		return fmt.Sprintf("The turns%s take %s Wh; no timetable in slots of %s min takes less.", t.part(), units.Format(float64(t.Energy)), t.slotText())
	}
	return fmt.Sprintf("The turns%s take %s Wh; the best there can be in slots of %s min takes %s Wh or more.", t.part(), units.Format(float64(t.Energy)), t.slotText(), units.Format(float64(t.Bound)))
}

func (t Timetable) slotText() string { return units.Format(60 * float64(t.Slot)) }

// wayOut says what helps where no timetable does: the circuit that waits least binds the others most.
func (t Timetable) wayOut() string {
	least := slices.MinFunc(t.Rounds, func(a, b Round) int { return cmp.Compare(a.Wait, b.Wait) })
	return fmt.Sprintf("set %s, which waits least, to keep, or one to shed.", least.Circuit)
}

// part says so where the table does not cover the whole outage.
func (t Timetable) part() string {
	if t.Length >= t.Outage {
		return ""
	}
	return fmt.Sprintf(" of the first %s days", units.Format(float64(t.Length)/24))
}
