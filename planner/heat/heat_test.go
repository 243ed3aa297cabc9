package heat

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gopkg.in/yaml.v3"

	"holdover/loads"
	"holdover/loads/home"
	"holdover/planner/derive"
	"holdover/profiles"
)

// DOE's draw volumes against the trade's way to reckon their heat: testdata/published/water-heating.yaml.
func TestWaterHeat_PublishedBins(t *testing.T) {
	var file struct {
		Tolerance float64
		Bins      []struct {
			Name    string
			Gallons float64
			KWh     float64
		}
	}
	text, err := os.ReadFile("../../testdata/published/water-heating.yaml")
	require.NoError(t, err)
	require.NoError(t, yaml.Unmarshal(text, &file))
	require.Len(t, file.Bins, 4)
	facts := profiles.Water()
	for _, b := range file.Bins {
		litres := facts.Day.Litres[b.Name]
		assert.InEpsilon(t, b.Gallons*3.785411784, litres, 1e-5, b.Name)
		heat := waterHeat(litres, facts.Day.DeliveredC-facts.Day.InletC, facts.Heat.KJPerKgK)
		assert.InEpsilon(t, b.KWh, heat/1000, file.Tolerance, b.Name)
	}
}

// By hand: 200 L at 60 °C, of which 70 % come hot, from 10 °C, mixed to 40 °C: 140 L · 50/30 = 233.3 L, or 3.89 showers of 60 L.
func TestShowers_ByHand(t *testing.T) {
	assert.InDelta(t, 3.889, showers(200, 0.7, 60, 10, 40, 60), 0.001)
	assert.Zero(t, showers(200, 0.7, 35, 10, 40, 60), "too cold to shower")
	// Energy balance: the mixed water carries what the hot share held.
	mixed := showers(200, 0.7, 60, 10, 40, 60) * 60
	assert.InDelta(t, waterHeat(140, 50, 4.186), waterHeat(mixed, 30, 4.186), 1e-9)
}

func waterHeat(litres, rise, heat float64) float64 {
	return WaterHeat(derive.Number(litres), derive.Number(rise), derive.Number(heat)).Value
}

func showers(holds, usable, setTo, inlet, shower, each float64) float64 {
	n := derive.Number
	return Showers(n(holds), n(usable), n(setTo), n(inlet), n(shower), n(each)).Value
}

func read(t *testing.T, text string) (*home.Home, loads.Demand) {
	t.Helper()
	house, err := home.Read([]byte("holdover: 1\n"+text), "home.yaml")
	require.NoError(t, err)
	return house, loads.Work(house)
}

// Every kind says its own thing.
func TestWater_EveryKind(t *testing.T) {
	house, d := read(t, `home: {heat_loss: 220 W/K, heat_capacity: 9 kWh/K}
site: {coldest: -15 C, daily_range: 0 K}
outage: {length: 24 h, season: winter}
circuits:
  - {name: Instant, like: gas-instant-heater}
  - {name: Guarded, like: gas-instant-heater-guarded}
  - {name: Outdoor, like: gas-instant-heater-outdoor}
  - {name: Pilot, like: gas-tank-pilot}
  - {name: Fan, like: gas-tank-fan}
  - {name: Tank, like: electric-tank, care: shed, tank: {holds: 200 L, set_to: 60 C, inlet: 10 C}}
  - {name: Whole house, like: electric-instant-heater, care: shed}
  - {name: Heat pump, like: heat-pump-heater, care: shed}
  - {name: Lamp, running: 10 W}
`)
	needs := Water(house, &d)
	require.Len(t, needs, 8)
	for i, want := range []struct {
		says    string
		freezes float64 // h; below 0 for never
	}{
		{"80 W while it burns and 5 W at rest: 170 Wh a day with 40 min", 34.66}, // by the house, as in the published cool-down
		{"frost heaters of 120 W are on up to 32.9 % of the time where it stands: 947 Wh", 1},
		{"frost heaters of 150 W are on up to 79.2 % of the time where it stands: 2,850 Wh", 1},
		{"needs no supply", 34.66},
		{"Its fan starts with 2,857 VA", 34.66},
		{"about 3 showers", 34.66},
		{"Never on a battery: it draws 24 kW", 34.66},
		{"heat pump only", 34.66},
	} {
		n := needs[i]
		text := strings.Join(n.Says, " ")
		assert.Contains(t, text, want.says, n.Circuit)
		require.NotNil(t, n.Freezes, n.Circuit)
		assert.InDelta(t, want.freezes, float64(n.Freezes.After), 0.01, n.Circuit)
		assert.Contains(t, text, "drain the heater", n.Circuit)
		for _, f := range n.Sheet.All() {
			for _, id := range f.From {
				_, ok := n.Sheet.Get(id)
				assert.True(t, ok, "%s comes from %s", f.ID, id)
			}
		}
	}
}

