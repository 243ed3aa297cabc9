package install

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"holdover/loads"
	"holdover/loads/home"
	"holdover/profiles"
)

func readHome(t testing.TB, text string) *home.Home {
	house, err := home.Read([]byte(text), "home.yaml")
	require.NoError(t, err)
	return house
}

// nec2020 is the edition that a home follows which names none.
var nec2020 = profiles.UsualCode("120/240 V")

// scopeOf is the scope of a home with some sources, the first of them chosen.
func scopeOf(t testing.TB, text string, sources ...Source) *Scope {
	house := readHome(t, text)
	d := loads.Work(house)
	in := Inputs{Sources: sources}
	if len(sources) > 0 {
		in.Chosen = sources[0].Name
	}
	return Work(house, house.Code(), &d, in)
}

func hasCheck(s *Scope, result, name string) bool {
	for _, c := range s.Checks {
		if c.Result == result && strings.Contains(c.Name, name) {
			return true
		}
	}
	return false
}

// Thirty days of recording may not be used with solar panels, and the sheet says so.
func TestMeasured_NotBySolarShavedPeaks(t *testing.T) {
	s := scopeOf(t, "holdover: 1\nhome: {floor_area: 1500 ft2, measured_demand: 9.6 kW, measured_over: 30-days}\nsite: {sun: {kwh_per_day: 10}}\ncircuits: [{name: New, care: shed, running: 100 W}]\n")
	assert.True(t, hasCheck(s, Fail, "measured demand"))
}

// Without a floor area there is no figure, and the sheet asks for it.
func TestService_AsksForTheArea(t *testing.T) {
	s := scopeOf(t, "holdover: 1\ncircuits: [{name: Lamps, care: keep, running: 100 W}]\n")
	_, ok := s.Sheet.Get("service.standard_va")
	assert.False(t, ok)
	assert.True(t, hasCheck(s, Needs, "calculated load"))
}

// NEC 445.13, 110.14(C), 240.4, and the advice of 3 %: 30 A of a generator on 240 V over 200 ft of copper at 60 °C terminals.
// 115 % is 34.5 A: 8 AWG (40 A), 2 · 30 · 0.778 · 200/1000 = 9.34 V = 3.89 %; 6 AWG loses 5.89 V = 2.46 %.
func TestConductors_AGeneratorsRun(t *testing.T) {
	s := scopeOf(t, "holdover: 1\nsite: {runs: [{name: R, length: 200 ft, metal: aluminum, amps: 30 A}, {name: C, length: 200 ft, amps: 30 A}, {name: S, length: 10 ft, serves: service, amps: 200 A, terminals: 75 C}]}\ncircuits: [{name: Lamps, care: keep, running: 100 W}]\n")
	require.Len(t, s.Conductors, 3)
	alu, copper, service := s.Conductors[0], s.Conductors[1], s.Conductors[2]
	assert.Equal(t, "aluminium", alu.Metal)
	assert.Equal(t, "8", alu.Size, "35 A at 60 °C")
	assert.InDelta(t, 34.5, copper.RequiredA, 1e-9)
	assert.Equal(t, 30.0, copper.OvercurrentA)
	assert.Equal(t, "8", copper.Size)
	assert.Equal(t, 40.0, copper.AmpacityA)
	assert.Equal(t, "10", copper.Ground)
	assert.InDelta(t, 3.89, copper.DropPercent, 0.01)
	assert.Equal(t, "6", copper.SizeFor3)
	assert.Equal(t, "2/0", service.Size, "83 % of 200 A")
	assert.True(t, hasCheck(s, Fail, "voltage drop: C"))
	assert.True(t, hasCheck(s, Pass, "voltage drop: S"))
}

// A home of 230 V hears physics and its local rules, and no clause of the US code.
func TestElsewhere_NoUSClause(t *testing.T) {
	s := scopeOf(t, "holdover: 1\nhome: {service: 230 V}\nsite: {runs: [{name: R, length: 30 m, amps: 20 A}], gas: {pipe: 1 in, length: 20 ft}}\ncircuits: [{name: Boiler, care: keep, running: 200 W, needs: {earthed_neutral: true}}]\n",
		Source{Name: "generator", Engine: true, RatedKVA: 5, SiteKVA: 5, SiteKW: 5, EngineKVA: 5, Volts: 230, EngineVolts: 230, Legs: 1, Neutral: floating, Fuel: "natural-gas", GasKW: 20, Derate: 1})
	all := fmt.Sprintf("%+v %+v %+v %+v %+v %+v", s.Checks, s.Cautions, s.Equipment, s.Rules, s.Conductors, s.Refusals)
	for _, f := range s.Sheet.All() {
		all += f.How + f.Source
	}
	for _, clause := range []string{"NEC", "NFPA", "IRC", "702", "250.", "310.16", "445"} {
		assert.NotContains(t, all, clause)
	}
	assert.Contains(t, all, s.Code.Unknown)
	// 2 · 0.0210 Ω·mm²/m · 30 m · 20 A / (3 % of 230 V) = 3.65 mm², worked by hand.
	assert.InDelta(t, 3.65, s.Conductors[0].LeastMM2, 0.01)
	assert.Empty(t, s.Refusals)
}

// An automatic switch takes the whole calculated load, load management and a person what is chosen: NEC 702.4.
func TestNEC702_4_TransferRule(t *testing.T) {
	const homeText = "holdover: 1\nhome: {floor_area: 1500 ft2, service_amps: 200 A, transfer: %s}\ncircuits:\n  - {name: Lamps, care: keep, running: 100 W}\n  - {name: Range, care: shed, volts: 240 V, class: range, nameplate: 12 kW}\n"
	source := Source{Name: "generator", Engine: true, Fixed: true, RatedKVA: 8, SiteKVA: 7, SiteKW: 7, EngineKVA: 8, Volts: 240, EngineVolts: 240, Legs: 2, Neutral: floating, Derate: 7.0 / 8}
	for mode, ok := range map[home.TransferMode]bool{home.Manual: true, home.Automatic: false, home.Managed: true} {
		s := scopeOf(t, fmt.Sprintf(homeText, mode), source)
		require.Len(t, s.Rules, 3)
		for _, r := range s.Rules {
			assert.Equal(t, r.Mode == mode, r.Applies)
			if r.Applies {
				assert.Equal(t, ok, r.OK, mode)
			}
		}
		assert.Equal(t, !ok, hasCheck(s, Fail, string(mode)+" transfer"))
	}
	s := scopeOf(t, fmt.Sprintf(homeText, home.Automatic), source)
	assert.InDelta(t, s.Service.LeastVA, s.Sheet.Value("transfer.generator.automatic.needed_va"), 1e-9)
	// 5100 VA of general load and 8000 VA of range by the standard method, / (7/8) = 14.97 kVA rated, worked by hand.
	assert.Equal(t, 13100.0, s.Service.LeastVA)
	assert.Contains(t, s.Rules[1].MustBe, "15 kVA rated")
}
