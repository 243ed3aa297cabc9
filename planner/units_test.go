package planner_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"holdover/loads/home"
	"holdover/planner"
)

// With every quantity given its unit, home.units is what is shown and no more: not a figure of the plan changes.
func TestLaw_HomeUnitsChangeNoFigure(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := quick(t, 4)
		us := planText(t, withUnits(h.text(), "us"))
		si := planText(t, withUnits(h.text(), "si"))
		if len(us.Sheet.All()) != len(si.Sheet.All()) {
			t.Fatalf("%d figures and %d", len(us.Sheet.All()), len(si.Sheet.All()))
		}
		for i, f := range us.Sheet.All() {
			g := si.Sheet.All()[i]
			if f.ID != "home.units" && (f.ID != g.ID || f.Value != g.Value || f.Word != g.Word) {
				t.Errorf("%s is %v %s, and %s %v %s", f.ID, f.Value, f.Word, g.ID, g.Value, g.Word)
			}
		}
		if us.Choice != si.Choice {
			t.Errorf("%s, and %s", us.Choice, si.Choice)
		}
	})
}

func withUnits(home, units string) string {
	return strings.Replace(home, "home:\n", "home:\n  units: "+units+"\n", 1)
}

// bare is the text of the notice on numbers without a unit; empty where there is none.
func bare(t *testing.T, text string) string {
	t.Helper()
	house, err := home.Read([]byte("holdover: 1\n"+text), "home.yaml")
	require.NoError(t, err)
	for _, c := range planner.PlanAll(house).Cautions {
		if c.ID == "bare-numbers" {
			assert.Equal(t, "NOTICE", c.Word)
			return c.Text
		}
	}
	return ""
}

// The notice names each key without a unit, and what was understood.
func TestCautions_NameBareNumbers(t *testing.T) {
	const circuits = "circuits: [{name: A, running: 100}]\n"
	assert.Contains(t, bare(t, circuits+"limits: {fuel_store: 10}\nsite: {coldest: 5, elevation: 0}\n"), "limits.fuel_store 10 is 10 gal (37.9 L), site.coldest 5 is 5 °F (-15 °C).")
	assert.Contains(t, bare(t, circuits+"limits: {fuel_store: 10}\nhome: {units: si}\n"), "limits.fuel_store 10 is 10 L (2.64 gal).")
	assert.Empty(t, bare(t, circuits+"limits: {fuel_store: 10 gallons}\nsite: {elevation: 0}\n"))
	many := "circuits:\n"
	for i := range 20 {
		many += fmt.Sprintf("  - {name: A%d, running: 100 W, tank: {holds: 50}}\n", i)
	}
	assert.Contains(t, bare(t, many), "and 8 more")
}
