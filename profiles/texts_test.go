package profiles

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gopkg.in/yaml.v3"
)

func TestCautions(t *testing.T) {
	words := map[string]string{
		"backfeed": "DANGER", "carbon-monoxide": "DANGER", "fuel-storage": "WARNING", "refuel-hot": "WARNING",
		"battery-placement": "WARNING", "shared-neutral-120": "DANGER", "flame-sensing-neutral": "CAUTION", "stepped-wave": "CAUTION",
		"freezing": "CAUTION", "frost-heaters": "CAUTION", "cannot-heat": "CAUTION", "cannot-wait": "DANGER", "engine-cold": "CAUTION", "medical": "DANGER", "light-load-diesel": "CAUTION", "cold-charging": "WARNING",
		"cold-discharge": "WARNING", "propane-cold": "CAUTION", "store-too-large": "WARNING", "temperature-table": "NOTICE",
		"defaults-used": "NOTICE", "bare-numbers": "NOTICE", "code-and-licence": "NOTICE", "large-start": "NOTICE", "electric-heat-on-battery": "NOTICE",
		"noise": "NOTICE", "code-edition": "NOTICE", "no-230-rules": "NOTICE", "legs-unbalanced": "NOTICE", "altitude": "NOTICE", "estimate-prices": "NOTICE",
	}
	assert.Len(t, Cautions(), len(words))
	rank := map[string]int{"DANGER": 0, "WARNING": 1, "CAUTION": 2, "NOTICE": 3}
	last := 0
	for _, c := range Cautions() {
		assert.Equal(t, words[c.ID], c.Word, c.ID)
		assert.Greater(t, len(c.Text), 60, c.ID)
		assert.NotEmpty(t, c.Source, c.ID)
		assert.GreaterOrEqual(t, rank[c.Word], last, "%s: the gravest come first", c.ID)
		last = rank[c.Word]
		found, ok := FindCaution(c.ID)
		assert.True(t, ok)
		assert.Equal(t, c, found)
	}
	_, ok := FindCaution("none-such")
	assert.False(t, ok)
}

func TestDefaultsAreNamedOnceAndSourced(t *testing.T) {
	seen := map[string]string{}
	for _, d := range Defaults() {
		assert.Regexp(t, `^(home|site|outage|limits|assume)\.[a-z_0-9]+$`, d.Key)
		assert.NotContains(t, seen, d.Key)
		seen[d.Key] = d.Value.Value
		assert.NotEmpty(t, d.Meaning, d.Key)
		assert.NotEmpty(t, d.Source, d.Key)
		assert.Contains(t, []yaml.Kind{yaml.ScalarNode, yaml.SequenceNode}, d.Value.Kind, d.Key)
	}
	// The table of defaults in the description of the home file.
	for key, want := range map[string]string{"power_margin": "0.15", "energy_margin": "0.10", "starting_power_factor": "0.6",
		"inverter_efficiency": "0.92", "inverter_idle": "25 W", "chemistry": "lfp", "module": "5 kWh", "engine": "spark-liquid-natural",
		"engine_derate": "iso3046", "mechanical_efficiency": "0.8", "reactance": "0.2", "allowed_dip": "0.25", "generator_surge": "1.25",
		"generator_power_factor": "1.0", "years": "15", "discount": "0.04"} {
		assert.Equal(t, want, seen["assume."+key], key)
	}
	for _, key := range []string{"depth_of_discharge", "capacity_at_end_of_life", "battery_temperature_factor", "peukert"} {
		assert.NotContains(t, seen, "assume."+key, "that comes from the chemistry")
	}
}

func TestPricesCoverWhatCanBeChosen(t *testing.T) {
	p := PriceBands()
	assert.Regexp(t, `^20\d\d-\d\d$`, p.Dated)
	assert.Equal(t, "USD", p.Currency)
	sources := []string{p.Inverter.Source, p.Charger.Source}
	for _, c := range Chemistries() {
		assert.Positive(t, c.Price.PerKWh.Low, c.Name)
		sources = append(sources, c.Price.Source)
	}
	for _, g := range Generators() {
		assert.True(t, g.Price.PerKW.Low > 0 && g.Price.LifeYears > 0 && g.Price.LifeHours > 0, g.Kind)
		sources = append(sources, g.Price.Source)
	}
	for _, f := range Fuels() {
		assert.Positive(t, f.Price.PerUnit.Low, f.Name)
		sources = append(sources, f.Price.Source)
	}
	for _, kind := range []string{"interlock", "manual-panel", "automatic", "whole-house"} {
		price, ok := p.Transfer(kind)
		require.True(t, ok, kind)
		sources = append(sources, price.Source)
	}
	for _, source := range sources {
		assert.Contains(t, source, "stimate")
		assert.Contains(t, source, p.Dated)
	}
}

func TestBandRefusesWhatIsNoBand(t *testing.T) {
	for _, text := range []string{"[1, 2]", "[3, 2, 4]", "[1, 3, 2]", "[-1, 2, 3]", "5", "[a, b, c]"} {
		var b Band
		assert.Error(t, yaml.Unmarshal([]byte(text), &b), text)
	}
	var b Band
	require.NoError(t, yaml.Unmarshal([]byte("[1, 2, 2]"), &b))
	assert.Equal(t, Band{1, 2, 2}, b)
}

// demoHome is as much of the demo as this package can judge; the loads package reads it whole.
type demoHome struct {
	Circuits []map[string]any
	Gear     []map[string]any
}

func TestDemoShowsEachIdea(t *testing.T) {
	var home demoHome
	require.NoError(t, yaml.Unmarshal(Demo(), &home))
	assert.True(t, len(home.Circuits) >= 14 && len(home.Circuits) <= 20, "%d circuits", len(home.Circuits))
	care := map[any]int{}
	partners := map[any]any{}
	likes := map[any]bool{}
	for _, c := range home.Circuits {
		care[c["care"]]++
		likes[c["like"]] = true
		if other, ok := c["shares_neutral_with"]; ok {
			partners[c["name"]] = other
		}
		_, ok := FindCircuit(c["like"].(string))
		assert.True(t, ok, c["like"])
	}
	assert.True(t, care["keep"] >= 5 && care["rotate"] >= 2 && care["shed"] >= 3, "%v", care)
	assert.Len(t, partners, 2)
	for name, other := range partners {
		assert.Equal(t, name, partners[other], "the pair names each other")
	}
	assert.True(t, likes["gas-instant-heater-guarded"])
	assert.Len(t, home.Gear, 3)
}

func TestDemoIsACopy(t *testing.T) {
	Demo()[0] = 'X'
	assert.Equal(t, byte('#'), Demo()[0])
}

// No name of this machine's folders, and nothing that only a builder of the program would know, may reach a reader.
func TestTextsAreForReaders(t *testing.T) {
	entries, err := files.ReadDir(".")
	require.NoError(t, err)
	forbidden := regexp.MustCompile(`(^|\s)/[a-z]+/|TODO|FIXME|[Ww]ithheld`)
	for _, e := range entries {
		if e.IsDir() {
			continue
		}
		assert.NotRegexp(t, forbidden, string(text(e.Name())), e.Name())
	}
	for _, group := range Groups() {
		content := string(text(circuitFile(group)))
		assert.NotRegexp(t, forbidden, content, group)
		assert.False(t, strings.Contains(content, "\t"), "%s: a tab", group)
	}
}
