package units

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

// None, so much, and without end, which the zero Limit is: what each allows, and when it is reached.
func TestLimit_NoneSoMuchAndWithoutEnd(t *testing.T) {
	none, ten, endless := AtMost(0), AtMost(10), Limit{}
	for amount, allowed := range map[float64][3]bool{0: {true, true, true}, 1e-6: {false, true, true}, 10: {false, true, true}, 10 + 1e-9: {false, true, true}, 10.001: {false, false, true}, 1e300: {false, false, true}} {
		assert.Equal(t, allowed, [3]bool{none.Allows(amount), ten.Allows(amount), endless.Allows(amount)}, "%v", amount)
	}
	assert.Equal(t, [3]bool{true, false, false}, [3]bool{none.None(), ten.None(), endless.None()})
	assert.Equal(t, [3]bool{true, true, false}, [3]bool{none.Ends(), ten.Ends(), endless.Ends()})
	assert.Equal(t, [3]float64{0, 10, math.Inf(1)}, [3]float64{none.Most(), ten.Most(), endless.Most()})
	assert.True(t, ten.Reached(10) && ten.Reached(10-1e-9) && !ten.Reached(9.999) && none.Reached(0) && !endless.Reached(1e300))
}
