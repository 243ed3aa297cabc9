package planner_test

import (
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gopkg.in/yaml.v3"

	"holdover/loads"
	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/planner"
	"holdover/planner/derive"
	"holdover/planner/site"
	"holdover/profiles"
)

// published reads a file of published values: source, inputs, expected, tolerance.
func published(t *testing.T, name string, into any) {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("..", "testdata", "published", name+".yaml"))
	require.NoError(t, err)
	var header struct{ Source string }
	require.NoError(t, yaml.Unmarshal(text, &header))
	require.NotEmpty(t, header.Source, "a published value needs its source")
	require.NoError(t, yaml.Unmarshal(text, into))
}

// ISO 3046-1, worked example of a university course exercise: k 0.8547, α 0.8368, 444.6 kW of reference power.
func TestISO3046_WorkedExample_372kW(t *testing.T) {
	var p struct {
		Cases []struct {
			Inputs struct {
				PressureKPa float64 `yaml:"pressure_kpa"`
				AirC        float64 `yaml:"air_c"`
				Humidity    float64
				Mechanical  float64 `yaml:"mechanical_efficiency"`
				SiteKW      float64 `yaml:"site_kw"`
			}
			Expected, Tolerance map[string]float64
		}
	}
	published(t, "iso3046", &p)
	require.NotEmpty(t, p.Cases)
	engine, ok := profiles.FindEngine("diesel-natural-air-limited")
	require.True(t, ok)
	for _, c := range p.Cases {
		air := units.Celsius(c.Inputs.AirC)
		alpha, k := site.PowerAdjustment(engine, site.Conditions{PressureKPa: c.Inputs.PressureKPa, Air: air, Humidity: c.Inputs.Humidity, ChargeCoolant: air}, derive.Number(c.Inputs.Mechanical))
		assert.InDelta(t, c.Expected["k"], k.Value, c.Tolerance["k"])
		assert.InDelta(t, c.Expected["alpha"], alpha.Value, c.Tolerance["alpha"])
		assert.InDelta(t, c.Expected["rated_kw"], c.Inputs.SiteKW/alpha.Value, c.Tolerance["rated_kw"])
	}
}

// ISO 3046-1's formula over seven engine classes and six places, derived independently.
func TestISO3046_DerivedGrid(t *testing.T) {
	var p struct {
		Columns [][2]float64
		Cases   []struct {
			Engine   profiles.EngineName
			Expected []float64
		}
		Tolerance float64
	}
	published(t, "iso3046-grid", &p)
	require.NotEmpty(t, p.Cases)
	for _, c := range p.Cases {
		engine, ok := profiles.FindEngine(c.Engine)
		require.True(t, ok, c.Engine)
		require.Len(t, c.Expected, len(p.Columns))
		for i, at := range p.Columns {
			alpha, _ := site.PowerAdjustment(engine, site.Conditions{PressureKPa: site.PressureKPa(derive.Number(at[0])).Value,
				Air: units.Celsius(at[1]), Humidity: 0.3, ChargeCoolant: 25}, derive.Number(0.8))
			assert.InDelta(t, c.Expected[i], alpha.Value, p.Tolerance, "%s at %v", c.Engine, at)
		}
	}
}

type curve struct {
	Expected  [][2]float64
	Tolerance float64
}

// US Standard Atmosphere 1976, main table.
func TestUSStandardAtmosphere1976_Pressure(t *testing.T) {
	var p curve
	published(t, "atmosphere", &p)
	require.NotEmpty(t, p.Expected)
	for _, row := range p.Expected {
		assert.InDelta(t, row[1], 10*site.PressureKPa(derive.Number(row[0])).Value, p.Tolerance, "%v m", row[0])
	}
}

// Steam tables over water, ice tables below.
func TestSteamTables_SaturationPressure(t *testing.T) {
	var p curve
	published(t, "vapour", &p)
	require.NotEmpty(t, p.Expected)
	for _, row := range p.Expected {
		assert.InEpsilon(t, row[1], site.SaturationKPa(units.Celsius(row[0])), p.Tolerance, "%v °C", row[0])
	}
}

// ASHRAE's hourly fractions, hours 1 to 24, through the outdoor temperatures of a design day.
func TestASHRAE_HourlyFractions(t *testing.T) {
	var p struct {
		Expected []float64
		Day      struct {
			HighC  float64 `yaml:"high_c"`
			RangeK float64 `yaml:"daily_range_k"`
		} `yaml:"design_day"`
	}
	published(t, "ashrae", &p)
	require.Len(t, p.Expected, 24)
	day := loads.Outdoors(home.Site{Hottest: units.Celsius(p.Day.HighC), DailyRange: units.Kelvins(p.Day.RangeK)}, home.Summer)
	for i, fraction := range p.Expected {
		assert.InDelta(t, p.Day.HighC-fraction*p.Day.RangeK, float64(day[(i+1)%24]), 1e-9, "hour %d", i+1)
	}
}

// planOf plans a home written as its circuits, all else given so that nothing hangs on defaults.
func planOf(t *testing.T, circuits string) *planner.Result {
	t.Helper()
	text := "holdover: 1\nlimits: {battery_place: none}\ncircuits:\n" + circuits
	house, err := home.Read([]byte(text), "home.yaml")
	require.NoError(t, err)
	return planner.PlanAll(house)
}

// NEC Table 430.248 and 430.7(B), upper end, through a circuit: full-load watts and VA, starting VA and the worst moment.
func TestNEC430_248And430_7B_ThroughACircuit(t *testing.T) {
	var p struct {
		Cases []struct {
			HP, Volts float64
			Letter    string
			FullLoadA float64 `yaml:"full_load_a"`
			StartKVA  float64 `yaml:"starting_kva"`
			StartingA float64 `yaml:"starting_a"`
		}
		Tolerance float64
	}
	published(t, "motors", &p)
	require.NotEmpty(t, p.Cases)
	for _, c := range p.Cases {
		r := planOf(t, fmt.Sprintf("  - {name: M, volts: %v V, running_amps: %v A, power_factor: 0.7, start: {code: %s, hp: %v}, use: {duty: 0.1}}\n",
			c.Volts, c.FullLoadA, c.Letter, c.HP))
		assert.InEpsilon(t, c.Volts*c.FullLoadA, r.Sheet.Value("load.running_va"), 1e-9)
		assert.InEpsilon(t, c.StartKVA*1000, r.Sheet.Value("load.worst_moment_va"), p.Tolerance, "%v hp", c.HP)
		assert.InEpsilon(t, c.StartingA, r.Sheet.Value("load.worst_moment_va")/c.Volts, p.Tolerance, "%v hp", c.HP)
		found := false
		for _, m := range profiles.Motors() {
			if m.HP > c.HP-0.001 && m.HP < c.HP+0.001 {
				found = true
				assert.Equal(t, c.FullLoadA, map[float64]float64{115: m.Amps115, 230: m.Amps230}[c.Volts])
			}
		}
		assert.True(t, found, "%v hp", c.HP)
	}
}
