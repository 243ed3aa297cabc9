package sheet

import (
	"fmt"
	"strings"

	"holdover/loads"
	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/planner/derive"
	"holdover/planner/site"
)

// This file puts down the figures of a duty: what the home gives, what its circuits draw, and what its site leaves of a machine.

const sums = "complex sums of P and Q: alternating-current circuit theory"

// Derive puts the figures of the duty down.
func (d *Duty) Derive(f *derive.Figures) {
	f.Inputs(d.Home)
	names, w := slugs(d.Demand.Loads), drawing{Figures: f, home: d.Home, demand: &d.Demand}
	for i := range d.Demand.Loads {
		w.circuit(&d.Demand.Loads[i], "circuit."+names[i])
	}
	w.totals()
	w.throughTheOutage()
	w.legs()
	w.wave()
	site.Rate(f, d.Home)
}

// written are those figures, put down when they are first asked for.
func (d *Duty) written() *derive.Figures {
	d.once.Do(func() {
		d.figures = &derive.Figures{}
		d.Derive(d.figures)
	})
	return d.figures
}

// DeriveCoincidence puts down how likely the certain bound is, which takes longer to work out than all else that circuits draw.
func (d *Duty) DeriveCoincidence(f *derive.Figures) {
	running, _ := f.Get("load.running_w")
	f.Note("load.one_percent_w", float64(d.Demand.Exceeded(0.01)), "W", "demand exceeded 1 % of the time: each circuit on or off by its duty, independent of the rest, convolved",
		"probability theory; sizing goes by the certain bound, load.running_w", running.From...)
}

// A drawing puts down what circuits draw, and keeps the ids of their own figures.
type drawing struct {
	*derive.Figures
	home                                  *home.Home
	demand                                *loads.Demand
	runningW, runningVA, starting, energy []string
}

// circuit puts one circuit's figures down under its id.
func (w *drawing) circuit(l *loads.Load, id string) {
	at := fmt.Sprintf("circuits[%d]", l.Index)
	origin := func(keys ...string) string {
		for i := range keys {
			keys[i] = at + "." + keys[i]
		}
		return w.home.Source(append(keys, at)...)
	}
	running := w.Note(id+".running_w", float64(l.Running.W()), "W", runningHow(w.home, l), origin("heater", "running", "running_amps"))
	factor := w.Note(id+".power_factor", l.PowerFactor, "", "of the steady draw; 1 unless given", origin("power_factor"))
	va := w.Note(id+".running_va", float64(l.Running.VA()), "VA", "running W / power factor", "circuit theory", running, factor)
	w.runningW, w.runningVA = append(w.runningW, running), append(w.runningVA, va)
	if l.Starts {
		var from []string
		if l.Start.Kind == home.StartTimes {
			from = []string{va}
		}
		w.starting = append(w.starting, w.Note(id+".starting_va", float64(l.Starting.VA()), "VA", startHow(w.home, l), origin("start"), from...))
	}
	duty := w.Note(id+".duty", l.MeanDuty(), "", dutyHow(w.home, l), origin("use", "heater"), dutyFrom(w.home, l)...)
	energy := loads.EnergyOver(l.Hourly, w.demand.Start, w.home.Outage.Length)
	w.energy = append(w.energy, w.Note(id+".energy_wh", float64(energy), "Wh", energyHow(l), origin("use", "heater"), running, duty))
}

func (w *drawing) totals() {
	d := w.demand
	runningW := w.Note("load.running_w", float64(d.RunningW), "W", "every kept circuit on, and the largest rotated one: ΣP", sums, w.runningW...)
	runningVA := w.Note("load.running_va", float64(d.Running.VA()), "VA", "√((ΣP)² + (ΣQ)²) with Q = P·tan(arccos pf), every kept circuit on and the largest rotated one", sums, w.runningVA...)
	worstHow := "nothing here starts with a surge, so it is the running total"
	if d.WorstStart != "" {
		worstHow = fmt.Sprintf("the running total without %s, and %s starting; the largest over every starter", d.WorstStart, d.WorstStart)
	}
	from := append([]string{runningVA}, w.starting...)
	w.Note("load.worst_moment_va", float64(d.WorstVA), "VA", worstHow, sums, from...)
	w.Note("load.worst_moment_w", float64(d.WorstW), "W", "the largest real power over every starter, starting VA · starting power factor for the one that starts", sums, append([]string{runningW}, w.starting...)...)
	w.Note("load.cold_return_va", float64(d.ColdReturn), "VA", "every kept starter starting at once, the rest running", sums, from...)
	w.Note("load.start_seconds", float64(d.StartTime), "s", "the longest start among them", "the home file and its profiles", w.starting...)
}

