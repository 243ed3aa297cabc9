package waiting

import (
	"fmt"
	"slices"

	"holdover/loads"
	"holdover/loads/home"
	"holdover/loads/units"
)

// Carried is the home as whatever carries it meets it, and what becomes of the circuits that are set to take turns. Those that get
// none in the outage are left off and size nothing, and those that can not take turns are kept. Where that changes nothing it is
// the home itself.
func Carried(house *home.Home) (*home.Home, Sorting) {
	s := Sorting{becomes: map[int]home.Care{}}
	if !slices.ContainsFunc(house.Circuits, func(c home.Circuit) bool { return c.Care == home.Rotate }) {
		return house, s
	}
	d := loads.AtBest(house)
	for i := range d.Loads {
		if l := &d.Loads[i]; l.Care == home.Rotate {
			s.put(house, l, limitAt(house, l.Index, d.Start))
		}
	}
	if len(s.becomes) == 0 {
		return house, s
	}
	changed := *house
	changed.Circuits = slices.Clone(house.Circuits)
	for i, care := range s.becomes {
		changed.Circuits[i].Care = care
	}
	return &changed, s
}

// A Sorting says of each circuit that is set to take turns what becomes of it.
type Sorting struct {
	Rounds  []Round  // one for each circuit that takes turns
	WaitOut []string // circuits that can wait the whole outage, and get no turn
	Later   []string // circuits that can wait as long as a table covers, but not the whole outage
	Unknown []string // circuits of which nothing says how long they can wait: they are on as their use has it, each day
	Keep    []string // circuits that can not take turns: they never wait, or are on nearly all the time

	becomes map[int]home.Care // of those that take no turns, by their place in Home.Circuits
}

// busiest is the share of the time from which a circuit is on too much to wait (our own rule).
const busiest = 0.9

// put puts one circuit where it belongs.
func (s *Sorting) put(house *home.Home, l *loads.Load, limit Limit) {
	duty := max(l.MeanDuty(), guardDuty(house, l))
	length := min(house.Outage.Length, longestTable)
	if !limit.Known() { // then it is on as its use has it, within each day and within the outage
		s.Unknown = append(s.Unknown, l.Name)
		if limit.Hours = house.Outage.Length; duty > 0 {
			limit.Hours = min(24, length) * units.Hours(1-duty)
		}
	}
	switch {
	case limit.Hours >= house.Outage.Length:
		s.WaitOut = append(s.WaitOut, l.Name)
		s.becomes[l.Index] = home.Shed
	case limit.Hours >= length:
		s.Later = append(s.Later, fmt.Sprintf("%s (within %s h)", l.Name, units.Format(float64(limit.Hours))))
	case limit.Hours < slots[len(slots)-1], duty > busiest:
		s.Keep = append(s.Keep, l.Name)
		s.becomes[l.Index] = home.Keep
	default:
		s.Rounds = append(s.Rounds, Round{Circuit: l.Name, Index: l.Index, Wait: limit.Hours, Duty: duty, Watts: l.Running.W()})
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
