package home

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"holdover/loads/units"
)

// A sheet that contradicts itself is a fault of its own field, found where it is read.
func TestRuntimes_FaultsNameThePoint(t *testing.T) {
	for _, c := range []struct{ fields, field, says string }{
		{"runtimes: [[50%, 60 min], [51%, 1 min]]", "runtimes[1]", "no battery falls off so fast"},
		{"runtimes: [[51%, 1 min], [50%, 60 min]]", "runtimes[0]", "1.02 times the load lasts a 60th as long"},
		{"runtimes: [[20%, 90 min], [50%, 5 min], [100%, 0.004 h]]", "", ""},
		{"runtimes: [[20%, 90 min], [30%, 30 min], [50%, 0.2 min]]", "runtimes[2]", "no battery falls off so fast"},
		{"runtimes: [[10%, 120 min], [90%, 10 min], [91%, 1 min]]", "runtimes[2]", "1.01 times the load lasts a 10th as long"},
		{"runtimes: [[50%, 11 min], [100%, 12 min]]", "runtimes[1]", "a higher load must last less long"},
		{"runtimes: [[100%, 12 min], [50%, 11 min]]", "runtimes[0]", "a higher load must last less long"},
		{"runtimes: [[50%, 11 min], [50%, 11 min]]", "runtimes[1]", "stands twice"},
		{"runtimes: [[0%, 11 min], [50%, 5 min]]", "runtimes[0][0]", "out of range"},
		{"runtimes: [[50%, 0 min]]", "runtimes[0][1]", "out of range"},
		{"watts: 480 W, energy: 86 Wh, runtimes: [[50%, 11 min], [100%, 12 min]]", "runtimes[1]", "a higher load"},
		{"watts: 480 W, energy: 86 Wh, runtimes: [[50%, 25 min], [100%, 2.5 min]]", "runtimes[0]", "50 % of 480 W for 25 min is 100 Wh; the sheet says that 86 Wh are stored (energy)"},
		{"watts: 480 W, energy: 0 Wh, runtimes: [[50%, 25 min]]", "runtimes[0]", "0 Wh are stored"},
		{"watts: 480 W, energy: 86 Wh, runtimes: [[50%, 22 min], [100%, 2.5 min]]", "", ""}, // 88 Wh: a maker's rounding
		{"watts: 480 W, energy: 86 Wh, runtimes: [[20%, 30 min], [100%, 8 min]]", "", ""},   // more at the heavier load: idle does that
		{"runtimes: [[50%, 11 min], [100%, 2.5 min]]", "", ""},
	} {
		_, err := ReadGear([]byte("\n- {name: U, kind: ups, "+c.fields+"}\n"), "gear.yaml", units.US)
		if c.field == "" {
			assert.NoError(t, err, c.fields)
			continue
		}
		require.Error(t, err, c.fields)
		faults := err.(Faults)
		require.Len(t, faults, 1, "%s: %v", c.fields, err)
		assert.Equal(t, "gear[0]."+c.field, faults[0].Field, c.fields)
		assert.Equal(t, 2, faults[0].Line)
		assert.Contains(t, faults[0].Message, c.says)
	}
}

// What is smaller than anything can be is a slip; 0 is not, and minus nothing is nothing.
func TestRead_AmountsThatMeanNothing(t *testing.T) {
	for _, text := range []string{"5e-324 W", "1e-300 kW", "0.0000000000001"} {
		_, err := Read([]byte("holdover: 1\ncircuits: [{name: A, running: "+text+"}]\n"), "home.yaml")
		assert.ErrorContains(t, err, "circuits[0].running: \""+text+"\" is too small an amount", text)
	}
	house, err := Read([]byte("holdover: 1\nsite: {coldest: 32.0000001 F}\ncircuits: [{name: A, running: -0 W, standby: 1e-12 W}]\n"), "home.yaml")
	require.NoError(t, err)
	assert.Equal(t, "0", units.Format(float64(house.Circuits[0].Running)))
	assert.False(t, 1/float64(house.Circuits[0].Running) < 0, "minus nothing")
	for _, text := range []string{"1e-300", "0", "0.049", "1.1", "NaN", "Inf"} {
		_, err := Read([]byte("holdover: 1\nassume: {engine_derate: "+text+"}\ncircuits: [{name: A, running: 1 W}]\n"), "home.yaml")
		assert.ErrorContains(t, err, "assume.engine_derate", text)
	}
}
