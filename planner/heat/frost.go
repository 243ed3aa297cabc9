package heat

import (
	"fmt"
	"math"
	"strings"

	"holdover/loads/units"
	"holdover/planner/waiting"
)

// frost says when the heater freezes without supply. Indoors it is as safe as the house; in a cold place from when that place
// falls to 0 °C, and then as long as the circuit can wait for its frost heaters.
func (n *need) frost() {
	around, hasBlock := n.home.Around(n.Index)
	indoors := !hasBlock || n.c.Heater.StandsIn == "indoors" || n.c.Heater.StandsIn == ""
	if !indoors {
		n.coldPlace(around)
		return
	}
	house, missing := waiting.HouseOf(n.home)
	outdoors := n.home.Site.Outdoors(n.home.Outage.Season)
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
		n.freezes(after, "the unheated house is then at 0 °C")
	}
}

func (n *need) coldPlace(around [24]units.Celsius) {
	start := float64(n.d.Start)
	for at := start; at < start+24; at = math.Floor(at) + 1 {
		if around[int(at)%24] < 0 {
			n.freezes(units.Hours(at-start)+n.c.Needs.CanWait, fmt.Sprintf("its place is then below 0 °C, and it can wait %s h there (needs.can_wait)", units.Format(float64(n.c.Needs.CanWait))))
			return
		}
	}
}

func (n *need) freezes(after units.Hours, why string) {
	n.Freezes = &Freezing{after, why}
	n.figure("heater.freezes_after_h", float64(after), "h", why, "hourly temperatures of the design day")
	n.say("Without supply it can freeze after %s h: %s. Before that shut the water off and drain the heater and the pipes near it, as its manual says.", units.Format(float64(after)), why)
}
