package report

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"holdover/loads/home"
	"holdover/planner"
	"holdover/planner/working"
)

// sumOf is a result with one figure summed from so many circuits and a total of another kind.
func sumOf(circuits int) *planner.Result {
	s := &working.Sheet{}
	sum := working.Figure{ID: "load.running_w", Unit: "W", From: []string{"outage.length"}}
	s.Add(working.Figure{ID: "outage.length", Value: 3, Unit: "h", Source: "home.yaml, line 2"})
	for i := range circuits {
		id := fmt.Sprintf("circuit.c%d.running_w", i)
		s.Add(working.Figure{ID: id, Value: float64(i), Unit: "W"})
		sum.From = append(sum.From, id)
	}
	s.Add(sum)
	return &planner.Result{Home: &home.Home{}, Sheet: s}
}

func TestALongSumShowsTheLargestAndCountsTheRest(t *testing.T) {
	text, ok := Why(sumOf(manyCircuits+6), "load.running_w", 80, false)
	require.True(t, ok)
	assert.Equal(t, shownCircuits, strings.Count(text, "circuit."))
	assert.Contains(t, text, "circuit.c29.running_w: 29 W", "the largest")
	assert.NotContains(t, text, "circuit.c19.running_w", "the eleventh")
	assert.Contains(t, text, "outage.length: 3 h", "what is no circuit always stands")
	assert.Contains(t, text, "and 20 smaller ones (--all shows them)")

	text, _ = Why(sumOf(manyCircuits+6), "load.running_w", 80, true)
	assert.Equal(t, manyCircuits+6, strings.Count(text, "circuit."))
	text, _ = Why(sumOf(manyCircuits), "load.running_w", 80, false)
	assert.Equal(t, manyCircuits, strings.Count(text, "circuit."))
}

func TestAFigureMetAgainIsNotOpenedAgain(t *testing.T) {
	s := &working.Sheet{}
	s.Add(working.Figure{ID: "leaf", Value: 1})
	s.Add(working.Figure{ID: "branch", Value: 2, From: []string{"leaf"}})
	s.Add(working.Figure{ID: "top", Value: 3, How: "branch + branch", From: []string{"branch", "branch", "gone"}})
	text, ok := Why(&planner.Result{Home: &home.Home{}, Sheet: s}, "top", 80, false)
	require.True(t, ok)
	assert.Equal(t, strings.TrimLeft(`
top: 3
  how: branch + branch
  from:
    branch: 2
      from:
        leaf: 1
    branch: 2 (see above)
    gone
`, "\n"), text)
}

func TestAFigureOfAnOptionAloneIsFound(t *testing.T) {
	option := &working.Sheet{}
	option.Add(working.Figure{ID: "hybrid.cost", Value: 900, Unit: "USD"})
	r := &planner.Result{Home: &home.Home{}, Sheet: &working.Sheet{}, Options: []planner.Option{{Kind: planner.Hybrid, Sheet: option}}}
	text, ok := Why(r, "hybrid.cost", 80, false)
	assert.True(t, ok)
	assert.Equal(t, "hybrid.cost: 900 USD\n", text)
	_, ok = Why(r, "hybrid.price", 80, false)
	assert.False(t, ok)
}
