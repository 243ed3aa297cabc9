package site_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/planner/site"
)

func rate(t *testing.T, fields string) site.Rating {
	t.Helper()
	house, err := home.Read([]byte("holdover: 1\n"+fields+"\ncircuits:\n  - {name: A, running: 1 W}\n"), "home.yaml")
	require.NoError(t, err, fields)
	return site.Rate(house)
}

// More power than rated is never claimed, and no factor reaches nothing.
func TestRate_IsHeldBetweenNothingAndOne(t *testing.T) {
	for _, fields := range []string{
		"site: {elevation: -400 m, coldest: -40 C, hottest: 0 C}",
		"site: {elevation: 5500 m, coldest: 30 C, hottest: 60 C, inverter_space: 80 C, humidity: 1}\noutage: {season: summer}\nassume: {mechanical_efficiency: 0.5, inverter_derate_per_k: 0.2}",
		"site: {elevation: 5500 m, hottest: 60 C}\noutage: {season: summer}\nassume: {engine_derate: rule-of-thumb, inverter_knee: 0 C}",
	} {
		r := rate(t, fields)
		for _, factor := range []float64{r.ISO, r.Thumb, r.Engine, r.Alternator, r.Inverter} {
			assert.Greater(t, factor, 0.0, fields)
			assert.LessOrEqual(t, factor, 1.0, fields)
		}
	}
}

// The rule of thumb by hand: 5000 ft and 97 °F lose 17.5 % and 2 %. Common practice, no source.
func TestRuleOfThumb_ByHand(t *testing.T) {
	assert.InDelta(t, 0.825*0.98, site.RuleOfThumb(1524, units.Celsius((97.0-32)*5/9)), 1e-12)
	assert.Equal(t, 1.0, site.RuleOfThumb(-100, -20))
}

// Common practice among makers, no source: 1 % per 100 m above 1000 m, 1 % per K above 40 °C.
func TestAlternator_ByHand(t *testing.T) {
	assert.InDelta(t, 0.95*0.9, site.Alternator(1500, 50), 1e-12)
	assert.Equal(t, 1.0, site.Alternator(1000, 40))
}

func TestInverter_KneeAndSlope(t *testing.T) {
	assert.Equal(t, 1.0, site.Inverter(40, 40, 0.02))
	assert.InDelta(t, 0.9, site.Inverter(45, 40, 0.02), 1e-12)
}

// The season chooses the air, and the maker's number goes before both methods.
func TestRate_SeasonAndMaker(t *testing.T) {
	const at = "site: {coldest: -10 C, daily_range: 10 K, hottest: 36 C, elevation: 2000 m}\n"
	assert.Equal(t, units.Celsius(0), rate(t, at+"outage: {season: winter}").Air)
	assert.Equal(t, units.Celsius(36), rate(t, at+"outage: {season: summer}").Air)
	assert.Equal(t, units.Celsius(18), rate(t, at+"outage: {season: mild}").Air)
	assert.Equal(t, 0.7, rate(t, at+"assume: {engine_derate: 0.7}").Engine)
	thumb := rate(t, at+"assume: {engine_derate: rule-of-thumb}")
	assert.Equal(t, thumb.Thumb, thumb.Engine)
	iso := rate(t, at)
	assert.Equal(t, iso.ISO, iso.Engine)
	assert.NotEqual(t, iso.ISO, iso.Thumb)
}
