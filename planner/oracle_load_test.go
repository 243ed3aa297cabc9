package planner_test

import (
	"math"
	"math/cmplx"

	"holdover/profiles"
)

// The oracle of the demand: method.md, "Load", by the plainest code. Powers are complex VA: the real part is W.

func power(watts, factor float64) complex128 {
	return complex(watts, watts*math.Tan(math.Acos(factor)))
}

// guardTemperature is where a heater's frost heaters feel the cold at a clock hour.
func (h *plainHome) guardTemperature(g *plainHeater, hour int) float64 {
	switch {
	case g.standsIn == "indoors":
		return h.indoorsC
	case g.standsIn == "garage" && g.garageGiven && h.season == "winter":
		return g.garageC
	}
	return h.outdoors(hour)
}

// guardDuty is 0 at the cut-in and 1 at the guard's rated low, a straight line between.
func (h *plainHome) guardDuty(g *plainHeater, hour int) float64 {
	from, full := h.assume["freeze_cut_in"], h.assume["freeze_full"]
	if g.guardRangeGiven {
		from, full = g.fromC, g.fullC
	}
	return clamp01((from - h.guardTemperature(g, hour)) / (from - full))
}

func clamp01(v float64) float64 { return math.Max(0, math.Min(1, v)) }

// designHigh is the air temperature for derating and the high of the design day.
func (h *plainHome) designHigh() float64 {
	switch h.season {
	case "summer":
		return h.hottestC
	case "winter":
		return h.coldestC + h.dailyRangeK
	}
	return (h.hottestC + h.coldestC + h.dailyRangeK) / 2
}

// outdoors is ASHRAE's fraction of the daily range below the day's high.
func (h *plainHome) outdoors(hour int) float64 {
	return h.designHigh() - profiles.HourlyRangeFractions()[hour]*h.dailyRangeK
}

// running is the steady power of one unit of a circuit.
func (h *plainHome) running(c *plainCircuit) complex128 {
	watts := c.runningW
	if watts == 0 && c.amps > 0 {
		watts = c.amps * c.volts * c.pf
	}
	if g := c.heater; g != nil {
		watts = g.firingW
		for hour := range 24 {
			if h.guardDuty(g, hour) > 0 {
				watts = g.firingW + g.guardW
			}
		}
	}
	return power(watts, c.pf)
}

// starting is the power of one unit in its first moments; ok is false for a circuit that has no start of its own.
func (h *plainHome) starting(c *plainCircuit) (complex128, bool) {
	factor := h.assume["starting_power_factor"]
	var va float64
	switch c.start {
	case "times":
		va = c.startValue * cmplx.Abs(h.running(c))
		if c.heater != nil {
			va = c.startValue * c.heater.firingW / c.pf
		}
	case "amps":
		va = c.startValue * c.volts
	case "code":
		_, high, _ := profiles.CodeLetterKVAPerHP(c.startLetter)
		va = high * 1000 * c.startValue
	case "watts":
		va = c.startValue / factor
	default:
		return 0, false
	}
	return power(va*factor, factor), true
}

// wattsAt is the mean draw of one unit through a clock hour.
func (h *plainHome) wattsAt(c *plainCircuit, hour int) float64 {
	if g := c.heater; g != nil {
		duty := g.drawMin / 1440
		return duty*g.firingW + (1-duty)*g.standbyW + h.guardDuty(g, hour)*g.guardW
	}
	duty := h.duty(c, hour)
	return duty*real(h.running(c)) + (1-duty)*c.standbyW
}

func (h *plainHome) duty(c *plainCircuit, hour int) float64 {
	difference := h.indoorsC - h.outdoors(hour)
	output := 0.0 // all that heat, or cool, share it
	for i := range h.circuits {
		if other := &h.circuits[i]; h.circuits[i].care != "shed" && other.use == c.use {
			output += other.outputW * float64(other.count)
		}
	}
	switch c.use {
	case "duty":
		return c.useValue
	case "hours_per_day":
		return c.useValue / 24
	case "minutes_per_day":
		return c.useValue / 1440
	case "hours":
		return c.hours[hour]
	case "heating", "cooling":
		if h.heatLossWK == 0 {
			return c.fallback * seasonShare[c.use][h.season]
		}
		if c.use == "heating" {
			return clamp01(h.heatLossWK * difference / output)
		}
		const cooledToC = 25 // home.cooled_to, which the design does not have
		warmer := h.outdoors(hour) - cooledToC
		if warmer <= 0 {
			return 0
		}
		hottest := h.outdoors(14) // the table is 0 at 14 and 15 h
		return math.Max(c.fallback*warmer/(hottest-cooledToC), clamp01(h.heatLossWK*warmer/output))
	}
	return 1
}

// seasonShare is how much of a profile's duty holds in a season where the heat loss is not known: our own rule, as the
// doc comment of home.Circuit has it; the method is silent.
var seasonShare = map[string]map[string]float64{
	"heating": {"winter": 1, "mild": 0.5}, "cooling": {"summer": 1, "mild": 0.5},
}

// A plainDemand is what the oracle says of the load.
type plainDemand struct {
	running          complex128 // of the turn with the most VA
	runningW         float64    // of the turn with the most W
	worstVA, worstW  float64
	coldVA           float64
	energyWh, startH float64
	heaviestVA       float64 // the heavier leg of the best split, over every turn
	sine             bool
	hourly           [24]float64
}

