package fit

import (
	"fmt"
	"math"
	"slices"

	"holdover/loads/units"
	"holdover/planner/generator"
	"holdover/profiles"
)

// This file holds a generator to what the place allows it: fuel, its store and the quiet hours.

// leastDieselLoad is the share of its rating below which a diesel saves no more fuel (common practice, no source).
const leastDieselLoad = 0.3

func (s *subject) checkFuel() {
	limits := s.home.Limits
	if limits.Generator == "none" {
		s.say("place", Failed, nil, "There is no place for a generator (limits.generator: none).")
	}
	fuel, ok := profiles.FindFuel(s.Fuel)
	if !ok {
		s.ask("fuel", "the fuel that it burns", "")
		return
	}
	if !slices.Contains(limits.Fuels, s.Fuel) {
		s.say("fuel", Failed, nil, "It burns %s, which is not to be had (limits.fuels).", s.Fuel)
		return
	}
	if s.Has("watts") {
		s.checkStore(fuel)
	}
}

// checkStore works out what the outage burns and holds it to what is stored.
func (s *subject) checkStore(fuel profiles.Fuel) {
	kW := float64(s.Watts) / 1000
	line := generator.Willans(fuel, kW)
	hours := s.home.Outage.Length
	mean := float64(s.demand.Average) / 1000
	if fuel.Name == "diesel" {
		mean = max(mean, leastDieselLoad*kW)
	}
	burnt := generator.Fuel(line, kW, hours, mean*float64(hours))
	id := s.figure("fit.fuel", burnt, fuel.Unit, fmt.Sprintf("%.4g %s/h for each rated kW · length + %.4g %s/kWh · energy", line.IdleUnitsPerHourPerKW, fuel.Unit, line.UnitsPerKWh, fuel.Unit),
		"Willans line; "+line.Source, s.given("watts", float64(s.Watts), "W"), "outage.length")
	figures := []string{id}
	says := fmt.Sprintf("It burns about %s %s of %s (%s %s) in %s", number(burnt), fuel.Unit, fuel.Name, number(burnt*fuel.USPerUnit), fuel.USUnit, span(hours))
	if s.Has("fuel_tank") && fuel.Stored && burnt > 0 {
		perHour := burnt / float64(hours)
		fills := s.figure("fit.tank_h", float64(s.FuelTank)/perHour, "h", "tank / fuel an hour at the mean draw", "", s.given("fuel_tank", float64(s.FuelTank), "L"), id)
		figures = append(figures, fills)
		says += fmt.Sprintf("; its tank lasts %s", span(units.Hours(float64(s.FuelTank)/perHour)))
		if more := int(math.Ceil(burnt/float64(s.FuelTank)-1e-9)) - 1; more > 0 {
			says += fmt.Sprintf(" and is filled %d more %s", more, map[bool]string{true: "time", false: "times"}[more == 1])
		}
	}
	store := float64(s.home.Limits.FuelStore)
	if fuel.Stored && store > 0 && burnt > store*hair {
		figures = append(figures, s.assumed("limits.fuel_store", store, "L"))
		s.say("fuel", Failed, figures, "%s; %s L are stored (limits.fuel_store).", says, number(store))
		return
	}
	s.say("fuel", Passed, figures, "%s.", says)
}

// checkQuiet asks whether the outage reaches into hours in which no engine may run.
func (s *subject) checkQuiet() {
	quiet := s.home.Limits.Quiet
	if !quiet.Any() {
		return
	}
	start, length := float64(s.demand.Start), float64(s.home.Outage.Length)
	until := math.Mod(float64(quiet.From)-start+24, 24)
	if !quiet.Covers(s.demand.Start) && until >= length {
		s.say("quiet", Passed, nil, "The outage ends before the quiet hours %s begin.", quiet)
		return
	}
	s.say("quiet", Failed, nil, "No engine may run in the quiet hours %s (limits.quiet), and the outage of %s reaches into them.", quiet, span(s.home.Outage.Length))
}
