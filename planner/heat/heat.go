// Package heat answers: what does hot water and a warm house take in an outage, and what freezes when?
//
// [Water] says what each water heater really needs, by its kind: some want a few watts, some nothing, some more than any battery
// of a house. [Space] is the heat that the house loses. Both show their working.
package heat

import (
	"fmt"
	"math"

	"holdover/loads"
	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/planner/derive"
	"holdover/profiles"
)

// A Need is one water heater in an outage.
type Need struct {
	Circuit string
	Index   int // in Home.Circuits
	Kind    profiles.HeaterKind
	Says    []string
	Freezes *Freezing // nil where there is no frost
	Sheet   *derive.Figures
}

// A Freezing says when a heater that is without supply freezes, and must have been drained.
type Freezing struct {
	After units.Hours // after the start of the outage
	Why   string
}

// A Loss is the heat that the house loses over the outage.
type Loss struct {
	Known   bool // home.heat_loss is given
	Heat    units.WattHours
	DegreeH float64 // K·h below the indoor temperature
	Says    string
	Sheet   *derive.Figures
}

// Space works out the space heat of an outage by degree-hours: heat loss · Σ(indoors − outdoors) over its hours, less the gains.
func Space(house *home.Home, d *loads.Demand) Loss {
	out := Loss{Known: house.House.HeatLoss > 0, Sheet: &derive.Figures{}}
	var colder [24]units.Watts
	for h, outdoors := range d.Outdoors {
		colder[h] = units.Watts(max(0, float64(house.House.Indoors-outdoors)))
	}
	length := house.Outage.Length
	out.DegreeH = float64(loads.EnergyOver(colder, d.Start, length))
	from := []string{derive.Input(out.Sheet, house, "home.indoors", float64(house.House.Indoors), "°C"), derive.Input(out.Sheet, house, "outage.length", float64(length), "h")}
	out.Sheet.Add(derive.Figure{ID: "heat.degree_hours", Value: out.DegreeH, Unit: "K·h", How: "Σ(indoors − outdoors) over the hours of the outage, where it is colder outside", From: from,
		Source: "hourly temperatures by ASHRAE's fractions of the daily range"})
	if !out.Known {
		out.Says = fmt.Sprintf("Outdoors is %s degree-hours (K·h) colder than the rooms over the outage; with home.heat_loss it can be said what heat that takes.", units.Format(out.DegreeH))
		return out
	}
	gains := float64(house.House.Gains) * float64(length)
	out.Heat = units.WattHours(max(0, float64(house.House.HeatLoss)*out.DegreeH-gains))
	out.Sheet.Add(derive.Figure{ID: "heat.space_wh", Value: float64(out.Heat), Unit: "Wh", How: "heat loss · degree-hours − gains · length, not below 0",
		From:   []string{"heat.degree_hours", derive.Input(out.Sheet, house, "home.heat_loss", float64(house.House.HeatLoss), "W/K"), derive.Input(out.Sheet, house, "home.gains", float64(house.House.Gains), "W"), "outage.length"},
		Source: "degree-hours: steady heat balance"})
	out.Says = fmt.Sprintf("Keeping the house warm takes %s kWh of heat (%s W/K over %s K·h%s).", units.Format(float64(out.Heat)/1000), units.Format(float64(house.House.HeatLoss)),
		units.Format(out.DegreeH), map[bool]string{true: ", less the gains", false: ""}[gains > 0])
	return out
}

// WaterHeat is what it takes to warm water: litres · kJ/(kg·K) · rise, a litre taken as a kilogram.
func WaterHeat(l units.Litres, rise units.Kelvins, kJPerKgK float64) units.WattHours {
	return units.WattHours(float64(l) * kJPerKgK * float64(rise) / 3.6)
}

// Showers is how many showers of mixed water a full tank gives without heating: the hot share of it, thinned with cold water.
// 0 where the tank is colder than a shower.
func Showers(holds units.Litres, usable float64, setTo, inlet, shower units.Celsius, each units.Litres) float64 {
	if setTo < shower || shower <= inlet {
		return 0
	}
	mixed := float64(holds) * usable * float64((setTo-inlet)/(shower-inlet))
	return mixed / float64(each)
}

// whole rounds down to what somebody can count on.
func whole(x float64) int { return int(math.Floor(x + 1e-9)) }
