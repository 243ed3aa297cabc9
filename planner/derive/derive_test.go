package derive_test

import (
	"encoding/json"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"holdover/planner/derive"
)

func TestFigures_KeepsOrderAndReplaces(t *testing.T) {
	var s derive.Figures
	assert.Equal(t, 2.0, s.Add(derive.Figure{ID: "b", Value: 2, Unit: "W"}).Value)
	s.Add(derive.Figure{ID: "a", Value: 1})
	s.Add(derive.Figure{ID: "b", Value: 3, Unit: "W"})
	require.Len(t, s.All(), 2)
	assert.Equal(t, "b", s.All()[0].ID)
	assert.Equal(t, 3.0, s.Value("b"))
	_, ok := s.Get("c")
	assert.False(t, ok)
	assert.Panics(t, func() { s.Value("c") })
}

func TestFigures_RefusesWhatIsNotFinite(t *testing.T) {
	for _, v := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		var s derive.Figures
		assert.Panics(t, func() { s.Add(derive.Figure{ID: "x", Value: v}) })
	}
}

func TestFigures_JSON(t *testing.T) {
	var s derive.Figures
	s.Add(derive.Figure{ID: "load.running_w", Value: 2310, Unit: "W", How: "sum", From: []string{"a"}, Source: "law"})
	s.Add(derive.Figure{ID: "load.wave", Word: "sine"})
	text, err := json.Marshal(&s)
	require.NoError(t, err)
	assert.JSONEq(t, `{"load.running_w": {"value": 2310, "unit": "W", "how": "sum", "from": ["a"], "source": "law"},
		"load.wave": {"value": "sine", "unit": "", "how": "", "from": [], "source": ""}}`, string(text))
}
