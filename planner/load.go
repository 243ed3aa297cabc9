package planner

import (
	"fmt"
	"strings"

	"holdover/loads"
	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/planner/derive"
)

const sums = "complex sums of P and Q: alternating-current circuit theory"

// addLoad writes what the house draws on the sheet: each circuit, then the totals.
func addLoad(s *derive.Figures, house *home.Home, d *loads.Demand) {
	ids := addCircuits(s, house, d)
	s.Add(derive.Figure{ID: "load.running_w", Value: float64(d.RunningW), Unit: "W", From: ids.runningW,
		How: "every kept circuit on, and the largest rotated one: ΣP", Source: sums})
	s.Add(derive.Figure{ID: "load.running_va", Value: float64(d.Running.VA()), Unit: "VA", From: ids.runningVA,
		How: "√((ΣP)² + (ΣQ)²) with Q = P·tan(arccos pf), every kept circuit on and the largest rotated one", Source: sums})
	worstHow := "nothing here starts with a surge, so it is the running total"
	if d.WorstStart != "" {
		worstHow = fmt.Sprintf("the running total without %s, and %s starting; the largest over every starter", d.WorstStart, d.WorstStart)
	}
	from := append([]string{"load.running_va"}, ids.starting...)
	s.Add(derive.Figure{ID: "load.worst_moment_va", Value: float64(d.WorstVA), Unit: "VA", From: from, How: worstHow, Source: sums})
	s.Add(derive.Figure{ID: "load.worst_moment_w", Value: float64(d.WorstW), Unit: "W", From: append([]string{"load.running_w"}, ids.starting...),
		How: "the largest real power over every starter, starting VA · starting power factor for the one that starts", Source: sums})
	s.Add(derive.Figure{ID: "load.cold_return_va", Value: float64(d.ColdReturn), Unit: "VA", From: from,
		How: "every kept starter starting at once, the rest running", Source: sums})
	s.Add(derive.Figure{ID: "load.start_seconds", Value: float64(d.StartTime), Unit: "s", How: "the longest start among them", From: ids.starting})
	addEnergy(s, d, ids)
	addLegs(s, house, d, ids)
	addWave(s, d)
}

// circuitIDs are the ids of the circuits' own figures.
type circuitIDs struct{ runningW, runningVA, starting, energy []string }

func addCircuits(s *derive.Figures, house *home.Home, d *loads.Demand) (ids circuitIDs) {
	names := slugs(d.Loads)
	for i := range d.Loads {
		ids.add(s, house, d, &d.Loads[i], "circuit."+names[i])
	}
	return ids
}

// add puts one circuit's figures on the sheet under its id.
func (ids *circuitIDs) add(s *derive.Figures, house *home.Home, d *loads.Demand, l *loads.Load, id string) {
	at := fmt.Sprintf("circuits[%d]", l.Index)
	origin := func(keys ...string) string {
		paths := []string{}
		for _, key := range keys {
			paths = append(paths, at+"."+key)
		}
		return house.Source(append(paths, at)...)
	}
	put := func(name string, value float64, unit, how, source string, from ...string) string {
		s.Add(derive.Figure{ID: id + "." + name, Value: value, Unit: unit, How: how, Source: source, From: from})
		return id + "." + name
	}
	running := put("running_w", float64(l.Running.W()), "W", runningHow(house, l), origin("heater", "running", "running_amps"))
	factor := put("power_factor", l.PowerFactor, "", "of the steady draw; 1 unless given", origin("power_factor"))
	va := put("running_va", float64(l.Running.VA()), "VA", "running W / power factor", "circuit theory", running, factor)
	ids.runningW, ids.runningVA = append(ids.runningW, running), append(ids.runningVA, va)
	if l.Starts {
		from := []string{}
		if l.Start.Kind == home.StartTimes {
			from = append(from, va)
		}
		ids.starting = append(ids.starting, put("starting_va", float64(l.Starting.VA()), "VA", startHow(house, l), origin("start"), from...))
	}
	duty := put("duty", l.MeanDuty(), "", dutyHow(l), origin("use", "heater"), dutyFrom(house, l)...)
	energy := loads.EnergyOver(l.Hourly, d.Start, house.Outage.Length)
	ids.energy = append(ids.energy, put("energy_wh", float64(energy), "Wh", energyHow(l), origin("use", "heater"), running, duty))
}

// dutyFrom lists the inputs behind a duty that follows the weather.
func dutyFrom(house *home.Home, l *loads.Load) []string {
	from := []string{"outage.season", "site.hottest", "site.coldest", "site.daily_range"}
	if house.House.HeatLoss > 0 {
		from = append(from, "home.heat_loss")
	}
	switch l.Use.Kind {
	case home.UseHeating:
		return append(from, "home.indoors")
	case home.UseCooling:
		return append(from, "home.cooled_to")
	}
	return nil
}

func dutyHow(l *loads.Load) string {
	switch {
	case l.Use.Kind == home.UseHeating || l.Use.Kind == home.UseCooling:
		return fmt.Sprintf("share of the design day it is on: heat to move at each hour / output of %s W, or its profile's duty where no heat_loss is given", units.Format(float64(l.Output)))
	case l.Heater != nil && l.Use.Kind == home.UseAlways:
		return "share of the day it fires: draw / 24 h"
	case l.Use.Kind == home.UseAlways:
		return "no use is given: on all the time"
	}
	return "share of the day it is on"
}

