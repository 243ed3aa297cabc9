package planner_test

import (
	"fmt"
	"strconv"
	"strings"

	"holdover/profiles"
)

// baseUnits turns the units that the profiles used here are written in into W, V, A, s, min, °C: exact by definition
// (International Table Btu 1055.05585262 J).
var baseUnits = map[string]float64{"W": 1, "kW": 1000, "V": 1, "A": 1, "s": 1, "min": 1, "h": 1, "C": 1,
	"kBtu/h": 1000 * 1055.05585262 / 3600}

func plainNumber(v any) float64 {
	switch v := v.(type) {
	case int:
		return float64(v)
	case float64:
		return v
	case string:
		digits, unit, _ := strings.Cut(v, " ")
		n, err := strconv.ParseFloat(digits, 64)
		if err != nil {
			panic(v)
		}
		if unit == "F" {
			return (n - 32) * 5 / 9
		}
		factor, ok := baseUnits[unit]
		if !ok {
			panic(v)
		}
		return n * factor
	}
	panic(fmt.Sprintf("%T", v))
}

// readProfile fills a circuit from a profile's own text.
func readProfile(c *plainCircuit, name string) {
	p, ok := profiles.FindCircuit(name)
	if !ok {
		panic("no profile " + name)
	}
	var fields map[string]any
	if err := p.Fields.Decode(&fields); err != nil {
		panic(err)
	}
	c.like, c.pf, c.wave = name, 1, "any"
	for key, v := range fields {
		switch key {
		case "volts":
			c.volts = plainNumber(v)
		case "running":
			c.runningW = plainNumber(v)
		case "running_amps":
			c.amps = plainNumber(v)
		case "standby":
			c.standbyW = plainNumber(v)
		case "power_factor":
			c.pf = plainNumber(v)
		case "output":
			c.outputW = plainNumber(v)
		case "fallback_duty":
			c.fallback = plainNumber(v)
		case "start":
			c.readStart(v)
		case "use":
			c.readUse(v)
		case "needs":
			c.wave = v.(map[string]any)["wave"].(string)
		case "heater":
			c.readHeater(v.(map[string]any))
		}
	}
}

func (c *plainCircuit) readStart(v any) {
	start, ok := v.(map[string]any)
	if !ok {
		return
	}
	for _, kind := range []string{"times", "amps", "watts"} {
		if value, ok := start[kind]; ok {
			c.start, c.startValue = kind, plainNumber(value)
		}
	}
	if letter, ok := start["code"]; ok {
		c.start, c.startLetter, c.startValue = "code", letter.(string), plainNumber(start["hp"])
	}
}

func (c *plainCircuit) readUse(v any) {
	if word, ok := v.(string); ok {
		c.use = word
		return
	}
	for kind, value := range v.(map[string]any) {
		c.use, c.useValue = kind, plainNumber(value)
	}
}

func (c *plainCircuit) readHeater(v map[string]any) {
	g := &plainHeater{standsIn: v["stands_in"].(string)}
	for key, into := range map[string]*float64{"firing": &g.firingW, "standby": &g.standbyW, "freeze_guard": &g.guardW,
		"draw": &g.drawMin, "garage_temp": &g.garageC} {
		if value, ok := v[key]; ok {
			*into = plainNumber(value)
		}
	}
	_, g.garageGiven = v["garage_temp"]
	c.heater = g
}
