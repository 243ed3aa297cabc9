package waiting

import (
	"slices"

	"holdover/loads"
	"holdover/loads/home"
)

// Carried is the home as whatever carries it meets it. Of the circuits set to take turns, those that get none in the outage are
// left off and size nothing, and those that can not take turns are kept. Where that changes nothing it is the home itself.
func Carried(house *home.Home) *home.Home {
	if !slices.ContainsFunc(house.Circuits, func(c home.Circuit) bool { return c.Care == home.Rotate }) {
		return house
	}
	d := loads.AtBest(house)
	s := sort(house, &d)
	if len(s.WaitOut)+len(s.Keep) == 0 {
		return house
	}
	changed := *house
	changed.Circuits = slices.Clone(house.Circuits)
	for i := range changed.Circuits {
		c := &changed.Circuits[i]
		switch {
		case c.Care != home.Rotate:
		case slices.Contains(s.WaitOut, c.Name):
			c.Care = home.Shed
		case slices.Contains(s.Keep, c.Name):
			c.Care = home.Keep
		}
	}
	return &changed
}

// A Sorting says of each circuit that is set to take turns what becomes of it.
type Sorting struct {
	Rounds  []Round  // one for each circuit that takes turns
	WaitOut []string // circuits that can wait the whole outage, and get no turn
	Later   []string // circuits that can wait as long as a table covers, but not the whole outage
	Unknown []string // circuits of which nothing says how long they can wait: they are on as their use has it, each day
	Keep    []string // circuits that can not take turns: they never wait, or are on nearly all the time
}
