package loads

import (
	"fmt"

	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/profiles"
)

// Dark is how long circuit i may be without supply: within is what it rides through, most what it can bear and then start again.
// One that can never wait and gives no gap rides through what the ITIC curve says that electronics do. minds is false for one that
// gives no limit: then any break will do.
func Dark(house *home.Home, i int) (within, most units.Seconds, minds bool) {
	needs := house.Circuits[i].Needs
	wait := units.Seconds(float64(needs.CanWait) * 3600)
	_, hasGap := house.Origin(fmt.Sprintf("circuits[%d].needs.gap", i))
	_, hasWait := house.Origin(fmt.Sprintf("circuits[%d].needs.can_wait", i))
	switch {
	case hasGap:
		within = needs.Gap
	case NeverWaits(house, i):
		within = units.Seconds(profiles.VoltageTolerance().Ride(0))
	case hasWait:
		within = wait
	default:
		return 0, 0, false
	}
	return within, max(within, wait), true
}

// NeverWaits says whether circuit i can never be without supply for longer than it rides through, by its profile or its own
// can_wait of 0. One of which nobody says so is not known to.
func NeverWaits(house *home.Home, i int) bool {
	_, known := house.Origin(fmt.Sprintf("circuits[%d].needs.can_wait", i))
	return known && house.Circuits[i].Needs.CanWait == 0
}