// No frost, no drain-down.
func TestWater_NoFrostNoDraining(t *testing.T) {
	house, d := read(t, "site: {coldest: 5 C}\ncircuits: [{name: Outdoor, like: gas-instant-heater-outdoor}]\n")
	n := Water(house, &d)[0]
	assert.Nil(t, n.Freezes)
	assert.NotContains(t, strings.Join(n.Says, " "), "drain")
}

// By hand: 220 W/K, 20 °C inside and −15 °C outside for 24 h are 840 K·h and 184.8 kWh, 500 W of gains take 12 kWh off.
func TestSpace_ByHand(t *testing.T) {
	house, d := read(t, "home: {heat_loss: 220 W/K, gains: 500 W}\nsite: {coldest: -15 C, daily_range: 0 K}\ncircuits: [{name: Lamp, running: 10 W}]\n")
	s := Space(house, &d)
	assert.InDelta(t, 840, s.DegreeH, 1e-9)
	assert.InDelta(t, 184800-12000, float64(s.Heat), 1e-6)
	unknown, d2 := read(t, "circuits: [{name: Lamp, running: 10 W}]\n")
	assert.Contains(t, Space(unknown, &d2).Says, "home.heat_loss")
}

// Cold water of 0 °C is cold water of 0 °C: 300 L from 0 to 35 °C take 300 · 4.186 · 35 / 3600 = 12.21 kWh. At 35 °C there is no shower.
func TestWater_IcyInletAndALukewarmTank(t *testing.T) {
	house, d := read(t, "circuits: [{name: Tank, like: electric-tank, tank: {holds: 300 L, set_to: 35 C, inlet: 0 C}}]\n")
	n := Water(house, &d)[0]
	assert.InDelta(t, 300*4.186*35/3.6, n.Sheet.Value("tank.heat_wh"), 1e-6)
	text := strings.Join(n.Says, " ")
	assert.Contains(t, text, "no shower")
	assert.NotContains(t, text, "left off")
}

// In a garage of −10 °C a heater without frost heaters is safe for an hour, whatever its profile says of waiting for hot water; a
// pilot's flame keeps its tank, and not the pipes.
func TestWater_AColdGarage(t *testing.T) {
	house, d := read(t, "site: {coldest: -15 C, daily_range: 0 K}\ncircuits:\n  - {name: Instant, like: gas-instant-heater, heater: {stands_in: garage, garage_temp: -10 C}}\n"+
		"  - {name: Pilot, like: gas-tank-pilot, heater: {stands_in: garage, garage_temp: -10 C}}\n")
	needs := Water(house, &d)
	require.NotNil(t, needs[0].Freezes)
	assert.InDelta(t, 1, float64(needs[0].Freezes.After), 1e-9)
	pilot := strings.Join(needs[1].Says, " ")
	assert.Contains(t, pilot, "Its flame keeps it from freezing, but not the pipes")
	assert.NotContains(t, pilot, "Without supply it can freeze")
}
