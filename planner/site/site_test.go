package site_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"holdover/loads/home"
	"holdover/planner/derive"
	"holdover/planner/site"
)

func rate(t *testing.T, fields string) (site.Rating, *derive.Figures) {
	t.Helper()
	house, err := home.Read([]byte("holdover: 1\n"+fields+"\ncircuits:\n  - {name: A, running: 1 W}\n"), "home.yaml")
	require.NoError(t, err, fields)
	f := &derive.Figures{}
	f.Inputs(house)
	r := site.Rate(f, house)
	assert.Equal(t, r, site.Rate(nil, house), "the same where nobody reads it")
	return r, f
}

// More power than rated is never claimed, and no factor reaches nothing.
func TestRate_IsHeldBetweenNothingAndOne(t *testing.T) {
	for _, fields := range []string{
		"site: {elevation: -400 m, coldest: -40 C, hottest: 0 C}",
		"site: {elevation: 5500 m, coldest: 30 C, hottest: 60 C, inverter_space: 80 C, humidity: 1}\noutage: {season: summer}\nassume: {mechanical_efficiency: 0.5, inverter_derate_per_k: 0.2}",
		"site: {elevation: 5500 m, hottest: 60 C}\noutage: {season: summer}\nassume: {engine_derate: rule-of-thumb, inverter_knee: 0 C}",
	} {
		_, f := rate(t, fields)
		for _, id := range []string{"site.engine_derate_iso", "site.engine_derate_thumb", "site.engine_derate", "site.alternator_derate", "site.inverter_derate"} {
			assert.Greater(t, f.Value(id), 0.0, fields)
			assert.LessOrEqual(t, f.Value(id), 1.0, fields)
		}
	}
}

func n(value float64) derive.Term { return derive.Number(value) }

// The rule of thumb by hand: 5000 ft and 97 °F lose 17.5 % and 2 %. Common practice, no source.
func TestRuleOfThumb_ByHand(t *testing.T) {
	assert.InDelta(t, 0.825*0.98, site.RuleOfThumb(n(1524), n((97.0-32)*5/9)).Value, 1e-12)
	assert.Equal(t, 1.0, site.RuleOfThumb(n(-100), n(-20)).Value)
}

// Common practice among makers, no source: 1 % per 100 m above 1000 m, 1 % per K above 40 °C.
func TestAlternator_ByHand(t *testing.T) {
	assert.InDelta(t, 0.95*0.9, site.Alternator(n(1500), n(50)).Value, 1e-12)
	assert.Equal(t, 1.0, site.Alternator(n(1000), n(40)).Value)
}

func TestInverter_KneeAndSlope(t *testing.T) {
	assert.Equal(t, 1.0, site.Inverter(n(40), n(40), n(0.02)).Value)
	assert.InDelta(t, 0.9, site.Inverter(n(45), n(40), n(0.02)).Value, 1e-12)
}

// The season chooses the air, and the maker's number goes before both methods.
func TestRate_SeasonAndMaker(t *testing.T) {
	const at = "site: {coldest: -10 C, daily_range: 10 K, hottest: 36 C, elevation: 2000 m}\n"
	figure := func(fields, id string) float64 {
		_, f := rate(t, at+fields)
		return f.Value(id)
	}
	assert.Equal(t, 0.0, figure("outage: {season: winter}", "site.air_c"))
	assert.Equal(t, 36.0, figure("outage: {season: summer}", "site.air_c"))
	assert.Equal(t, 18.0, figure("outage: {season: mild}", "site.air_c"))
	engine := func(fields string) float64 {
		r, f := rate(t, at+fields)
		assert.Equal(t, f.Value("site.engine_derate"), r.Engine)
		return r.Engine
	}
	iso, thumb := figure("", "site.engine_derate_iso"), figure("", "site.engine_derate_thumb")
	assert.NotEqual(t, iso, thumb)
	assert.Equal(t, 0.7, engine("assume: {engine_derate: 0.7}"))
	assert.Equal(t, thumb, engine("assume: {engine_derate: rule-of-thumb}"))
	assert.Equal(t, iso, engine(""))
}
