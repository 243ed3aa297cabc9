package home

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"holdover/profiles"
)

// The wiring code is the one named, else the usual one of the service; what it may be follows from the editions there are.
func TestHomeCode(t *testing.T) {
	const head, circuits = "holdover: 1\nhome: {", "}\ncircuits: [{name: A, running: 1 W}]\n"
	for given, want := range map[string]string{"name: x": "nec-2020", "service: 120 V": "nec-2020", "service: 230 V": "iec-60364", "code: nec-2017": "nec-2017",
		"code: nec-2026, service: 120/240 V": "nec-2026", "service: 230 V, code: iec-60364": "iec-60364"} {
		house, err := Read([]byte(head+given+circuits), "home.yaml")
		require.NoError(t, err, given)
		assert.Equal(t, want, house.House.Code, given)
		assert.Equal(t, want, house.Code().Name, given)
		assert.Equal(t, given[0] == 'c' || given[len(given)-1] == '4', house.Given("home.code"), given)
	}
	us := slices.DeleteFunc(profiles.Codes(), func(name string) bool { return name == "iec-60364" })
	for given, fault := range map[string]string{
		"code: nec-2011":                 `home.yaml:2: home.code: "nec-2011" found; ` + oneOf(profiles.Codes()) + ` is accepted`,
		"code: iec-60364":                `home.yaml:2: home.code: "iec-60364" is for 230 V, and this home has 120/240 V; ` + oneOf(us) + ` is accepted`,
		"service: 230 V, code: nec-2023": `home.yaml:2: home.code: "nec-2023" is for 120/240 V or 120 V, and this home has 230 V; iec-60364 is accepted`,
	} {
		_, err := Read([]byte(head+given+circuits), "home.yaml")
		assert.EqualError(t, err, fault)
	}
	for _, f := range FieldsOf("home") {
		if f.Key == "code" {
			assert.Equal(t, profiles.Codes(), f.Words)
		}
	}
}
