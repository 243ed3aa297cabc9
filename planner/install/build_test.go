package install

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"holdover/loads"
	"holdover/loads/home"
	"holdover/planner/sheet"
	"holdover/profiles"
)

// standby is a fixed machine of so many kVA and kW on 240 V.
func standby(kva float64) Source {
	return Source{Name: "generator", Engine: true, Fixed: true, RatedKVA: kva, SiteKVA: kva, SiteKW: kva, EngineKVA: kva, Volts: 240, EngineVolts: 240, Legs: 2, Neutral: floating, Derate: 1}
}

// single is a portable machine of 1.6 kVA on one leg of 120 V.
func single() Source {
	return Source{Name: "generator", Engine: true, RatedKVA: 1.6, SiteKVA: 1.6, SiteKW: 1.6, EngineKVA: 1.6, Volts: 120, EngineVolts: 120, Legs: 1, Neutral: floating, Derate: 1}
}

func items(s *Scope) (all string) {
	for _, item := range s.Equipment {
		all += item.Item + ": " + item.Detail + "\n"
	}
	return all
}

// A source that fails for good is not to be built: nothing is listed for it, no wire of it either. What a step mends, such as a larger
// pipe, is built with that step.
func TestDoNotBuild_WhatFailsForGood(t *testing.T) {
	const homeText = `
holdover: 1
home: {floor_area: 1500 ft2, service_amps: 200 A, transfer: %s}
site: {runs: [{name: Own, length: 20 ft}, {name: Barn, length: 20 ft, serves: feeder, amps: 30 A}], gas: {pipe: 1/2 in, length: 100 ft}}
limits: {battery_place: basement}
circuits:
  - {name: Lamps, care: keep, running: 100 W, breaker: 15 A}
  - {name: Range, care: shed, volts: 240 V, class: range, nameplate: 12 kW}
`
	small, thirsty, much := standby(8), standby(20), standby(20)
	thirsty.Fuel, thirsty.GasKW = "natural-gas", 60
	much.StoredKWh, much.UnitKWh = 60, 5
	much.Findings = []sheet.Finding{{ID: "place", Outcome: sheet.Fails, Says: "It stores 60 kWh."}}
	for _, c := range []struct {
		way    home.TransferMode
		source Source
		failed string // empty where it may be built
	}{
		{home.Automatic, small, "automatic transfer of generator"}, {home.Managed, small, ""}, {home.Manual, small, ""}, {home.Automatic, standby(20), ""},
		{home.Manual, thirsty, ""}, {home.Manual, much, "distance of generator"},
	} {
		s := scopeOf(t, fmt.Sprintf(homeText, c.way), c.source)
		if c.failed == "" {
			assert.Empty(t, s.DoNotBuild(), "%s %+v", c.way, s.DoNotBuild())
			assert.NotEmpty(t, s.Equipment)
			assert.Len(t, s.Conductors, 2)
			continue
		}
		require.Len(t, s.DoNotBuild(), 1)
		assert.Equal(t, c.failed, s.DoNotBuild()[0].Name)
		assert.Equal(t, "generator", s.DoNotBuild()[0].About)
		assert.Empty(t, s.Equipment)
		require.Len(t, s.Conductors, 1, "the wire of the source is not sized")
		assert.Equal(t, "Barn", s.Conductors[0].Name)
	}
	s := scopeOf(t, fmt.Sprintf(homeText, home.Manual), thirsty)
	for _, check := range s.Checks {
		if check.Name == "gas pipe for generator" {
			assert.Equal(t, Fail, check.Result)
			assert.Equal(t, "1-1/4 in would carry it", check.Step)
		}
	}
}

// Beyond its last size the table of pipes says so, and that is a step too.
func TestGas_BeyondTheLastSize(t *testing.T) {
	huge := standby(40)
	huge.Fuel, huge.GasKW = "natural-gas", 200
	s := scopeOf(t, "holdover: 1\nsite: {gas: {pipe: 1-1/4 in, length: 100 ft}}\ncircuits: [{name: Lamps, care: keep, running: 100 W}]\n", huge)
	require.True(t, hasCheck(s, Fail, "gas pipe for generator"))
	assert.Contains(t, fmt.Sprint(s.Checks), "a pipe larger than the 1-1/4 in at which the built-in table ends")
	assert.Empty(t, s.DoNotBuild())
}

