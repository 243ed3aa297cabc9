package sheet

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"holdover/loads/home"
	"holdover/loads/units"
)

// house reads a home whose gear is that of some invented sheets.
func house(t *testing.T, text string, sheets ...string) *home.Home {
	t.Helper()
	house, err := home.Read([]byte("holdover: 1\n"+text), "house.yaml")
	require.NoError(t, err)
	for _, name := range sheets {
		sheet, err := os.ReadFile(filepath.Join("..", "..", "testdata", "gear", name+".yaml"))
		require.NoError(t, err)
		gear, err := home.ReadGear(sheet, name, units.US)
		require.NoError(t, err)
		house.Gear = append(house.Gear, gear...)
	}
	return house
}

const (
	burner     = "outage: {length: 30 min}\ncircuits: [{name: Heater, like: gas-instant-heater}]\n"
	cooler     = "outage: {length: 4 h}\ncircuits: [{name: Refrigerator, like: refrigerator}]\n"
	breathing  = "outage: {length: 4 h}\ncircuits: [{name: Ventilator, like: ventilator}, {name: Computer, like: desktop}]\n"
	television = "outage: {length: 30 min}\ncircuits: [{name: Television, like: television}]\n"
	lamp       = "outage: {length: 30 min}\ncircuits: [{name: Lamp, running: 40 W, needs: {wave: any}}]\n"
	cabin      = "outage: {length: 6 h}\nlimits: {fuels: [gasoline]}\ncircuits: [{name: Kettle, like: kettle}, {name: Heater, like: gas-tank-damper}]\n"
	dieselYard = "outage: {length: 6 h, start: \"18:00\"}\nlimits: {fuels: [diesel], quiet: \"22:00-07:00\", fuel_store: 1 L, budget: 900}\ncircuits: [{name: Kettle, like: kettle}, {name: Iron, like: iron, shares_neutral_with: Kettle}]\n"
)

