package main

import (
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The change exercise: a fuel is one entry of profiles/fuels.yaml and a chemistry one of profiles/chemistries.yaml. The program is
// built with an invented one of each and nothing else changed, and then plans with them.
func TestExercise_AFuelAndAChemistryAreOneEntryEach(t *testing.T) {
	if testing.Short() {
		t.Skip("builds the program")
	}
	program := builtWith(t, map[string]string{"profiles/fuels.yaml": "fuel.yaml", "profiles/chemistries.yaml": "chemistry.yaml"})
	text, err := os.ReadFile("../../testdata/exercise/home.yaml")
	require.NoError(t, err)
	says := func(text string, args ...string) string {
		c := exec.Command(program, args...)
		c.Stdin = strings.NewReader(text)
		out, _ := c.CombinedOutput()
		return string(out)
	}
	engine := strings.Replace(string(text), "generator: none, fuels: turps, battery_place: garage", "fuels: turps, battery_place: none", 1)
	for call, c := range map[string]struct{ home, words string }{
		"plan -":                      {string(text), "a battery carries the house"},
		"why battery.nameplate_wh -":  {string(text), "chemistry salt-cell: Invented"},
		"why battery.price.battery -": {string(text), "70 a kWh"},
		"fit -":                       {string(text), "Old cells"},
		"plan --width 200 -":          {engine, "portable inverter generator on pine spirit"},
		"why generator.fuel_cost -":   {engine, "4.5 USD/L"},
		"why generator.fuel_burnt -":  {engine, "Pine spirit"},
		"schema":                      {"", `"pine_spirit_per_l"`},
		"profiles fuels":              {"", "Pine spirit"},
		"profiles salt-cell":          {"", "cycle_life: 2000"},
		"profiles everyday":           {"", "turps"},
	} {
		assert.Contains(t, says(c.home, strings.Fields(call)...), c.words, call)
	}
	assert.Contains(t, says(strings.Replace(string(text), "turps", "gin", 1), "plan", "-"), "natural-gas or pine-spirit is accepted")
	assert.Contains(t, says(strings.Replace(string(text), "salt-cell", "gin", 1), "plan", "-"), "agm or salt-cell is accepted")
	assert.Contains(t, says(engine, "plan", "--width", "200", "-"), "CAUTION: A cold or nearly empty propane tank", "the caution that goes with the fuel in frost")
}

// builtWith is the program built with an entry of testdata/exercise at the end of some files.
func builtWith(t *testing.T, entries map[string]string) (program string) {
	dir := t.TempDir()
	replaced := map[string]string{}
	for file, entry := range entries {
		at, err := filepath.Abs(filepath.Join("../..", file))
		require.NoError(t, err)
		before, err := os.ReadFile(at)
		require.NoError(t, err)
		more, err := os.ReadFile(filepath.Join("../../testdata/exercise", entry))
		require.NoError(t, err)
		replaced[at] = filepath.Join(dir, entry)
		require.NoError(t, os.WriteFile(replaced[at], append(before, more...), 0o644))
	}
	overlay, err := json.Marshal(map[string]any{"Replace": replaced})
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(filepath.Join(dir, "overlay.json"), overlay, 0o644))
	program = filepath.Join(dir, "holdover.exe") // a name that every system runs
	out, err := exec.Command("go", "build", "-overlay", filepath.Join(dir, "overlay.json"), "-o", program, ".").CombinedOutput()
	require.NoError(t, err, string(out))
	return program
}