func (w *drawing) throughTheOutage() {
	start := w.Note("load.starts_at_h", float64(w.demand.Start), "h", "clock time at which the outage begins; for worst, the hour from which it asks the most energy", "", "outage.start", "outage.length")
	energy := w.Note("load.energy_wh", float64(w.demand.Energy), "Wh", "exact integral of the hourly draw of kept and rotated circuits over the outage, part hours included",
		"hours of heating and cooling from ASHRAE's hourly fractions of the daily range", append([]string{"outage.length", start}, w.energy...)...)
	w.Put("load.average_w", "W", w.Term(energy).Over(w.Term("outage.length")), "")
}

func (w *drawing) legs() {
	how := "one leg only: everything is on A"
	if w.home.House.Service == home.SplitPhase {
		how = "the largest turn; 120 V circuits on auto split so that the heavier leg over every turn is as light as can be, 240 V circuits half on each"
	}
	legs := w.demand.Legs
	both := []string{w.Note("load.leg_a_va", float64(legs.A.VA()), "VA", how, sums, w.runningVA...), w.Note("load.leg_b_va", float64(legs.B.VA()), "VA", how, sums, w.runningVA...)}
	w.Note("load.heavier_leg_va", float64(legs.Heaviest), "VA", "the heavier leg over every turn of the rotated circuits", sums, both...)
	w.Note("load.neutral_a", float64(legs.Neutral), "A", "|S_A − S_B| / volts of a leg, the difference taken as phasors: legs of unlike power factor do not cancel", sums, both...)
}

func (w *drawing) wave() {
	wave, how := home.AnyWave, "no kept or rotated circuit asks for a sine wave"
	if minds := w.demand.SineFor; len(minds) > 0 {
		wave, how = home.Sine, "asked for by "+derive.Names(minds, 4)
	}
	w.Add(derive.Figure{ID: "load.wave", Word: string(wave), How: how, Source: "needs.wave of the circuits and their profiles"})
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

func dutyHow(house *home.Home, l *loads.Load) string {
	switch {
	case l.Use.Kind == home.UseHeating || l.Use.Kind == home.UseCooling:
		return climateHow(house, l)
	case l.Heater != nil && l.Use.Kind == home.UseAlways:
		return "share of the day it fires: draw / 24 h"
	case l.Use.Kind == home.UseAlways:
		return "no use is given: on all the time"
	}
	return "share of the day it is on"
}

// climateHow says the share of what heats or cools by the weather.
func climateHow(house *home.Home, l *loads.Load) string {
	if house.House.HeatLoss == 0 {
		return "share of the design day it is on: no heat_loss is given, so its profile's duty in its own season, half of it in a mild one, none in the other"
	}
	wants, heats, least := "indoors − outdoors", "heats", ""
	if l.Use.Kind == home.UseCooling {
		wants, heats, least = "outdoors − cooled_to", "cools", "; at the day's high no less than its profile's duty, for sun and people, and in proportion below"
	}
	return fmt.Sprintf("share of the design day it is on: heat_loss·(%s) of each hour / output of all that %s, which share that in proportion to their outputs; this one's is %s W%s",
		wants, heats, units.Format(float64(l.Output)*float64(l.Count)), least)
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
	if l.Heater != nil {
		return "firing W while it burns, standby W for the rest, and its frost heaters by the cold where it stands, over the outage"
	}
	return "running W for its duty, standby W for the rest, hour by hour over the outage"
}

// slugs gives each load an id of its own: its name in lower case, with hyphens for all but letters and digits.
func slugs(all []loads.Load) []string {
	out := make([]string, len(all))
	taken := map[string]bool{}
	for i := range all {
		base := slug(all[i].Name)
		id := base
		for n := 2; taken[id]; n++ {
			id = fmt.Sprintf("%s-%d", base, n)
		}
		taken[id] = true
		out[i] = id
	}
	return out
}

func slug(name string) string {
	var b strings.Builder
	for _, r := range strings.ToLower(name) {
		switch {
		case r >= 'a' && r <= 'z', r >= '0' && r <= '9':
			b.WriteRune(r)
		case b.Len() > 0 && !strings.HasSuffix(b.String(), "-"):
			b.WriteByte('-')
		}
	}
	if trimmed := strings.Trim(b.String(), "-"); trimmed != "" {
		return trimmed
	}
	return "circuit"
}
