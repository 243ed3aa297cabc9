package planner

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"holdover/loads/home"
	"holdover/planner/sheet"
)

func ownedHome(t *testing.T, change func(string) string) *Result {
	t.Helper()
	text, err := home.TextOf("../testdata/homes/fit-owned.yaml")
	require.NoError(t, err)
	house, err := home.Read([]byte(change(string(text))), "fit-owned.yaml")
	require.NoError(t, err)
	return PlanAll(house)
}

func same(text string) string { return text }

// What is owned is counted: the power box takes kept circuits that it carries to the end, the rest costs no more than the plan
// that knows of neither, and the small machine that is there already is used where it can be.
func TestOwned_JoinsThePlan(t *testing.T) {
	r := ownedHome(t, same)
	inv, ok := Owned(t.Context(), r)
	require.True(t, ok)
	require.Len(t, inv.Units, 2)
	require.Len(t, inv.Units[0].Carries, 3, "each kept circuit alone")
	require.NotEmpty(t, inv.Served)
	unit := sheet.NewDuty(sheet.Keeping(r.Home, inv.Served...)).Unit(r.Home.Gear[0])
	assert.Equal(t, sheet.Fits, unit.Verdict, "what it is given it carries: %v", unit.Checks)
	assert.ElementsMatch(t, append(append([]string{}, inv.Served...), inv.Rest...), r.duty.Circuits)
	require.NotEqual(t, None, inv.Kind)
	assert.LessOrEqual(t, inv.Design.Cost.Total(), inv.Without)
}

// An owned generator that suits is chosen at no price: it is among the machines, and none on offer is cheaper.
func TestOwned_GeneratorIsFree(t *testing.T) {
	larger := func(text string) string {
		at := strings.Index(text, "Garden machine")
		return text[:at] + strings.NewReplacer("volts: 120 V", "volts: 240 V\n    legs: 2", "watts: 1800 W", "watts: 9000 W", "va: 2000", "va: 16000", "surge: 2300 W", "surge: 11000 W",
			"neutral: floating", "neutral: bonded", "gap: 5 min", "gap: 10 s").Replace(text[at:])
	}
	inv, ok := Owned(t.Context(), ownedHome(t, larger))
	require.True(t, ok)
	require.NotNil(t, inv.Design.Machine)
	assert.Equal(t, "owned", inv.Design.Machine.Kind)
	assert.Less(t, inv.Design.Cost.Purchase, 3000.0, "transfer equipment and cans, no machine")
}

func TestOwned_NothingOwned(t *testing.T) {
	_, ok := Owned(t.Context(), ownedHome(t, func(text string) string { return strings.ReplaceAll(text, "owned: true", "owned: false") }))
	assert.False(t, ok)
}

// The bridge is the same as asking the package itself.
func TestFit_IsTheSameAsTheCheck(t *testing.T) {
	r := ownedHome(t, same)
	got, err := Fit(r)
	require.NoError(t, err)
	want, err := sheet.Of(r.Home, sheet.Request{})
	require.NoError(t, err)
	assert.Equal(t, want, got)
	assert.Equal(t, []string{"Boiler", "Modem and router", "Lights", "Refrigerator", "Well pump", "Sump pump"}, got.Circuits, "kept, and those that get a turn")
}

// What is worked out apart from the plan shows its working too, down to what the home does not give.
func TestAside_FindsWhatThePlanDoesNotHold(t *testing.T) {
	r := ownedHome(t, func(text string) string { return strings.Replace(text, ", gains: 300 W", "", 1) })
	for _, id := range []string{"waiting.house_to_10c_h", "turns.energy_wh", "heat.space_wh", "home.gains"} {
		_, inPlan := r.Sheet.Get(id)
		assert.False(t, inPlan, id)
		f, ok := Aside(r, id)
		require.True(t, ok, id)
		assert.Equal(t, id, f.ID)
	}
	_, ok := Aside(r, "load.none_such")
	assert.False(t, ok)
}

// A floating neutral does not keep an owned generator from the plan: the house's own joint of neutral and earth serves it, as it
// does a machine that is bought.
func TestOwned_AFloatingNeutralMayJoin(t *testing.T) {
	floating := func(text string) string {
		at := strings.Index(text, "Garden machine")
		return text[:at] + strings.NewReplacer("volts: 120 V", "volts: 240 V\n    legs: 2", "watts: 1800 W", "watts: 9000 W", "va: 2000", "va: 16000", "surge: 2300 W", "surge: 11000 W", "gap: 5 min", "gap: 10 s").Replace(text[at:])
	}
	inv, ok := Owned(t.Context(), ownedHome(t, floating))
	require.True(t, ok)
	assert.Contains(t, inv.Rest, "Boiler", "its flame sensing wants the joint")
	require.NotNil(t, inv.Design.Machine)
	assert.Equal(t, "owned", inv.Design.Machine.Kind)
}