func runningHow(house *home.Home, l *loads.Load) string {
	parts := []string{"steady draw when on"}
	if l.Heater != nil {
		parts = []string{"draw while firing"}
		if l.Heater.FreezeGuard > 0 && float64(l.Running.W()) > float64(loads.RunningPower(l.Circuit).W())*float64(l.Count)+1e-9 {
			parts = append(parts, "and of its frost heaters, which the cold can bring on at the same time")
		}
	}
	switch {
	case l.HP > 0:
		parts = append(parts, fmt.Sprintf("from the full-load amps of a %s hp motor, %s, · volts · power factor", units.Format(l.HP), house.Code().Rule("motor-current").Short()))
	case l.RunningAmps > 0:
		parts = append(parts, "from amps · volts · power factor")
	}
	if l.Count > 1 {
		parts = append(parts, fmt.Sprintf("· %d of them", l.Count))
	}
	return strings.Join(parts, " ")
}

func startHow(house *home.Home, l *loads.Load) string {
	switch l.Start.Kind {
	case home.StartTimes:
		return fmt.Sprintf("%.3g × running VA of one", l.Start.Times)
	case home.StartAmps:
		return fmt.Sprintf("locked-rotor %.4g A · volts", float64(l.Start.Amps))
	case home.StartLetter:
		return fmt.Sprintf("upper bound of code letter %s in %s · %.3g hp", l.Start.Letter, house.Code().Rule("locked-rotor").Short(), l.Start.HP)
	}
	return "starting watts / starting power factor"
}

func energyHow(l *loads.Load) string {
	switch {
	case l.Use.Kind == home.UseHeating:
		return "running W for heat_loss·(indoors − outdoors)/output of each hour, standby W for the rest, over the outage"
	case l.Use.Kind == home.UseCooling:
		return "running W for heat_loss·(outdoors − cooled_to)/output of each hour, standby W for the rest, over the outage"
	case l.Heater != nil:
		return "firing W while it burns, standby W for the rest, and its frost heaters by the cold where it stands, over the outage"
	}
	return "running W for its duty, standby W for the rest, hour by hour over the outage"
}

func addEnergy(s *derive.Figures, d *loads.Demand, ids circuitIDs) {
	s.Add(derive.Figure{ID: "load.starts_at_h", Value: float64(d.Start), Unit: "h", From: []string{"outage.start", "outage.length"},
		How: "clock time at which the outage begins; for worst, the hour from which it asks the most energy"})
	s.Add(derive.Figure{ID: "load.energy_wh", Value: float64(d.Energy), Unit: "Wh", From: append([]string{"outage.length", "load.starts_at_h"}, ids.energy...),
		How:    "exact integral of the hourly draw of kept and rotated circuits over the outage, part hours included",
		Source: "hours of heating and cooling from ASHRAE's hourly fractions of the daily range"})
	s.Add(derive.Figure{ID: "load.average_w", Value: float64(d.Average), Unit: "W", From: []string{"load.energy_wh", "outage.length"}, How: "energy / length"})
	s.Add(derive.Figure{ID: "load.one_percent_w", Value: float64(d.Exceeded(0.01)), Unit: "W", From: ids.runningW,
		How: "demand exceeded 1 % of the time: each circuit on or off by its duty, independent of the rest, convolved", Source: "probability theory; sizing goes by the certain bound, load.running_w"})
}

func addLegs(s *derive.Figures, house *home.Home, d *loads.Demand, ids circuitIDs) {
	how := "one leg only: everything is on A"
	if house.House.Service == home.SplitPhase {
		how = "the largest turn; 120 V circuits on auto split so that the heavier leg over every turn is as light as can be, 240 V circuits half on each"
	}
	s.Add(derive.Figure{ID: "load.leg_a_va", Value: float64(d.Legs.A.VA()), Unit: "VA", From: ids.runningVA, How: how, Source: sums})
	s.Add(derive.Figure{ID: "load.leg_b_va", Value: float64(d.Legs.B.VA()), Unit: "VA", From: ids.runningVA, How: how, Source: sums})
	s.Add(derive.Figure{ID: "load.heavier_leg_va", Value: float64(d.Legs.Heaviest), Unit: "VA", From: []string{"load.leg_a_va", "load.leg_b_va"},
		How: "the heavier leg over every turn of the rotated circuits", Source: sums})
	s.Add(derive.Figure{ID: "load.neutral_a", Value: float64(d.Legs.Neutral), Unit: "A", From: []string{"load.leg_a_va", "load.leg_b_va"},
		How: "|S_A − S_B| / volts of a leg, the difference taken as phasors: legs of unlike power factor do not cancel", Source: sums})
}

func addWave(s *derive.Figures, d *loads.Demand) {
	wave, how := home.AnyWave, "no kept or rotated circuit asks for a sine wave"
	if len(d.SineFor) > 0 {
		wave, how = home.Sine, "asked for by "+derive.Names(d.SineFor, 4)
	}
	s.Add(derive.Figure{ID: "load.wave", Word: string(wave), How: how, Source: "needs.wave of the circuits and their profiles"})
}
