package planner_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"holdover/loads/units"
	"holdover/planner/battery"
	"holdover/planner/derive"
	"holdover/planner/generator"
	"holdover/profiles"
)

const (
	litresPerGallon   = 3.785411784 // exact
	cubicMetresPerFt3 = 0.028316846592
	btuPerKWh         = 3412 // as EIA rounds it
)

// IEEE 485 Table 1 through the share of capacity, 1/factor.
func TestIEEE485_CellSizeFactors(t *testing.T) {
	var p curve
	published(t, "ieee485", &p)
	require.NotEmpty(t, p.Expected)
	for _, name := range []string{"flooded", "agm"} {
		chemistry, ok := profiles.FindChemistry(profiles.ChemistryName(name))
		require.True(t, ok)
		for _, row := range p.Expected {
			share, outside := battery.TemperatureFactor(chemistry, units.Celsius((row[0]-32)*5/9))
			assert.InEpsilon(t, 1/row[1], share, p.Tolerance, "%s at %v F", name, row[0])
			if row[0] > 25 && row[0] < 125 {
				assert.False(t, outside, "%v F is inside the table", row[0])
			}
		}
		_, outside := battery.TemperatureFactor(chemistry, -20)
		assert.True(t, outside)
	}
}

// Peukert's law in its rated-hour form: 8.7055 h and 4.0613 h.
func TestPeukert_RatedHourForm(t *testing.T) {
	var p struct {
		Cases []struct {
			CapacityAh float64 `yaml:"capacity_ah"`
			RatedHours float64 `yaml:"rated_hours"`
			Exponent   float64
			Amps       float64
			ExpectedH  float64 `yaml:"expected_h"`
		}
		Tolerance float64 `yaml:"tolerance_h"`
	}
	published(t, "peukert", &p)
	require.NotEmpty(t, p.Cases)
	for _, c := range p.Cases {
		assert.InDelta(t, c.ExpectedH, float64(battery.PeukertTime(c.CapacityAh, c.Amps, c.RatedHours, c.Exponent)), p.Tolerance)
	}
}

// A nameplate and its rate factor satisfy each other, and a rate factor gives back Peukert's time.
func TestPeukert_NameplateSolvesItsOwnRate(t *testing.T) {
	for _, draw := range []units.Watts{10, 300, 4000} {
		for _, base := range []units.WattHours{500, 5000, 50000} {
			n := battery.Nameplate(base, draw, 20, 1.2)
			rate := battery.Rate(n, draw, 20, 1.2)
			assert.InEpsilon(t, float64(base), float64(n)*rate, 1e-12)
			if rate < 1 {
				assert.InEpsilon(t, float64(n)*rate/float64(draw), float64(battery.PeukertTime(float64(n), float64(draw), 20, 1.2)), 1e-12)
			}
		}
	}
}

// NDSU Extension: 4000 W to start and 1000 W to run for each hp, and a typical home of 5000 W peak, 2000 W continuous. A
// plausibility check of our profiles.
func TestNDSUExtension_TypicalHome(t *testing.T) {
	var p struct {
		Home      []string
		Expected  map[string]float64
		Tolerance float64
	}
	published(t, "extension", &p)
	var text strings.Builder
	for _, like := range p.Home {
		text.WriteString("  - {name: " + like + ", like: " + like + "}\n")
	}
	r := planOf(t, text.String())
	assert.InEpsilon(t, p.Expected["continuous_w"], r.Sheet.Value("load.running_w"), p.Tolerance)
	assert.InEpsilon(t, p.Expected["peak_w"], r.Sheet.Value("load.worst_moment_w"), p.Tolerance)

	one := planOf(t, "  - {name: Pump, volts: 240 V, running: 1000 W, start: {watts: 4000 W}, use: {duty: 0.1}}\n")
	assert.Equal(t, p.Expected["start_w_per_hp"], one.Sheet.Value("load.worst_moment_w"))
	profile := planOf(t, "  - {name: Pump, like: well-pump-1hp}\n")
	assert.InEpsilon(t, p.Expected["run_w_per_hp"], profile.Sheet.Value("load.running_w"), 0.5)
	assert.InEpsilon(t, p.Expected["start_w_per_hp"], profile.Sheet.Value("load.worst_moment_w"), 0.5)
}

// EIA heat contents, higher heating values.
func TestEIA_HeatContents(t *testing.T) {
	var p struct {
		Expected  map[profiles.FuelName]float64 `yaml:"expected_btu"`
		Tolerance float64
	}
	published(t, "heat", &p)
	require.NotEmpty(t, p.Expected)
	for name, btu := range p.Expected {
		f, ok := profiles.FindFuel(name)
		require.True(t, ok, name)
		perUS := litresPerGallon
		if f.Unit == "m3" {
			perUS = cubicMetresPerFt3
		}
		assert.InEpsilon(t, btu, f.KWhPerUnit*perUS*btuPerKWh, p.Tolerance, f.Name)
	}
}

// A published diesel consumption chart, through the fuel of an hour.
func TestDieselChart_ThroughFuel(t *testing.T) {
	var p struct {
		Cases []struct {
			KW      float64
			Gallons [4]float64 `yaml:"gal_per_h"`
		}
		Tolerance float64
	}
	published(t, "diesel", &p)
	require.NotEmpty(t, p.Cases)
	diesel, _ := profiles.FindFuel("diesel")
	for _, c := range p.Cases {
		for i, gallons := range c.Gallons {
			if gallons == 0 {
				continue
			}
			load := c.KW * float64(i+1) / 4
			litres := generator.Fuel(&diesel, diesel.Line(c.KW), derive.Number(c.KW), derive.Number(1), derive.Number(load)).Value
			assert.InEpsilon(t, gallons, litres/litresPerGallon, p.Tolerance, "%v kW at %d/4", c.KW, i+1)
		}
	}
}
