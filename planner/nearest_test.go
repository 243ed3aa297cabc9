package planner

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestNearest_ALimitBrokenIsNearerThanAShortfall(t *testing.T) {
	option := func(kind Kind, carried bool, cost, shortKWh float64) Option {
		o := Option{Kind: kind, Carried: carried, Cost: cost}
		o.Outcome.Modules, o.Outcome.Run.ShortKWh = 1, shortKWh
		return o
	}
	r := &Result{Choice: None, Options: []Option{
		option("a", false, 1, 3), option("b", true, 9, 0), option("c", true, 7, 0), {Kind: "d"}}}
	o, _ := r.Nearest()
	assert.EqualValues(t, "c", o.Kind)
	r.Choice = "b"
	o, _ = r.Nearest()
	assert.EqualValues(t, "b", o.Kind)
	r.Options = []Option{option("a", false, 1, 3), option("e", false, 9, 2), {Kind: "d"}}
	o, _ = r.Nearest()
	assert.EqualValues(t, "e", o.Kind)
	_, ok := (&Result{Options: []Option{{Kind: "d"}}}).Nearest()
	assert.False(t, ok)
}
