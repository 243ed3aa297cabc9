package home_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"holdover/loads/home"
	"holdover/loads/units"
)

func circuit(t *testing.T, fields string) home.Circuit {
	t.Helper()
	house, err := home.Read([]byte("holdover: 1\ncircuits:\n  - {name: A, "+fields+"}\n"), "home.yaml")
	require.NoError(t, err, fields)
	return house.Circuits[0]
}

// The file's own keys lie over the profile's, key by key; what the file does not give, the profile does.
func TestMerge_OwnKeysLieOverTheProfile(t *testing.T) {
	plain := circuit(t, "like: refrigerator")
	own := circuit(t, "like: refrigerator, running: 150 W, care: rotate, count: 2")
	assert.Equal(t, units.Watts(150), own.Running)
	assert.Equal(t, home.Rotate, own.Care)
	assert.Equal(t, 2, own.Count)
	assert.Equal(t, plain.PowerFactor, own.PowerFactor)
	assert.Equal(t, plain.Start, own.Start)
	assert.Equal(t, plain.Use, own.Use)
	assert.Equal(t, plain.Needs, own.Needs)
	assert.NotEqual(t, plain.Running, own.Running)
}

// start and use are replaced whole, needs and heater key by key.
func TestMerge_InnerMappings(t *testing.T) {
	plain := circuit(t, "like: refrigerator")
	c := circuit(t, "like: refrigerator, start: {amps: 12 A}, use: {hours_per_day: 3 h}, needs: {gap: 10 ms}")
	assert.Equal(t, home.StartAmps, c.Start.Kind)
	assert.Zero(t, c.Start.Times)
	assert.Equal(t, home.UseDuty, c.Use.Kind)
	assert.Equal(t, 0.125, c.Use.Duty)
	assert.Equal(t, units.Seconds(0.01), c.Needs.Gap)
	assert.Equal(t, plain.Needs.Wave, c.Needs.Wave)
	assert.Equal(t, plain.Needs.CanWait, c.Needs.CanWait)
	assert.Equal(t, home.NoStart, circuit(t, "like: refrigerator, start: none").Start.Kind)

	guarded := circuit(t, "like: gas-instant-heater-guarded")
	heater := circuit(t, "like: gas-instant-heater-guarded, heater: {firing: 90 W}")
	assert.Equal(t, units.Watts(90), heater.Heater.Firing)
	assert.Equal(t, guarded.Heater.FreezeGuard, heater.Heater.FreezeGuard)
}

// running replaces a profile's running_amps, and the other way round; both at once are refused elsewhere.
func TestMerge_RunningAndAmps(t *testing.T) {
	pump := circuit(t, "like: sump-pump-third-hp")
	assert.InDelta(t, 7.2*120*pump.PowerFactor, float64(pump.Running), 1e-9)
	assert.Equal(t, units.Watts(500), circuit(t, "like: sump-pump-third-hp, running: 500 W").Running)
	assert.InDelta(t, 5*120*0.8, float64(circuit(t, "like: refrigerator, running_amps: 5 A").Running), 1e-9)
	assert.InDelta(t, 600, float64(circuit(t, "running_amps: 5 A").Running), 1e-9)
}

// Where a value came from: a line of the file, a profile, a default, or a chemistry.
func TestOrigins(t *testing.T) {
	house, err := home.Read([]byte("holdover: 1\ncircuits:\n  - name: A\n    like: refrigerator\n    running: 150 W\n"), "home.yaml")
	require.NoError(t, err)
	o, ok := house.Origin("circuits[0].running")
	assert.True(t, ok)
	assert.Equal(t, 5, o.Line)
	o, _ = house.Origin("circuits[0].power_factor")
	assert.Zero(t, o.Line)
	assert.Contains(t, o.Source, "profile refrigerator")
	o, _ = house.Origin("assume.power_margin")
	assert.Contains(t, o.Source, "default")
	o, _ = house.Origin("assume.depth_of_discharge")
	assert.Contains(t, o.Source, "chemistry lfp")
	assert.True(t, house.Given("circuits[0].running"))
	assert.False(t, house.Given("circuits[0].power_factor"))
	_, ok = house.Origin("circuits[7].running")
	assert.False(t, ok)
}

// A chemistry fills what the file leaves out and nothing it gives.
func TestChemistry_Fills(t *testing.T) {
	house, err := home.Read([]byte("holdover: 1\nassume: {chemistry: flooded, peukert: 1.3}\ncircuits:\n  - {name: A, running: 1 W}\n"), "home.yaml")
	require.NoError(t, err)
	assert.Equal(t, 0.5, house.Assume.DepthOfDischarge)
	assert.Equal(t, 0.8, house.Assume.EndOfLife)
	assert.Equal(t, 1.3, house.Assume.Peukert)
}
