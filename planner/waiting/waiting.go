// Package waiting answers: how long can each thing in a house be without supply, and in what turns can they share a little of it?
//
// [Limits] says of every circuit how long it can wait, and why; [House] how long a building stays warm; [Turns] makes the
// timetable for the circuits that take turns. Each is usable alone.
package waiting

import (
	"fmt"
	"math"

	"holdover/loads"
	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/profiles"
)

// A Limit is how long one circuit can be without supply.
type Limit struct {
	Circuit string
	Index   int // in Home.Circuits
	Care    home.Care
	Hours   units.Hours // 0 for what can never wait; +Inf where nothing says how long
	Full    units.Hours // for a freezer that is full; 0 for all else
	Why     string
	Source  string
}

// Never says that it can not wait at all.
func (l Limit) Never() bool { return l.Hours == 0 }

// Known says whether anything says how long it can wait.
func (l Limit) Known() bool { return !math.IsInf(float64(l.Hours), 1) }

// Limits lists how long each circuit of a home can wait, in the order of the file. A limit that the home file itself gives goes
// first; but medical equipment never waits, and a heater in frost not for long, whatever it says.
func Limits(house *home.Home, start units.Hours) []Limit {
	out := make([]Limit, len(house.Circuits))
	for i := range house.Circuits {
		out[i] = limitAt(house, i, start)
	}
	return out
}

// limitAt is how long the circuit at a place can wait.
func limitAt(house *home.Home, i int, start units.Hours) Limit {
	l := inFrost(house, i, limitOf(house, i, start))
	l.Circuit, l.Index, l.Care = house.Circuits[i].Name, i, house.Circuits[i].Care
	return l
}

func limitOf(house *home.Home, i int, start units.Hours) Limit {
	c := &house.Circuits[i]
	at := fmt.Sprintf("circuits[%d].needs.can_wait", i)
	_, known := house.Origin(at)
	food := profiles.FoodTimes()
	switch {
	case profiles.Medical(c.Like, c.Name):
		return Limit{Hours: 0, Why: "medical equipment never waits", Source: "our own rule"}
	case house.Given(at):
		return Limit{Hours: c.Needs.CanWait, Why: "the home file says so", Source: house.Source(at)}
	case c.Pit.Room > 0 && c.Pit.Inflow > 0:
		return Limit{Hours: units.Hours(float64(c.Pit.Room) / float64(c.Pit.Inflow)), Why: fmt.Sprintf("the pit takes %s L more and %s L run in an hour", units.Format(float64(c.Pit.Room)), units.Format(float64(c.Pit.Inflow))),
			Source: "room / inflow"}
	case food.Refrigerates(c.Like):
		return Limit{Hours: units.Hours(food.RefrigeratorH), Why: "food keeps so long with the door shut", Source: food.Source}
	case food.Freezes(c.Like):
		return Limit{Hours: units.Hours(food.FreezerHalfFullH), Full: units.Hours(food.FreezerFullH),
			Why: fmt.Sprintf("half full and shut; a full one keeps for %s h", units.Format(food.FreezerFullH)), Source: food.Source}
	case c.Use.Kind == home.UseHeating:
		if limit, ok := heatingLimit(house, start); ok {
			return limit
		}
	}
	if known {
		return Limit{Hours: c.Needs.CanWait, Why: "usual for its kind", Source: house.Source(at)}
	}
	return Limit{Hours: units.Hours(math.Inf(1)), Why: "nothing says how long (needs.can_wait)", Source: "our own rule"}
}

// heatingLimit lets heating wait until the house is too cold to stay in.
func heatingLimit(household *home.Home, start units.Hours) (Limit, bool) {
	house, missing := HouseOf(household)
	if len(missing) > 0 {
		return Limit{}, false
	}
	level := profiles.WarmthLevels()[0]
	hours, falls := house.HoursTo(units.Celsius(level.C), loads.Outdoors(household.Site, household.Outage.Season), start)
	if !falls {
		return Limit{Hours: units.Hours(math.Inf(1)), Why: fmt.Sprintf("the house does not fall to %s °C", units.Format(level.C)), Source: "cool-down of the house as one lump of heat"}, true
	}
	return Limit{Hours: hours, Why: fmt.Sprintf("the house then falls to %s °C, %s", units.Format(level.C), level.Means), Source: "cool-down of the house as one lump of heat"}, true
}
