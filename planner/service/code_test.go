package service

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gopkg.in/yaml.v3"

	"holdover/planner/derive"
	"holdover/profiles"
)

// altered is the 2020 edition with one text of its file in place of another.
func altered(t testing.TB, old, text string) *profiles.Code {
	file, err := os.ReadFile("../../profiles/code/nec-2020.yaml")
	require.NoError(t, err)
	require.Equal(t, 1, bytes.Count(file, []byte(old)), old)
	return profiles.NewCode("altered", bytes.Replace(file, []byte(old), []byte(text), 1))
}

const plain = `
holdover: 1
home: {floor_area: 1500 ft2}
circuits:
  - {name: Range, care: shed, volts: 240 V, class: range, nameplate: 12 kW}
  - {name: Water, care: shed, volts: 240 V, class: water-heater, nameplate: 4.5 kW}
`

// What an edition says is what is told, word by word and number by number: 4500 + 3000 + 1500 = 9000 VA of general load.
func TestCalculate_SaysAndCountsWhatTheCodeSays(t *testing.T) {
	const steps = "steps: [{name: first, up_to_va: 3000, share: 1}, {name: rest, up_to_va: 120000, share: 0.35}, {name: above, share: 0.25}]"
	for _, c := range []struct {
		name, old, text, figure string
		want                    float64
		how, source             string
	}{
		{"as it is", "va_per_ft2: 3", "va_per_ft2: 3", "service.general_demand_va", 5100, "first 3,000 VA whole, to 120,000 VA at 35 %, the rest at 25 %", "NEC Table 220.42, 2020 edition, from memory"},
		{"two steps", steps, "steps: [{name: first, up_to_va: 5000, share: 0.9}, {name: rest, share: 0.5}]", "service.general_demand_va", 6500, "first 5,000 VA at 90 %, the rest at 50 %", "NEC Table 220.42, 2020 edition, from memory"},
		{"four steps", steps, "steps: [{name: a, up_to_va: 1000, share: 1}, {name: b, up_to_va: 2000, share: 0.5}, {name: c, up_to_va: 4000, share: 0.25}, {name: d, share: 0.1}]",
			"service.general_demand_va", 1000 + 500 + 500 + 500, "first 1,000 VA whole, to 2,000 VA at 50 %, to 4,000 VA at 25 %, the rest at 10 %", "NEC Table 220.42, 2020 edition, from memory"},
		{"a value", "va_per_ft2: 3", "va_per_ft2: 4", "service.general_lighting_va", 6000, "4 VA/ft² · 1,500 ft²; receptacles of general use are in it", "NEC 220.12 and 220.14(J), 2020 edition, from memory"},
		{"a phrase", "receptacles of general use are in it", "and so on", "service.general_lighting_va", 4500, "3 VA/ft² · 1,500 ft²; and so on", "NEC 220.12 and 220.14(J), 2020 edition, from memory"},
		{"a clause, read", "clause: Table 220.42, from_memory: true", "clause: Table 9, read: at the library", "service.general_demand_va", 5100, "first 3,000 VA whole, to 120,000 VA at 35 %, the rest at 25 %", "NEC Table 9, 2020 edition, at the library"},
		{"the table's kW", "{from: 1, to: 1, a: 0.80, b: 0.80, c_kw: 8, c_kw_each: 0}", "{from: 1, to: 1, a: 0.80, b: 0.80, c_kw: 9, c_kw_each: 0}", "service.range_va", 9000, "column C for 1: 9 kW", "NEC 220.55 and its table, 2020 edition, from memory"},
		{"the optional method", "up_to_va: 10000, share: 1", "up_to_va: 20000, share: 1", "service.optional_general_va", 20000 + 0.4*5500, "general loads: first 20,000 VA whole, the rest at 40 %", "NEC 220.82, 2020 edition, from memory"},
	} {
		t.Run(c.name, func(t *testing.T) {
			sheet := &derive.Figures{}
			Calculate(readHome(t, plain), altered(t, c.old, c.text), sheet)
			f, ok := sheet.Get(c.figure)
			require.True(t, ok)
			assert.InDelta(t, c.want, f.Value, 1e-9)
			assert.Equal(t, c.how, f.How)
			assert.Equal(t, c.source, f.Source)
			for _, id := range f.From {
				_, ok := sheet.Get(id)
				assert.True(t, ok || strings.HasPrefix(id, "home."), "%s of %s", id, c.figure)
			}
		})
	}
}

