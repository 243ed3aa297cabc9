package planner_test

import (
	"fmt"
	"strconv"
	"strings"
)

// A plainHome is every input of a home file as a bare number in a base unit. The oracle works from it alone; its text is
// what the planner reads, so the two meet only at the file format.
type plainHome struct {
	service               string // as in home.service
	heatLossWK            float64
	indoorsC              float64
	elevationM            float64
	hottestC, coldestC    float64
	dailyRangeK           float64
	humidity              float64
	batteryC, inverterC   float64
	lengthH               float64
	startH                float64 // -1: worst
	season                string
	fuels                 []string
	circuits              []plainCircuit
	assume                map[string]float64 // keys of the assume section whose values are plain numbers in base units
	chemistry, engine     string
	engineDerate          string  // iso3046, rule-of-thumb or "" for stated
	engineStated          float64 // used where engineDerate is ""
	chargeCoolantC        float64
	chargeCoolantGiven    bool
	imperial              bool // write the site in feet and Fahrenheit
	depthGiven, eolGiven  bool
	peukertGiven          bool
	temperatureGivenShare float64 // 0: from the table
	noBatteryPlace        bool    // no promised figure depends on it, and the search is short
}

// A plainCircuit is one entry under circuits, in V, W, s, h and °C.
type plainCircuit struct {
	name, like, care string
	count            int
	volts            float64
	runningW, amps   float64 // one of the two; amps where runningW is 0
	standbyW, pf     float64
	start            string // none, times, amps, code, watts
	startValue       float64
	startLetter      string
	use              string // "", duty, hours_per_day, minutes_per_day, hours, heating, cooling
	useValue         float64
	hours            [24]float64
	outputW          float64
	fallback         float64
	leg              string // A, B or auto
	partner          int    // index of its multiwire partner, -1: none
	wave             string
	heater           *plainHeater
}

// A plainHeater is a gas water heater.
type plainHeater struct {
	firingW, standbyW, guardW float64
	fromC, fullC              float64
	guardRangeGiven           bool
	drawMin                   float64
	standsIn                  string
	garageC                   float64
	garageGiven               bool
}

func number(v float64) string { return strconv.FormatFloat(v, 'g', -1, 64) }

func fahrenheit(c float64) string { return number(c*9/5+32) + " F" }

// text writes the home file.
func (h *plainHome) text() string {
	var b strings.Builder
	line := func(format string, args ...any) { fmt.Fprintf(&b, format+"\n", args...) }
	celsius := func(c float64) string {
		if h.imperial {
			return fahrenheit(c)
		}
		return number(c) + " C"
	}
	elevation, dailyRange := number(h.elevationM)+" m", number(h.dailyRangeK)+" K"
	if h.imperial {
		elevation, dailyRange = number(h.elevationM/0.3048)+" ft", number(h.dailyRangeK*9/5)+" F"
	}
	line("holdover: 1\nhome:\n  name: Plain\n  service: %s\n  indoors: %s", h.service, celsius(h.indoorsC))
	if h.heatLossWK > 0 {
		line("  heat_loss: %s W/K", number(h.heatLossWK))
	}
	line("site: {elevation: %s, hottest: %s, coldest: %s, daily_range: %s, humidity: %s, battery_space: %s, inverter_space: %s}",
		elevation, celsius(h.hottestC), celsius(h.coldestC), dailyRange, number(h.humidity), celsius(h.batteryC), celsius(h.inverterC))
	start := "worst"
	if h.startH >= 0 {
		minutes := int(h.startH*60 + 0.5)
		start = fmt.Sprintf("\"%02d:%02d\"", minutes/60, minutes%60)
	}
	line("outage: {length: %s h, start: %s, season: %s}", number(h.lengthH), start, h.season)
	if h.noBatteryPlace {
		line("limits: {fuels: [%s], battery_place: none}", strings.Join(h.fuels, ", "))
	} else {
		line("limits: {fuels: [%s]}", strings.Join(h.fuels, ", "))
	}
	line("assume:\n  chemistry: %s\n  engine: %s", h.chemistry, h.engine)
	if h.engineDerate != "" {
		line("  engine_derate: %s", h.engineDerate)
	} else {
		line("  engine_derate: %s", number(h.engineStated))
	}
	if h.chargeCoolantGiven {
		line("  charge_coolant: %s", celsius(h.chargeCoolantC))
	}
	for key, v := range h.assume {
		if key == "inverter_knee" || key == "freeze_cut_in" || key == "freeze_full" {
			line("  %s: %s", key, celsius(v))
			continue
		}
		line("  %s: %s", key, number(v))
	}
	if len(h.circuits) == 0 {
		line("circuits: []")
		return b.String()
	}
	line("circuits:")
	for i := range h.circuits {
		line("  - {%s}", strings.Join(h.circuits[i].fields(h), ", "))
	}
	return b.String()
}

// fields writes one circuit.
func (c *plainCircuit) fields(h *plainHome) []string {
	out := []string{"name: " + c.name, "care: " + c.care, "count: " + strconv.Itoa(c.count)}
	add := func(format string, args ...any) { out = append(out, fmt.Sprintf(format, args...)) }
	if c.partner >= 0 {
		add("shares_neutral_with: %s", h.circuits[c.partner].name)
	}
	if c.leg != "auto" {
		add("leg: %s", c.leg)
	}
	if c.like != "" {
		add("like: %s", c.like)
		add("needs: {can_wait: 6 min}")
		return out
	}
	add("volts: %s V, power_factor: %s, needs: {wave: %s, can_wait: 6 min}", number(c.volts), number(c.pf), c.wave)
	if c.heater != nil {
		add("heater: {%s}", c.heater.fields())
	} else if c.runningW > 0 || c.amps == 0 {
		add("running: %s kW", number(c.runningW/1000))
	} else {
		add("running_amps: %s A", number(c.amps))
	}
	if c.heater == nil {
		add("standby: %s W", number(c.standbyW))
	}
	switch c.start {
	case "times":
		add("start: {times: %s}", number(c.startValue))
	case "amps":
		add("start: {amps: %s A}", number(c.startValue))
	case "watts":
		add("start: {watts: %s W}", number(c.startValue))
	case "code":
		add("start: {code: %s, hp: %s}", c.startLetter, number(c.startValue))
	}
	switch c.use {
	case "duty":
		add("use: {duty: %s}", number(c.useValue))
	case "hours_per_day":
		add("use: {hours_per_day: %s h}", number(c.useValue))
	case "minutes_per_day":
		add("use: {minutes_per_day: %s min}", number(c.useValue))
	case "hours":
		shares := make([]string, 24)
		for i, v := range c.hours {
			shares[i] = number(v)
		}
		add("use: {hours: [%s]}", strings.Join(shares, ", "))
	case "heating", "cooling":
		add("use: %s, output: %s W, fallback_duty: %s", c.use, number(c.outputW), number(c.fallback))
	}
	return out
}

func (g *plainHeater) fields() string {
	out := fmt.Sprintf("firing: %s W, standby: %s W, freeze_guard: %s W, draw: %s min, stands_in: %s",
		number(g.firingW), number(g.standbyW), number(g.guardW), number(g.drawMin), g.standsIn)
	if g.garageGiven {
		out += fmt.Sprintf(", garage_temp: %s C", number(g.garageC))
	}
	if g.guardRangeGiven {
		out += fmt.Sprintf(", guard_from: %s C, guard_full: %s C", number(g.fromC), number(g.fullC))
	}
	return out
}
