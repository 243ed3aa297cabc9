package heat

import (
	"fmt"
	"math"
	"strings"

	"holdover/loads"
	"holdover/loads/units"
	"holdover/planner/waiting"
	"holdover/profiles"
)

// frost says when the heater freezes without supply. Indoors it is as safe as the house; in a cold place from when that place
// falls to 0 °C, and then as long as the circuit can wait for its frost heaters.
func (n *need) frost() {
	around, hasBlock := loads.Around(n.home, n.Index)
	indoors := !hasBlock || n.c.Heater.Inside()
	if !indoors {
		n.coldPlace(around)
		return
	}
	house, missing := waiting.HouseOf(n.home)
	outdoors := loads.Outdoors(n.home.Site, n.home.Outage.Season)
	if len(missing) > 0 {
		for _, at := range outdoors {
			if at < 0 {
				n.say("There is frost outside; when the house itself freezes can be said with %s.", strings.Join(missing, " and "))
				return
			}
		}
		return
	}
	if after, falls := house.HoursTo(0, outdoors, n.d.Start); falls {
		n.freezes(after, "the unheated house is then at freezing, 0 °C (32 °F)")
	}
}

func (n *need) coldPlace(around [24]units.Celsius) {
	start := float64(n.d.Start)
	for at := start; at < start+24; at = math.Floor(at) + 1 {
		if around[int(at)%24] < 0 {
			wait, draws := waiting.FrostWait(n.home, n.Index)
			why := fmt.Sprintf("its place falls below 0 °C, and there it may stand for %s h at most", units.Format(float64(wait)))
			if !draws {
				why = "its place is then below 0 °C"
			}
			n.freezes(units.Hours(at-start)+wait, why)
			return
		}
	}
}

func (n *need) freezes(after units.Hours, why string) {
	n.Freezes = &Freezing{after, why}
	n.figure("heater.freezes_after_h", float64(after), "h", why, "hourly temperatures of the design day; how long it may stand in frost: "+profiles.FrostWait().Source)
	if n.Kind == profiles.GasPilot {
		n.say("Its flame keeps it from freezing, but not the pipes near it: they can freeze after %s h: %s. Before that shut the water off and drain them; if the gas stops too, drain the heater.", units.Format(float64(after)), why)
		return
	}
	n.say("Without supply it can freeze after %s h: %s. Before that shut the water off and drain the heater and the pipes near it, as its manual says.", units.Format(float64(after)), why)
}
