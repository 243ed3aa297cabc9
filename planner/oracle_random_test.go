package planner_test

import (
	"fmt"
	"math"

	"pgregory.net/rapid"

	"holdover/profiles"
)

// between draws lo..hi on a grid of a thousand, so that a failure reads well, the ends more often than by chance. Every point
// is as likely: rapid by itself keeps to small numbers.
func between(t *rapid.T, lo, hi float64, name string) float64 {
	x := rapid.Uint64().Draw(t, name) * 0x9e3779b97f4a7c15
	share := math.Min(1, math.Max(0, float64((x^x>>31)%1101)/1000-0.05))
	return math.Round((lo+(hi-lo)*share)*1e6) / 1e6
}

func oneOf(t *rapid.T, name string, words ...string) string {
	return rapid.SampledFrom(words).Draw(t, name)
}

// chance is true with about the given odds of 1 in n.
func chance(t *rapid.T, n int, name string) bool { return rapid.IntRange(1, n).Draw(t, name) == n }

// plainHomes draws homes with every kind of input; at most most circuits, so that brute force stays quick.
func plainHomes(t *rapid.T, most int) *plainHome {
	h := &plainHome{
		service: oneOf(t, "service", "120/240 V", "120/240 V", "120 V", "230 V"), season: oneOf(t, "season", "winter", "summer", "mild"),
		indoorsC: between(t, -5, 30, "indoors"), elevationM: between(t, -100, 4500, "elevation"),
		humidity: between(t, 0, 1, "humidity"), dailyRangeK: between(t, 0, 25, "range"),
		batteryC: between(t, -40, 58, "battery"), inverterC: between(t, -40, 55, "inverter"),
		chemistry: oneOf(t, "chemistry", "lfp", "nmc", "agm", "flooded"), imperial: rapid.Bool().Draw(t, "imperial"),
		engineDerate: oneOf(t, "derate", "iso3046", "iso3046", "rule-of-thumb", ""), engineStated: between(t, 0.2, 1, "stated"),
		startH: -1, noBatteryPlace: !chance(t, 10, "battery place"),
	}
	h.coldestC = between(t, -40, 30, "coldest")
	h.hottestC = between(t, h.coldestC+h.dailyRangeK, 56, "hottest")
	if rapid.Bool().Draw(t, "audited") {
		h.heatLossWK = between(t, 10, 800, "heat loss")
	}
	h.lengthH = between(t, 0.25, oneLength(t), "length")
	if !chance(t, 4, "worst start") {
		h.startH = float64(rapid.IntRange(0, 24*60-1).Draw(t, "start")) / 60
	}
	h.engine = rapid.SampledFrom(profiles.Names("engines")).Draw(t, "engine")
	h.fuels = rapid.Permutation([]string{"gasoline", "diesel", "propane", "natural-gas"}).Draw(t, "fuels")[:rapid.IntRange(1, 4).Draw(t, "how many fuels")]
	h.assumptions(t)
	n := rapid.IntRange(1, most).Draw(t, "circuits")
	for i := range n {
		h.circuits = append(h.circuits, h.circuit(t, i))
	}
	h.pair(t)
	return h
}

func oneLength(t *rapid.T) float64 {
	return rapid.SampledFrom([]float64{2, 24, 72, 240}).Draw(t, "longest")
}

// assumptions: every key, at its default of the design's table or anywhere in a sensible range.
func (h *plainHome) assumptions(t *rapid.T) {
	h.assume = map[string]float64{}
	draw := func(key string, usual, lo, hi float64) {
		h.assume[key] = usual
		if chance(t, 3, key+" given") {
			h.assume[key] = between(t, lo, hi, key)
		}
	}
	draw("power_margin", 0.15, 0, 0.5)
	draw("energy_margin", 0.10, 0, 0.5)
	draw("starting_power_factor", 0.6, 0.2, 1)
	draw("inverter_efficiency", 0.92, 0.5, 1)
	draw("inverter_idle", 25, 0, 200)
	draw("inverter_knee", 40, 20, 60)
	draw("inverter_derate_per_k", 0.02, 0, 0.025)
	draw("module", 5000, 500, 20000)
	draw("mechanical_efficiency", 0.8, 0.65, 1)
	draw("reactance", 0.2, 0.05, 0.4)
	draw("allowed_dip", 0.25, 0.05, 0.5)
	draw("generator_surge", 1.25, 1, 2)
	draw("generator_power_factor", 1, 0.5, 1)
	draw("freeze_cut_in", 4, 0, 10)
	draw("freeze_full", -20, -30, -5)
	if h.depthGiven = chance(t, 4, "depth"); h.depthGiven {
		h.assume["depth_of_discharge"] = between(t, 0.2, 1, "depth_of_discharge")
	}
	if h.eolGiven = chance(t, 4, "end"); h.eolGiven {
		h.assume["capacity_at_end_of_life"] = between(t, 0.4, 1, "capacity_at_end_of_life")
	}
	if h.peukertGiven = chance(t, 4, "exponent"); h.peukertGiven {
		h.assume["peukert"] = between(t, 1, 1.4, "peukert")
	}
	if chance(t, 4, "battery factor") {
		h.temperatureGivenShare = between(t, 0.3, 1.2, "battery_temperature_factor")
		h.assume["battery_temperature_factor"] = h.temperatureGivenShare
	}
	if h.chargeCoolantGiven = chance(t, 4, "coolant"); h.chargeCoolantGiven {
		h.chargeCoolantC = between(t, 0, 60, "charge_coolant")
	}
}