// The dwellings of Annex D by the 2026 edition: 2 VA/ft² and the first 8 kVA of the optional method, everything else as it was;
// worked by hand from published commentary.
func TestNEC2026_TheHousesOfAnnexD(t *testing.T) {
	for name, want := range map[string]struct {
		figure string
		va     float64
		amps   float64 // to 0.1
	}{"annex-d1a": {"service.standard", 18075, 75.3}, "annex-d2a": {"service.optional", 19680, 82}, "annex-d2b": {"service.optional", 27400, 114.2}, "annex-d2c": {"service.optional", 32790, 136.6}} {
		text, err := os.ReadFile(filepath.Join("../../testdata/published", name+".yaml"))
		require.NoError(t, err)
		var p published
		require.NoError(t, yaml.Unmarshal(text, &p))
		sheet := &derive.Figures{}
		Calculate(readHome(t, p.Home), nec(t, "nec-2026"), sheet)
		assert.InDelta(t, want.va, sheet.Value(want.figure+"_va"), 0.5, name)
		assert.InDelta(t, want.amps, sheet.Value(want.figure+"_va")/240, 0.05, name)
		f, _ := sheet.Get(want.figure + "_va")
		assert.Contains(t, f.Source, "NEC ")
		assert.NotContains(t, f.Source, "220", name)
		_, existing := sheet.Get("service.existing_va")
		assert.False(t, existing, "its factors are not known")
	}
}

// NEC 220.57 came in 2023: the larger of 7200 VA and the plate; from memory.
func TestNEC220_57_VehicleSupply(t *testing.T) {
	const homeText = "holdover: 1\nhome: {floor_area: 1500 ft2}\ncircuits: [{name: Car, care: shed, volts: 240 V, class: vehicle, nameplate: %s}]\n"
	for edition, want := range map[string][2]float64{"nec-2017": {3800, 9600}, "nec-2020": {3800, 9600}, "nec-2023": {7200, 9600}, "nec-2026": {3800, 9600}} {
		for i, plate := range []string{"3.8 kW", "9.6 kW"} {
			sheet := &derive.Figures{}
			Calculate(readHome(t, strings.Replace(homeText, "%s", plate, 1)), nec(t, edition), sheet)
			assert.Equal(t, want[i], sheet.Value("service.other_va"), "%s, %s", edition, plate)
		}
	}
	sheet := &derive.Figures{}
	Calculate(readHome(t, strings.Replace(homeText, "%s", "3.8 kW", 1)), nec(t, "nec-2023"), sheet)
	f, _ := sheet.Get("circuits[0].nameplate")
	assert.Contains(t, f.How, "it counts 7,200 VA at least")
	assert.Equal(t, "NEC 220.57, 2023 edition, from memory", f.Source)
}

// No braces are left open in what is said, whatever the edition: each name in the words of a rule is filled in where they are said.
func TestCalculate_FillsInEveryWord(t *testing.T) {
	files, err := filepath.Glob("../../testdata/published/annex-d*.yaml")
	require.NoError(t, err)
	for _, edition := range profiles.Codes() {
		for _, file := range files {
			text, err := os.ReadFile(file)
			require.NoError(t, err)
			var p published
			require.NoError(t, yaml.Unmarshal(text, &p))
			sheet := &derive.Figures{}
			Calculate(readHome(t, p.Home), nec(t, edition), sheet)
			for _, f := range sheet.All() {
				assert.NotContains(t, f.How+f.Source, "{", "%s by %s: %s", file, edition, f.ID)
			}
		}
	}
}
