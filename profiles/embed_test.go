package profiles

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"gopkg.in/yaml.v3"
)

func TestParsePanicsOnAnUnknownKey(t *testing.T) {
	assert.Panics(t, func() { parse[[]struct{ Name string }]("engines.yaml") })
	assert.Panics(t, func() { parse[[]Engine]("no-such-file.yaml") })
}

// Every slice is the caller's own: a caller that sorts or edits it disturbs nobody.
func TestListsAreCopies(t *testing.T) {
	Engines()[0].Name = "changed"
	Motors()[0].HP = 99
	Groups()[0] = "changed"
	assert.NotEqual(t, "changed", Engines()[0].Name)
	assert.NotEqual(t, 99.0, Motors()[0].HP)
	assert.NotEqual(t, "changed", Groups()[0])
}

func TestTablesAreSourced(t *testing.T) {
	for _, source := range []string{usualMotors().Source, climateTables().HourlyRange.Source} {
		assert.NotEmpty(t, source)
	}
	for _, f := range Fuels() {
		assert.NotEmpty(t, f.Source, f.Name)
		for _, w := range f.Willans {
			assert.NotEmpty(t, w.Source, f.Name)
		}
	}
}

func TestPairRefusesWhatIsNoPair(t *testing.T) {
	for _, text := range []string{"[1]", "[1, 2, 3]", "[a, b]", "1"} {
		var f PointF
		assert.Error(t, yaml.Unmarshal([]byte(text), &f), text)
		var c PointC
		assert.Error(t, yaml.Unmarshal([]byte(text), &c), text)
	}
}

// A home is to be planned in 50 ms, start to end; this is the share of finding twenty profiles.
func BenchmarkFindTwentyCircuits(b *testing.B) {
	twenty := Circuits()[:20]
	for b.Loop() {
		found.Clear()
		for _, c := range twenty {
			FindCircuit(c.Name)
		}
	}
}

func BenchmarkParseEveryTable(b *testing.B) {
	for b.Loop() {
		parse[[]Default]("assume.yaml")
		parse[[]Chemistry]("chemistries.yaml")
		parse[[]Engine]("engines.yaml")
		parse[[]Fuel]("fuels.yaml")
		parse[[]GeneratorKind]("generators.yaml")
		parse[[]Caution]("cautions.yaml")
		parse[Prices]("prices.yaml")
		NewCode("nec-2023", codeText("nec-2023")).Wire()
	}
}
