package home_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"holdover/loads/home"
	"holdover/loads/units"
)

const wiringHome = `holdover: 1
home: {%s}
site: {%s}
circuits:
  - {name: Range, care: shed, volts: 240 V%s}
`

// What a person may get wrong in the fields of a transfer job: line, field, what was found and what is accepted.
func TestWiring_Faults(t *testing.T) {
	for _, c := range []struct{ home, site, circuit, want string }{
		{circuit: ", running: 1 kW, class: rang", want: `home.yaml:5: circuits[0].class: "rang" found; range, cooktop,`},
		{circuit: ", running: 1 kW, nameplate: 12 A", want: `circuits[0].nameplate: "12 A" is a current; a nameplate rating is wanted, like "12 kW"`},
		{circuit: ", running: 1 kW, nameplate: 0 kW", want: `circuits[0].nameplate: "0 kW" is out of range`},
		{circuit: ", running: 1 kW, separately_controlled: five", want: `circuits[0].separately_controlled: "five" is not a whole number`},
		{circuit: ", running: 1 kW", home: "transfer: by hand", want: `home.yaml:2: home.transfer: "by hand" found; manual, automatic or managed is accepted`},
		{circuit: ", running: 1 kW", home: "measured_over: week", want: `home.measured_over: "week" found; year or 30-days is accepted`},
		{circuit: ", running: 1 kW", home: "small_appliance_circuits: -1", want: `home.small_appliance_circuits: "-1" is out of range`},
		{circuit: ", running: 1 kW", site: "runs: [{name: To inlet}]", want: "home.yaml:3: site.runs[0].length: the length is missing"},
		{circuit: ", running: 1 kW", site: "runs: [{length: 20 ft}]", want: "site.runs[0].name: the name is missing"},
		{circuit: ", running: 1 kW", site: "runs: [{name: A, length: 20 ft, metal: tin}]", want: `site.runs[0].metal: "tin" found; copper, aluminium or aluminum is accepted`},
		{circuit: ", running: 1 kW", site: "runs: [{name: A, length: 20 ft, terminals: 80 C}]", want: "site.runs[0].terminals: 80 °C found; 60 C, 75 C or 90 C is accepted"},
		{circuit: ", running: 1 kW", site: "runs: 20 ft", want: `site.runs: "20 ft" found; a list is wanted`},
		{circuit: ", running: 1 kW", site: "gas: {pipe: 5/8 in, length: 10 ft}", want: `site.gas.pipe: "5/8 in" found; 1/2, 3/4, 1 or 1-1/4 in is accepted`},
		{circuit: ", running: 1 kW", site: "gas: {kind: natural-gas, cylinders: 2}", want: "home.yaml:3: site.gas.cylinders: natural-gas does not come in cylinders; propane is accepted"},
		{circuit: ", running: 1 kW", site: "gas: {pipe: 1 in}", want: "site.gas.length: the length is missing"},
		{circuit: ", running: 1 kW", site: "gas: {pipe: 1 in, length: 10 ft, pressure: 7 ft}", want: `site.gas.pressure: "7 ft" is a length; a pressure is wanted, like "7 in w.c."`},
	} {
		_, err := home.Read([]byte(fmt.Sprintf(wiringHome, c.home, c.site, c.circuit)), "home.yaml")
		if assert.Error(t, err, c.want) {
			assert.Contains(t, err.Error(), c.want)
			assert.Equal(t, 0, strings.Count(err.Error(), "\n"), "one fault: %v", err)
		}
	}
}

// What it reads: units, both spellings, the pipe with or without its inches, and a plate that stands for a running draw.
func TestWiring_Reads(t *testing.T) {
	house, err := home.Read([]byte(fmt.Sprintf(wiringHome, "measured_demand: 9.6 kW, transfer: managed",
		"runs: [{name: A, length: 100 ft, metal: aluminum, ambient: 104 F}], gas: {pipe: 1 1/4 in, length: 10 m, pressure: 2 psi, meter: 250 ft3/h}, generator_clearance: 20 ft",
		", class: range, nameplate: 12 kW, power_factor: 0.9")), "home.yaml")
	require.NoError(t, err)
	run, gas, c := house.Site.Runs[0], house.Site.Gas, house.Circuits[0]
	assert.InDelta(t, 30.48, float64(run.Length), 1e-9)
	assert.Equal(t, home.Aluminium, run.Metal)
	assert.InDelta(t, 40, float64(run.Ambient), 1e-9)
	assert.Equal(t, home.Pipe("1-1/4"), gas.Pipe)
	assert.InDelta(t, 13.789514, float64(gas.Pressure), 1e-9)
	assert.InDelta(t, 7.0792, float64(gas.Meter), 1e-4)
	assert.Equal(t, units.Nameplate(12000), c.Nameplate)
	assert.InDelta(t, 10800, float64(c.Running), 1e-9, "12 kVA at a power factor of 0.9")
	assert.Equal(t, units.Nameplate(9600), house.House.MeasuredDemand)
	assert.Equal(t, [2]int{2, 1}, [2]int{house.House.SmallAppliances, house.House.Laundry}, "the defaults")
	for _, pipe := range []string{"1/2", "3/4 in", "1", "1-1/4 in"} {
		_, err := home.Read([]byte(fmt.Sprintf(wiringHome, "", "gas: {pipe: "+pipe+", length: 9 ft}", ", running: 1 kW")), "home.yaml")
		assert.NoError(t, err, pipe)
	}
}
