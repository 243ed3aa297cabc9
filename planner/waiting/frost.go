package waiting

import (
	"fmt"

	"holdover/loads"
	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/profiles"
)

// FrostWait is how long a water heater that stands in a cold place can be without supply once that place is below 0 °C; ok is
// false where it stands indoors, where there is no frost, and for one that draws nothing and so misses nothing. Its can_wait may
// be meant for hot water, so it counts only where it is shorter.
func FrostWait(house *home.Home, i int) (wait units.Hours, ok bool) {
	c := &house.Circuits[i]
	h := c.Heater
	if h == nil || h.Inside() || h.Firing+h.Standby+h.FreezeGuard == 0 {
		return 0, false
	}
	around, _ := loads.Around(house, i)
	for _, at := range around {
		if at < 0 {
			wait = units.Hours(profiles.FrostWait().H)
			if _, known := house.Origin(fmt.Sprintf("circuits[%d].needs.can_wait", i)); known {
				wait = min(wait, c.Needs.CanWait)
			}
			return wait, true
		}
	}
	return 0, false
}

// inFrost shortens a limit to what frost leaves of it.
func inFrost(house *home.Home, i int, limit Limit) Limit {
	wait, ok := FrostWait(house, i)
	if !ok || limit.Hours <= wait {
		return limit
	}
	return Limit{Hours: wait, Why: fmt.Sprintf("its place falls below 0 °C: after %s h it may freeze", units.Format(float64(wait))), Source: profiles.FrostWait().Source}
}