// A check is about the source that it was made for, whatever their names end in.
func TestCheck_AboutItsOwnSource(t *testing.T) {
	a, b := standby(8), standby(8)
	b.Name = "second generator"
	b.Findings = []sheet.Finding{{ID: "legs", Outcome: sheet.Holds, Met: true, Says: "Each leg bears it."}}
	s := scopeOf(t, fmt.Sprintf(ratedHome, home.Automatic, "4 kW"), a, b)
	found := 0
	for _, c := range s.Checks {
		if c.Name == "legs of second generator" {
			found++
			assert.Equal(t, "second generator", c.About)
		}
	}
	assert.Equal(t, 1, found)
	s = scopeOf(t, fmt.Sprintf(ratedHome, home.Automatic, "4 kW"), standby(40), b)
	assert.True(t, hasCheck(s, Fail, "automatic transfer of second generator"))
	assert.Empty(t, s.DoNotBuild(), "the job is for the other")
}

// A branch of 60 A does not go into a transfer panel behind 45 A; one of 30 A goes into any.
func TestTransferPanel_ItsLargestBranch(t *testing.T) {
	const homeText = "holdover: 1\nhome: {floor_area: 1500 ft2, service_amps: 200 A}\ncircuits: [{name: Lamps, care: keep, running: 100 W, breaker: 15 A}, {name: Garage, care: keep, volts: 240 V, running: 800 W, start: none, breaker: %d A}]\n"
	large := items(scopeOf(t, fmt.Sprintf(homeText, 60), standby(10)))
	assert.NotContains(t, large, "Manual transfer panel")
	assert.Contains(t, large, "a branch of 60 A, Garage, is more than a transfer panel behind 45 A takes")
	for _, fits := range []int{30, 45} {
		assert.Contains(t, items(scopeOf(t, fmt.Sprintf(homeText, fits), standby(10))), "Manual transfer panel, 4 circuits")
	}
	assert.Contains(t, items(scopeOf(t, fmt.Sprintf(homeText, 30), standby(3))), "Manual transfer panel, 4 circuits", "behind 15 A")
	bonds := standby(10)
	bonds.Neutral = bonded
	assert.Contains(t, items(scopeOf(t, fmt.Sprintf(homeText, 60), bonds)), "Manual transfer switch, 200 A, 3-pole")
}

// Behind an inlet wire and breaker go by the inlet: 7 kVA on 240 V are 29.2 A, so an inlet of 30 A, a breaker of 30 A and 10 AWG, where
// 115 % of 29.2 A would ask for 8 AWG behind 30 A. On 120 V 1.6 kVA are 13.3 A: 15 A and 14 AWG.
func TestInlet_ItsRatingProtects(t *testing.T) {
	const homeText = "holdover: 1\nsite: {runs: [{name: Inlet to panel, length: 30 ft}]}\ncircuits: [{name: Lamps, care: keep, running: 100 W, breaker: 15 A}]\n"
	portable := standby(7)
	portable.Fixed = false
	for _, c := range []struct {
		source Source
		amps   float64
		size   string
		ground string
	}{{portable, 30, "10", "10"}, {single(), 15, "14", "14"}} {
		s := scopeOf(t, homeText, c.source)
		require.Len(t, s.Conductors, 1)
		wire := s.Conductors[0]
		assert.Equal(t, []any{c.amps, c.amps, c.size, c.ground}, []any{wire.RequiredA, wire.OvercurrentA, wire.Size, wire.Ground})
		assert.Contains(t, items(s), fmt.Sprintf("source breaker %v A", c.amps))
		assert.Contains(t, items(s), fmt.Sprintf(", %v A: weatherproof", c.amps))
	}
	fixed := scopeOf(t, homeText, standby(7))
	assert.InDelta(t, 1.15*7000/240, fixed.Conductors[0].RequiredA, 1e-9)
}

// A source of one leg behind an interlocked main feeds the whole panel: with a range or a shared neutral anywhere in it, whatever its
// care, only a transfer panel will do; and where none takes the circuits, nothing is to be built.
func TestSingleSupply_NotIntoAnInterlockedPanel(t *testing.T) {
	const homeText = "holdover: 1\nhome: {floor_area: 1000 ft2, service_amps: 100 A}\ncircuits:\n  - {name: Lamps, care: keep, running: 100 W, breaker: %d A}\n%s"
	const tall = "  - {name: Range, care: shed, volts: 240 V, class: range, nameplate: 12 kW}\n"
	const pair = "  - {name: Left, care: shed, running: 1 kW, shares_neutral_with: Right}\n  - {name: Right, care: shed, running: 1 kW}\n"
	for extra, names := range map[string]string{tall: "to Range,", pair: "to Left with Right,"} {
		s := scopeOf(t, fmt.Sprintf(homeText, 15, extra), single())
		assert.Contains(t, items(s), "Manual transfer panel")
		assert.NotContains(t, strings.ToLower(items(s)), "or: interlocked main")
		assert.Contains(t, items(s), names)
		s = scopeOf(t, fmt.Sprintf(homeText, 50, extra), single())
		require.Len(t, s.DoNotBuild(), 1)
		assert.Equal(t, "transfer panel", s.DoNotBuild()[0].Name)
		assert.Empty(t, s.Equipment)
	}
	assert.Contains(t, items(scopeOf(t, fmt.Sprintf(homeText, 15, ""), single())), "Or: interlocked main", "with nothing else in the panel it may")
	two := standby(1.6)
	assert.Contains(t, items(scopeOf(t, fmt.Sprintf(homeText, 15, tall), two)), "Or: interlocked main", "a source of two legs feeds them all")
}

