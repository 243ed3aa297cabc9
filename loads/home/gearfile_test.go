package home

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"holdover/loads/units"
)

// A gear file is a list, or a mapping with that list under gear: both read the same.
func TestReadGear_ListAndMapping(t *testing.T) {
	list, err := ReadGear([]byte("- {name: Box, kind: ups, gap: 0 ms, runtimes: [[50%, 11 min], [100%, 2.5 min]]}\n"), "gear.yaml", units.US)
	require.NoError(t, err)
	mapping, err := ReadGear([]byte("gear:\n  - {name: Box, kind: ups, gap: 0 ms, runtimes: [[50%, 11 min], [100%, 2.5 min]]}\n"), "gear.yaml", units.US)
	require.NoError(t, err)
	assert.Equal(t, list, mapping)
	assert.True(t, list[0].Has("gap"), "no break at all is a figure too")
	assert.False(t, list[0].Has("price"))
	assert.Equal(t, []Runtime{{0.5, 11}, {1, 2.5}}, list[0].Runtimes)
}

// The same faults as in a home file, each with its line.
func TestReadGear_Faults(t *testing.T) {
	for text, want := range map[string]string{
		"":                "gear.yaml:1: the file is empty",
		"hello\n":         `gear.yaml:1: gear: "hello" found; a list is wanted`,
		"[]\n":            "gear.yaml:1: gear: no unit found",
		"units: []\n":     `gear.yaml:1: units: unknown key "units"`,
		"- {kind: ups}\n": "gear.yaml:1: gear[0].name: the name is missing",
		"- {name: Box}\n": "gear.yaml:1: gear[0].kind: the kind is missing",
		"- {name: A, kind: ups}\n- {name: A, kind: ups}\n":                  `gear.yaml:2: gear[1].name: "A" is the name of the unit on line 1 too`,
		"- {name: A, kind: ups, runtimes: [[50%, 5 min], [100%, 5 min]]}\n": "a higher load must last less long",
		"- {name: A, kind: ups, runtimes: [[50%, 5 min], [50%, 6 min]]}\n":  "stands twice",
		"- {name: A, kind: ups, hertz: 400 Hz}\n":                           "45 to 65 Hz is accepted",
	} {
		_, err := ReadGear([]byte(text), "gear.yaml", units.US)
		assert.ErrorContains(t, err, want, text)
		assert.IsType(t, Faults{}, err, text)
	}
	_, err := Read([]byte("holdover: 1\ncircuits: [{name: Lamp, running: 1 W}]\ngear: [{name: A}]\n"), "home.yaml")
	assert.ErrorContains(t, err, "home.yaml:3: gear[0].kind: the kind is missing", "a home file's gear is held to the same")
}
