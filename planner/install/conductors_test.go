package install

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// wires sizes runs on a home of 120/240 V.
func wires(t testing.TB, runs ...string) *Scope {
	return scopeOf(t, fmt.Sprintf("holdover: 1\nsite: {runs: [%s]}\ncircuits: [{name: Lamps, care: keep, running: 100 W}]\n", strings.Join(runs, ", ")))
}

// NEC Table 310.12, 2020 edition, as reprinted, by the run itself; 175 A is also Annex D7 (from memory): 145.25 A, 1/0 copper
// or 3/0 aluminium.
func TestNEC310_12_ARunOfTheService(t *testing.T) {
	for rating, want := range map[float64][2]string{100: {"4", "2"}, 110: {"3", "1"}, 125: {"2", "1/0"}, 150: {"1", "2/0"}, 175: {"1/0", "3/0"},
		200: {"2/0", "4/0"}, 225: {"3/0", "250"}, 250: {"4/0", "300"}, 300: {"250", "350"}, 350: {"350", "500"}, 400: {"400", "600"}} {
		s := wires(t, fmt.Sprintf("{name: C, length: 10 ft, serves: service, amps: %v A}", rating), fmt.Sprintf("{name: A, length: 10 ft, serves: service, amps: %v A, metal: aluminium}", rating))
		assert.Equal(t, want, [2]string{s.Conductors[0].Size, s.Conductors[1].Size}, "%v A", rating)
		assert.InDelta(t, 0.83*rating, s.Conductors[0].RequiredA, 1e-9)
	}
}

// Outside 100 to 400 A, and on 120 V, there is no 83 %.
func TestNEC310_12_NotElsewhere(t *testing.T) {
	s := wires(t, "{name: S, length: 10 ft, serves: service, amps: 60 A}", "{name: L, length: 10 ft, serves: service, amps: 450 A}")
	assert.Equal(t, 60.0, s.Conductors[0].RequiredA)
	assert.Equal(t, "4", s.Conductors[0].Size, "70 A at 60 °C")
	assert.Equal(t, 450.0, s.Conductors[1].RequiredA)
	s = scopeOf(t, "holdover: 1\nhome: {service: 120 V}\nsite: {runs: [{name: S, length: 10 ft, serves: service, amps: 100 A}]}\ncircuits: [{name: Lamps, care: keep, running: 100 W}]\n")
	assert.Equal(t, 100.0, s.Conductors[0].RequiredA)
}

// NEC Table 250.102(C)(1), 2020 edition, from memory: at each limit, and one size beyond.
func TestNEC250_102C1_SupplyBond(t *testing.T) {
	for _, c := range []struct {
		phase     string
		aluminium bool
		want      string
	}{
		{"8", false, "8"}, {"2", false, "8"}, {"1", false, "6"}, {"1/0", false, "6"}, {"2/0", false, "4"}, {"3/0", false, "4"}, {"4/0", false, "2"},
		{"350", false, "2"}, {"400", false, "1/0"}, {"600", false, "1/0"},
		{"1/0", true, "6"}, {"2/0", true, "4"}, {"3/0", true, "4"}, {"4/0", true, "2"}, {"250", true, "2"}, {"300", true, "1/0"}, {"500", true, "1/0"}, {"600", true, "3/0"},
	} {
		wire, ok := nec2020.Wire().Find(c.phase)
		require.True(t, ok)
		assert.Equal(t, c.want, nec2020.Wire().SupplyBond(wire.CircularMils, c.aluminium), "%s, aluminium %v", c.phase, c.aluminium)
	}
	assert.Empty(t, nec2020.Wire().SupplyBond(700000, false))
	s := wires(t, "{name: S, length: 10 ft, serves: service, amps: 200 A}", "{name: F, length: 10 ft, serves: feeder, amps: 60 A}")
	assert.Equal(t, "4", s.Conductors[0].Bond)
	assert.Equal(t, "6", s.Conductors[0].Ground, "behind the disconnect: 250.122")
	assert.Empty(t, s.Conductors[1].Bond)
}

// NEC 250.122(B): four sizes up for the phase wires, 8 to 4 AWG, are four for the grounding wire, 10 to 6 AWG, although the
// table's rounded mils miss that by 2 in 26 240.
func TestNEC250_122B_RoundedMils(t *testing.T) {
	assert.Equal(t, "6", groundFor(nec2020.Wire(), 40, false, 16510, 41740))
	assert.Equal(t, "8", groundFor(nec2020.Wire(), 20, false, 6530, 16510))
}

// What cannot be had is said for what it is: heat, one wire, or length.
func TestConductors_SayWhyNot(t *testing.T) {
	s := wires(t, "{name: H, length: 10 ft, serves: branch, amps: 20 A, ambient: 60 C}", "{name: B, length: 10 ft, serves: feeder, amps: 900 A}", "{name: F, length: 3000 ft, serves: feeder, amps: 60 A}")
	reasons := map[string]string{}
	for _, c := range s.Checks {
		reasons[c.Name] = c.Reason
	}
	assert.Contains(t, reasons["wire: H"], "60 °C is too hot for insulation of 60 °C")
	assert.Contains(t, reasons["wire: B"], "one wire a line is not enough")
	assert.Contains(t, reasons["voltage drop: F"], "no single wire")
}

// A hybrid's generator has wires of its own, behind an inlet of 20 A since 3.6 kVA at 240 V are 15 A; wired for good 115 % of that is
// 17.25 A (445.13). The inverter's 6 kVA are 25 A, 125 % is 31.25 A.
func TestConductors_OfAHybrid(t *testing.T) {
	s := scopeOf(t, "holdover: 1\ncircuits: [{name: Lamps, care: keep, running: 100 W}]\n", Source{Name: "hybrid", Engine: true, Inverter: true, RatedKVA: 6, SiteKVA: 6, SiteKW: 6,
		EngineKVA: 3.6, Volts: 240, EngineVolts: 240, Legs: 2, Neutral: "passed", Derate: 1})
	require.Len(t, s.Conductors, 2)
	assert.InDelta(t, 31.25, s.Conductors[0].RequiredA, 1e-9)
	assert.Equal(t, 35.0, s.Conductors[0].OvercurrentA)
	assert.Equal(t, 20.0, s.Conductors[1].RequiredA)
	assert.Equal(t, 20.0, s.Conductors[1].OvercurrentA)
	assert.Equal(t, "12", s.Conductors[1].Size)
}
