package waiting

import (
	"fmt"

	"holdover/loads"
	"holdover/loads/units"
	"holdover/profiles"
)

// FrostWait is how long a water heater that stands in a cold place can be without supply once that place is below 0 °C; ok is
// false where it stands indoors, where there is no frost, and for one that draws nothing and so misses nothing. Its can_wait may
// be meant for hot water, so it counts only where it is shorter.
func FrostWait(home *loads.Home, i int) (wait units.Hours, ok bool) {
	c := &home.Circuits[i]
	h := c.Heater
	if h == nil || h.StandsIn == "" || h.StandsIn == "indoors" || h.Firing+h.Standby+h.FreezeGuard == 0 {
		return 0, false
	}
	around, _ := home.Around(i)
	for _, at := range around {
		if at < 0 {
			wait = units.Hours(profiles.FrostWait().H)
			if _, known := home.Origin(fmt.Sprintf("circuits[%d].needs.can_wait", i)); known {
				wait = min(wait, c.Needs.CanWait)
			}
			return wait, true
		}
	}
	return 0, false
}

// inFrost shortens a limit to what frost leaves of it.
func inFrost(home *loads.Home, i int, limit Limit) Limit {
	wait, ok := FrostWait(home, i)
	if !ok || limit.Hours <= wait {
		return limit
	}
	return Limit{Hours: wait, Why: fmt.Sprintf("its place falls below 0 °C: after %s h it may freeze", units.Format(float64(wait))), Source: profiles.FrostWait().Source}
}
