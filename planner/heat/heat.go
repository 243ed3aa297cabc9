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
	indoors, lasts := out.Sheet.Input(house, "home.indoors"), out.Sheet.Input(house, "outage.length")
	degrees := out.Sheet.Add(derive.Figure{ID: "heat.degree_hours", Value: out.DegreeH, Unit: "K·h", How: "Σ(indoors − outdoors) over the hours of the outage, where it is colder outside", From: derive.IDs(indoors, lasts),
		Source: "hourly temperatures by ASHRAE's fractions of the daily range"})
	if !out.Known {
		out.Says = fmt.Sprintf("Outdoors is %s degree-hours (K·h) colder than the rooms over the outage; with home.heat_loss it can be said what heat that takes.", units.Format(out.DegreeH))
		return out
	}
	gains := out.Sheet.Input(house, "home.gains").Times(lasts)
	heat := out.Sheet.Input(house, "home.heat_loss").Times(degrees).Minus(gains)
	out.Heat = units.WattHours(out.Sheet.Put("heat.space_wh", "Wh", derive.Max(derive.Number(0), heat), "degree-hours: steady heat balance").Value)
	out.Says = fmt.Sprintf("Keeping the house warm takes %s kWh of heat (%s W/K over %s K·h%s).", units.Format(float64(out.Heat)/1000), units.Format(float64(house.House.HeatLoss)),
		units.Format(out.DegreeH), map[bool]string{true: ", less the gains", false: ""}[gains.Value > 0])
	return out
}

// WaterHeat is what it takes to warm so many litres of water by a rise in K, Wh, at a heat of water in kJ/(kg·K), a litre taken as a
// kilogram.
func WaterHeat(litres, rise, heat derive.Term) derive.Term {
	return litres.Times(heat).Times(rise).Over(derive.Number(3.6))
}

// Showers is how many showers of mixed water a full tank gives without heating: the hot share of it, thinned with cold water.
// None where the tank is colder than a shower.
func Showers(holds, usable, setTo, inlet, shower, each derive.Term) derive.Term {
	if setTo.Value < shower.Value || shower.Value <= inlet.Value {
		return setTo.As("none from a tank colder than a shower", 0)
	}
	return holds.Times(usable).Times(setTo.Minus(inlet)).Over(shower.Minus(inlet)).Over(each)
}

// whole rounds down to what somebody can count on.
func whole(x float64) int { return int(math.Floor(x + 1e-9)) }
