package loads

import (
	"holdover/loads/home"
	"holdover/loads/units"
)

// Around is the temperature in each clock hour where the heater of circuit i stands, in the season of the outage; ok is false
// for a circuit without a heater block, which is taken to stand indoors by whoever asks.
func Around(house *home.Home, i int) (day [24]units.Celsius, ok bool) {
	l := Load{Circuit: &house.Circuits[i], Index: i}
	if l.Heater == nil {
		return day, false
	}
	return surroundings(l.Heater, house, l.garageTempGiven(house), Outdoors(house.Site, house.Outage.Season)), true
}
