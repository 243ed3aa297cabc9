package loads

import (
	"holdover/loads/home"
	"holdover/loads/units"
)

// Around is the temperature in each clock hour where the heater of circuit i stands, in the season of the outage; ok is false
// for a circuit without a heater block, which is taken to stand indoors by whoever asks.
func Around(h *home.Home, i int) (day [24]units.Celsius, ok bool) {
	l := Load{Circuit: &h.Circuits[i], Index: i}
	if l.Heater == nil {
		return day, false
	}
	return surroundings(l.Heater, h, l.garageTempGiven(h), Outdoors(h.Site, h.Outage.Season)), true
}