// What the household has can be what the job is for: it is held to the rules like an option of the plan.
func TestOwned_IsTheSourceOfTheJob(t *testing.T) {
	own := standby(7)
	own.Name, own.Offered, own.Owned, own.Fuel, own.GasKW = "Own set", true, true, "propane", 20
	other := own
	other.Name, other.Owned = "On offer", false
	s := scopeOf(t, fmt.Sprintf(ratedHome, home.Manual, "4 kW"), own, other)
	require.NotNil(t, s.Source)
	assert.Equal(t, "Own set", s.Source.Name)
	assert.Contains(t, items(s), "Manual transfer panel")
	for _, r := range s.Rules {
		assert.Equal(t, "Own set", r.Source)
	}
	assert.True(t, hasCheck(s, Pass, "manual transfer of Own set"))
	assert.True(t, hasCheck(s, Needs, "gas for Own set"))
	assert.False(t, hasCheck(s, Needs, "gas for On offer"))
}

// The emergency disconnect outside came in 2020.
func TestNEC230_85_Since2020(t *testing.T) {
	for edition, want := range map[string]bool{"nec-2017": false, "nec-2020": true, "nec-2023": true, "nec-2026": true} {
		s := scopeOf(t, "holdover: 1\nhome: {floor_area: 1500 ft2, service_amps: 200 A, transfer: automatic, code: "+edition+"}\ncircuits: [{name: Lamps, care: keep, running: 100 W}]\n", standby(20))
		assert.Equal(t, want, strings.Contains(items(s), "Emergency disconnect outside"), edition)
	}
}

// On 230 V nothing lies on a leg.
func TestElsewhere_NoLegs(t *testing.T) {
	s := scopeOf(t, "holdover: 1\nhome: {service: 230 V}\ncircuits: [{name: Lamps, care: keep, running: 100 W}]\n")
	assert.Empty(t, s.Panel[0].Leg)
	assert.Equal(t, 1, s.Panel[0].Poles)
	f, ok := s.Sheet.Get("transfer.neutral_a")
	require.True(t, ok)
	assert.NotContains(t, f.How, "leg")
}

// Whatever the home and the edition, nothing that is said has a brace left open, an edition quotes itself alone, and one that has no
// details quotes no clause.
func TestWork_SaysWhatItsOwnEditionSays(t *testing.T) {
	files, err := filepath.Glob("../../testdata/homes/scope-*.yaml")
	require.NoError(t, err)
	for _, edition := range profiles.Codes() {
		code, _ := profiles.FindCode(edition)
		for _, file := range files {
			text, err := os.ReadFile(file)
			require.NoError(t, err)
			house := readHome(t, string(text))
			d := loads.Work(house)
			inverter := Source{Name: "battery", Fixed: true, Inverter: true, RatedKVA: 12, SiteKVA: 12, SiteKW: 12, Volts: 240, Legs: 2, Neutral: "passed", StoredKWh: 10, UnitKWh: 5, Derate: 1}
			for _, source := range []Source{standby(30), machine(bonded), single(), inverter} {
				s := Work(house, code, &d, Inputs{Sources: []Source{source}, Chosen: source.Name})
				all := fmt.Sprint(s.Checks, s.Cautions, s.Equipment, s.Rules, s.Conductors, s.Refusals)
				for _, f := range s.Sheet.All() {
					all += f.How + f.Source
				}
				assert.NotRegexp(t, `\{[a-z_]+( %)?\}`, all, "%s, %s", file, edition)
				for _, m := range regexp.MustCompile(`NEC [^;]{1,70}?, (20\d\d edition)`).FindAllStringSubmatch(all, -1) {
					assert.Equal(t, code.Edition, m[1], "%s: %s", edition, m[0])
				}
				if !code.Detailed {
					assert.NotContains(t, all, "NEC ", file)
				}
			}
		}
	}
}