// all is a circuit with all its units on.
func (h *plainHome) all(i int) complex128 {
	c := &h.circuits[i]
	return complex(float64(c.count), 0) * h.running(c)
}

// care is what becomes of a circuit: one that is set to take turns but is on nine tenths of the day or more is kept. Each can wait
// 6 minutes, and no outage is as short as that.
func (h *plainHome) care(c *plainCircuit) string {
	on, guard := 0.0, 0.0
	for hour := range 24 {
		if g := c.heater; g != nil {
			on, guard = on+g.drawMin/1440/24, math.Max(guard, h.guardDuty(g, hour))
		} else {
			on += h.duty(c, hour) / 24
		}
	}
	if c.heater != nil && c.heater.guardW == 0 {
		guard = 0
	}
	if c.care == "rotate" && math.Max(on, guard) > 0.9 {
		return "keep"
	}
	return c.care
}

// turns lists every set of circuits that can be on together: the kept ones, alone or with one rotated.
func (h *plainHome) turns() (turns [][]int) {
	var kept, rotated []int
	for i, c := range h.circuits {
		switch h.care(&c) {
		case "keep":
			kept = append(kept, i)
		case "rotate":
			rotated = append(rotated, i)
		}
	}
	turns = append(turns, kept)
	for _, i := range rotated {
		turns = append(turns, append(append([]int{}, kept...), i))
	}
	return turns
}

func (h *plainHome) demand() plainDemand {
	var d plainDemand
	for i := range h.circuits {
		c := &h.circuits[i]
		if c.care == "shed" {
			continue
		}
		d.sine = d.sine || c.wave == "sine"
		for hour := range 24 {
			d.hourly[hour] += float64(c.count) * h.wattsAt(c, hour)
		}
	}
	for _, turn := range h.turns() {
		h.moments(&d, turn)
	}
	h.energy(&d)
	h.splitLegs(&d)
	return d
}

// moments raises what a turn asks for: running, its worst moment, and the cold return.
func (h *plainHome) moments(d *plainDemand, turn []int) {
	var running complex128
	for _, i := range turn {
		running += h.all(i)
	}
	if cmplx.Abs(running) > cmplx.Abs(d.running) {
		d.running = running
	}
	d.runningW = math.Max(d.runningW, real(running))
	cold := running
	d.worstVA, d.worstW = math.Max(d.worstVA, cmplx.Abs(running)), math.Max(d.worstW, real(running))
	for _, i := range turn {
		c := &h.circuits[i]
		start, ok := h.starting(c)
		if !ok {
			continue
		}
		moment := running - h.running(c) + start
		d.worstVA, d.worstW = math.Max(d.worstVA, cmplx.Abs(moment)), math.Max(d.worstW, real(moment))
		if h.care(c) == "keep" {
			cold += complex(float64(c.count), 0) * (start - h.running(c))
		}
	}
	d.coldVA = math.Max(d.coldVA, cmplx.Abs(cold))
}

// energy is the sum over whole and part clock hours; a worst start is the clock hour with the most.
func (h *plainHome) energy(d *plainDemand) {
	over := func(start float64) float64 {
		var sum float64
		for at := start; at < start+h.lengthH-1e-12; {
			next := math.Min(math.Floor(at+1e-12)+1, start+h.lengthH)
			sum += d.hourly[int(math.Floor(at+1e-12))%24] * (next - at)
			at = next
		}
		return sum
	}
	if h.startH >= 0 {
		d.startH, d.energyWh = h.startH, over(h.startH)
		return
	}
	for hour := range 24 {
		if e := over(float64(hour)); e > d.energyWh*(1+1e-12) {
			d.startH, d.energyWh = float64(hour), e
		}
	}
}

// splitLegs tries every way to put the 120 V circuits on the legs, and takes the heavier leg over every turn.
func (h *plainHome) splitLegs(d *plainDemand) {
	if h.service != "120/240 V" {
		d.heaviestVA = cmplx.Abs(d.running)
		return
	}
	var free []int
	for i, c := range h.circuits {
		if c.care != "shed" && c.volts <= 200 {
			free = append(free, i)
		}
	}
	d.heaviestVA = math.Inf(1)
	for bits := range 1 << len(free) {
		side := map[int]int{}
		for k, i := range free {
			side[i] = bits >> k & 1
		}
		if h.permits(side) {
			d.heaviestVA = math.Min(d.heaviestVA, h.heaviest(side))
		}
	}
}

// heaviest is the heavier leg over every turn, the 120 V circuits lying on sides 0 and 1.
func (h *plainHome) heaviest(side map[int]int) (heaviest float64) {
	for _, turn := range h.turns() {
		var legs [2]complex128
		for _, i := range turn {
			if leg, one := side[i]; one {
				legs[leg] += h.all(i)
			} else {
				legs[0] += h.all(i) / 2
				legs[1] += h.all(i) / 2
			}
		}
		heaviest = math.Max(heaviest, math.Max(cmplx.Abs(legs[0]), cmplx.Abs(legs[1])))
	}
	return heaviest
}

func (h *plainHome) permits(side map[int]int) bool {
	for i, s := range side {
		c := &h.circuits[i]
		if c.leg == "A" && s == 1 || c.leg == "B" && s == 0 {
			return false
		}
		if c.partner < 0 {
			continue
		}
		other, carried := side[c.partner]
		if given := h.circuits[c.partner].leg; carried && other == s || given == "A" && s == 0 || given == "B" && s == 1 {
			return false
		}
	}
	return true
}