// Ten invented sheets against a house each: the verdict, and every check that fails, asks or sets a condition.
func TestTenSheets_EachFailsForItsReasons(t *testing.T) {
	reached := map[string]bool{}
	for _, c := range []struct {
		sheet, house string
		verdict      Verdict
		failed       []string
		open         []string // asked or conditional
	}{
		{"desk-stepped", burner, DoesNotFit, []string{"wave", "neutral", "runtime"}, nil},
		{"desk-stepped", television, DoesNotFit, []string{"corrected-supply", "runtime"}, nil},
		{"desk-stepped", lamp, FitsIf, nil, []string{"runtime"}}, // beyond its published loads
		{"quick-to-empty", burner, DoesNotFit, []string{"runtime"}, nil},
		{"tower-long", burner, Fits, nil, nil},
		{"wheeled-box", burner, Fits, nil, nil},
		{"wheeled-box", cooler, Fits, nil, nil},
		{"wheeled-box", breathing, Fits, nil, nil},
		{"weak-start", cooler, DoesNotFit, []string{"surge", "surge"}, nil},
		{"slow-switch", breathing, DoesNotFit, []string{"gap"}, nil},
		{"slow-switch", "outage: {length: 4 h}\ncircuits: [{name: Computer, like: desktop}]\n", FitsIf, nil, []string{"gap"}},
		{"slow-switch", "outage: {length: 4 h, apart: 12 h}\nsite: {battery_space: -10 C}\n" + cooler[len("outage: {length: 4 h}\n"):], DoesNotFit, []string{"recharge"}, []string{"cold"}},
		{"slow-switch", "outage: {length: 4 h}\nsite: {battery_space: -30 C}\n" + cooler[len("outage: {length: 4 h}\n"):], DoesNotFit, []string{"cold"}, nil},
		{"no-legs", cabin, DoesNotFit, []string{"volts"}, nil},
		{"no-legs", "limits: {generator: none}\n" + cabin[len("outage: {length: 6 h}\nlimits: {fuels: [gasoline]}\n"):], DoesNotFit, []string{"volts", "place"}, nil},
		{"small-halves", cabin, DoesNotFit, []string{"wave", "legs", "fuel"}, []string{"neutral"}},
		{"small-halves", dieselYard, DoesNotFit, []string{"legs", "quiet", "fuel", "price"}, []string{"watts", "va"}},
		{"other-shore", burner, DoesNotFit, []string{"wave", "volts", "hertz", "neutral", "va"}, nil},
		{"weak-start", "outage: {length: 4 h}\ncircuits: [{name: Kettle, like: kettle}]\n", DoesNotFit, []string{"watts", "va"}, nil},
		{"small-halves", "outage: {length: 1 h}\ncircuits: [{name: Pump, like: sump-pump-half-hp}]\n", DoesNotFit, []string{"wave", "dip", "leg-start"}, nil},
		{"wheeled-box", "outage: {length: 1 h}\ncircuits: [{name: Lamp, running: 40 W}, {name: Other lamp, running: 40 W, shares_neutral_with: Lamp}]\n", DoesNotFit, []string{"legs"}, nil},
		{"silent-sheet", burner, FitsIf, nil, []string{"wave", "volts", "hertz", "neutral", "watts", "va", "runtime", "recharge"}},
	} {
		home := house(t, c.house, c.sheet)
		q := Request{} // one circuit by itself is used in one go
		if len(home.Circuits) == 1 {
			q.Circuit = home.Circuits[0].Name
		}
		report, err := Of(home, q)
		require.NoError(t, err)
		u := report.Units[0]
		assert.Equal(t, c.verdict, u.Verdict, "%s: %v", c.sheet, u.Says(Fails, NotOnSheet, HoldsIf))
		assert.Equal(t, c.failed, ids(u.Checks, Fails), "%s: %v", c.sheet, u.Says(Fails))
		if c.open != nil {
			assert.Equal(t, c.open, ids(u.Checks, NotOnSheet, HoldsIf), "%s: %v", c.sheet, u.Says(NotOnSheet, HoldsIf))
		}
		checkSheet(t, u)
		for _, id := range ids(u.Checks, Fails) {
			reached[id] = true
		}
	}
	for _, id := range strings.Fields("wave corrected-supply volts hertz legs neutral watts va surge dip gap runtime cold recharge fuel quiet place price") {
		assert.True(t, reached[id], "no sheet here fails for its %s", id)
	}
}

func ids(checks []Finding, outcomes ...Outcome) (out []string) {
	for _, c := range checks {
		if slices.Contains(outcomes, c.Outcome) {
			out = append(out, c.ID)
		}
	}
	return out
}

// checkSheet wants every figure that a check names, and every one that a figure came from.
func checkSheet(t *testing.T, u Unit) {
	t.Helper()
	for _, c := range u.Checks {
		assert.NotEmpty(t, c.Says, c.ID)
		for _, id := range c.Figures {
			_, ok := u.Sheet.Get(id)
			assert.True(t, ok, "%s names %s", c.ID, id)
		}
	}
	for _, f := range u.Sheet.All() {
		assert.NotEmpty(t, f.How, f.ID)
		for _, id := range f.From {
			_, ok := u.Sheet.Get(id)
			assert.True(t, ok, "%s comes from %s", f.ID, id)
		}
	}
}

func TestTenSheets_AreTen(t *testing.T) {
	sheets, err := filepath.Glob("../../testdata/gear/*.yaml")
	require.NoError(t, err)
	assert.Len(t, sheets, 10)
}