// profiled are profiles whose own words the oracle reads.
var profiled = []string{"refrigerator", "sump-pump-third-hp", "modem-and-router", "furnace-gas", "window-ac", "gas-instant-heater-guarded"}

func (h *plainHome) circuit(t *rapid.T, i int) plainCircuit {
	c := plainCircuit{
		name: fmt.Sprintf("Circuit %d", i), care: oneOf(t, "care", "keep", "keep", "rotate", "rotate", "shed"),
		count: rapid.SampledFrom([]int{1, 1, 1, 2, 3, 7}).Draw(t, "count"), leg: "auto", partner: -1,
		volts: 120, pf: between(t, 0.3, 1, "pf"), wave: oneOf(t, "wave", "sine", "any", "any"),
	}
	switch h.service {
	case "230 V":
		c.volts = 230
	case "120/240 V":
		c.volts = rapid.SampledFrom([]float64{120, 120, 240}).Draw(t, "volts")
	}
	if c.volts == 120 && chance(t, 6, "like") {
		readProfile(&c, rapid.SampledFrom(profiled).Draw(t, "profile"))
	} else if chance(t, 6, "heater") {
		c.heater = h.heater(t)
	} else {
		c.draws(t)
	}
	if c.volts == 120 && h.service == "120/240 V" {
		c.leg = oneOf(t, "leg", "auto", "auto", "auto", "A", "B")
	}
	return c
}

// draws gives a circuit its watts, its start and its use.
func (c *plainCircuit) draws(t *rapid.T) {
	c.runningW = between(t, 0, rapid.SampledFrom([]float64{50, 500, 3000}).Draw(t, "scale"), "running")
	if chance(t, 4, "by amps") {
		c.runningW, c.amps = 0, between(t, 0.1, 15, "amps")
	}
	c.standbyW = between(t, 0, 20, "standby")
	switch c.start = oneOf(t, "start", "none", "none", "times", "amps", "code", "watts"); c.start {
	case "times":
		c.startValue = between(t, 1, 8, "times")
	case "amps":
		c.startValue = between(t, 1, 90, "locked-rotor amps")
	case "watts":
		c.startValue = between(t, 10, 6000, "start watts")
	case "code":
		c.startLetter = oneOf(t, "letter", "A", "C", "F", "G", "H", "K", "L", "M", "P", "U")
		c.startValue = between(t, 0.1, 3, "hp")
	}
	c.use = oneOf(t, "use", "", "duty", "hours_per_day", "minutes_per_day", "hours", "heating", "cooling")
	switch c.use {
	case "duty":
		c.useValue = between(t, 0, 1, "duty")
	case "hours_per_day":
		c.useValue = between(t, 0, 24, "hours a day")
	case "minutes_per_day":
		c.useValue = between(t, 0, 1440, "minutes a day")
	case "hours":
		for i := range c.hours {
			c.hours[i] = between(t, 0, 1, "share")
		}
	case "heating", "cooling":
		c.outputW, c.fallback = between(t, 500, 20000, "output"), between(t, 0, 1, "fallback")
	}
}

func (h *plainHome) heater(t *rapid.T) *plainHeater {
	g := &plainHeater{
		firingW: between(t, 0, 200, "firing"), standbyW: between(t, 0, 10, "heater standby"), guardW: between(t, 0, 300, "guard"),
		drawMin: between(t, 0, 300, "draw"), standsIn: oneOf(t, "stands in", "indoors", "garage", "outdoors"),
	}
	if g.garageGiven = g.standsIn == "garage" && rapid.Bool().Draw(t, "garage known"); g.garageGiven {
		g.garageC = between(t, -30, 20, "garage")
	}
	if g.guardRangeGiven = chance(t, 3, "guard range"); g.guardRangeGiven {
		g.fromC, g.fullC = between(t, 0, 8, "guard from"), between(t, -30, -5, "guard full")
	}
	return g
}

// pair makes a multiwire pair of the first two free circuits of 120 V.
func (h *plainHome) pair(t *rapid.T) {
	if h.service != "120/240 V" || !rapid.Bool().Draw(t, "multiwire") {
		return
	}
	var free []int
	for i, c := range h.circuits {
		if c.volts == 120 && c.leg == "auto" && c.count == 1 {
			free = append(free, i)
		}
	}
	if len(free) >= 2 {
		h.circuits[free[0]].partner, h.circuits[free[1]].partner = free[1], free[0]
	}
}