// What fits comes first, the cheaper first; at one price the one that lasts longer.
func TestRank_ByPriceThenSpareRuntime(t *testing.T) {
	house := house(t, burner, "desk-stepped", "wheeled-box", "tower-long", "silent-sheet")
	twin := house.Gear[1]
	twin.Name, twin.Energy = "Larger box, same price", 3000
	house.Gear = append(house.Gear, twin)
	report, err := Of(house, Request{Circuit: "Heater"})
	require.NoError(t, err)
	var names []string
	for _, u := range report.Units {
		names = append(names, u.Gear.Name)
	}
	assert.Equal(t, []string{"Tower unit, long", "Larger box, same price", "Wheeled power box", "Box without papers", "Small desk unit"}, names)
	assert.True(t, report.Any())
}

// A missing figure is asked for whichever it is: take each from a sheet that fits, and it fits no more without a question.
func TestMissingFigure_IsNeverTakenForGranted(t *testing.T) {
	text, err := os.ReadFile("../../testdata/gear/tower-long.yaml")
	require.NoError(t, err)
	for _, key := range []string{"wave", "volts", "hertz", "watts", "va", "runtimes", "neutral", "recharge"} {
		gear, err := home.ReadGear(without(string(text), key), "gear.yaml", units.US)
		require.NoError(t, err)
		house := house(t, burner)
		house.Gear = gear
		report, err := Of(house, Request{})
		require.NoError(t, err)
		assert.Equal(t, FitsIf, report.Units[0].Verdict, key)
		assert.NotEmpty(t, report.Units[0].Says(NotOnSheet), key)
	}
}

func TestOf_SaysWhatItCannotCheck(t *testing.T) {
	_, err := Of(house(t, burner), Request{})
	assert.ErrorContains(t, err, "no unit to check")
	_, err = Of(house(t, burner, "wheeled-box"), Request{Circuit: "Kiln"})
	assert.ErrorContains(t, err, `no circuit is called "Kiln"; there are Heater`)
	_, err = Of(house(t, "circuits: [{name: Kettle, like: kettle, care: shed}]\n", "wheeled-box"), Request{})
	assert.ErrorContains(t, err, "no circuit is kept")
}

// An inverter stores nothing and a battery gives no mains: each fits only with the other, of the size that the plan would take.
func TestParts_FitWithTheOther(t *testing.T) {
	house := house(t, "outage: {length: 10 h}\ncircuits: [{name: Lamp, running: 92 W}]\nassume: {inverter_idle: 0 W, energy_margin: 0}\n")
	gear, err := home.ReadGear([]byte("- {name: Inverter, kind: inverter, wave: sine, volts: 120 V, hertz: 60 Hz, watts: 500 W, va: 500, efficiency: 0.92, idle: 0 W, price: 100}\n"+
		"- {name: Battery, kind: battery, energy: 2 kWh, chemistry: lfp, watts: 1 kW, recharge: 4 h, price: 200}\n"), "gear.yaml", units.US)
	require.NoError(t, err)
	house.Gear = gear
	report, err := Of(house, Request{})
	require.NoError(t, err)
	for _, u := range report.Units {
		assert.Equal(t, FitsIf, u.Verdict)
		checkSheet(t, u)
	}
	// By hand: 92 W for 10 h behind 92 % are 1000 Wh; of lfp 90 % may be used, 80 % are left, and at 20 °C 96.7 % of that.
	inverter := report.Units[slices.IndexFunc(report.Units, func(u Unit) bool { return u.Gear.Kind == "inverter" })]
	assert.Equal(t, []string{"runtime"}, ids(inverter.Checks, HoldsIf))
	assert.InDelta(t, 1000/(0.9*0.8*0.96667), inverter.Sheet.Value("fit.battery_wh"), 0.1)
	// And 2000 Wh · 0.9 · 0.8 · 0.967 at 100 W last 13.92 h.
	battery := report.Units[slices.IndexFunc(report.Units, func(u Unit) bool { return u.Gear.Kind == "battery" })]
	assert.Equal(t, []string{"inverter"}, ids(battery.Checks, HoldsIf))
	assert.InDelta(t, 13.92, float64(battery.Runtime), 0.01)
}
