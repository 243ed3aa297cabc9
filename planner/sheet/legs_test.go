package sheet

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"holdover/loads"
	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/planner/derive"
)

const splitUnit = `- {name: Split, kind: power-station, wave: sine, volts: 240 V, legs: 2, hertz: 60 Hz, watts: 4000 W, va: 5000, surge: 8000 W, surge_seconds: 5 s,
   energy: 20 kWh, chemistry: lfp, capacity_left: 1, neutral: bonded, gap: 10 ms, recharge: 4 h, price: 3000}
`

func onSplit(t *testing.T, sheet, circuits string) Unit {
	t.Helper()
	house := house(t, "site: {inverter_space: 20 C}\noutage: {length: 1 h}\ncircuits:\n"+circuits)
	gear, err := home.ReadGear([]byte(sheet), "gear.yaml", units.US)
	require.NoError(t, err)
	house.Gear = gear
	report, err := Of(house, Request{})
	require.NoError(t, err)
	checkSheet(t, report.Units[0])
	return report.Units[0]
}

// A 120 V motor starts on one leg alone. 600 VA · 10 are 6000 VA: within the 10 000 VA of both legs, but not within the 5000 VA
// of one. At 240 V each leg bears 3000 VA, and all is well; so it is with a start of 7 times, 4200 VA.
func TestLegStart_OneLegBearsItAlone(t *testing.T) {
	motor := "  - {name: Pump, running: 480 W, power_factor: 0.8, start_seconds: 1 s, use: {duty: 0.2}, needs: {wave: any}, "
	u := onSplit(t, splitUnit, motor+"start: {times: 10}}\n")
	assert.Equal(t, []string{"leg-start"}, ids(u.Checks, Fails), u.Says(Fails))
	assert.InDelta(t, 6000, u.Sheet.Value("load.leg_start_va"), 1e-6)
	assert.InDelta(t, 5000, u.Sheet.Value("fit.leg_surge_va"), 1e-6)
	assert.Equal(t, Fits, onSplit(t, splitUnit, motor+"start: {times: 7}}\n").Verdict)
	assert.Equal(t, Fits, onSplit(t, splitUnit, motor+"volts: 240 V, start: {times: 10}}\n").Verdict)
	// Without a surge on the sheet a leg has half of what it gives steadily: 2500 VA against 7 · 600 = 4200.
	steady := "- {name: Split, kind: power-station, wave: sine, volts: 240 V, legs: 2, hertz: 60 Hz, watts: 5000 W, va: 5000, energy: 20 kWh, chemistry: lfp, recharge: 4 h, price: 3000}\n"
	u = onSplit(t, steady, motor+"start: {times: 7}}\n")
	assert.Equal(t, []string{"leg-start"}, ids(u.Checks, Fails), u.Says(Fails))
}

// Each leg has half of the watts too: a heater of 2100 W is within 2500 VA and not within 2000 W. At 1900 W it is within, but not
// with 15 % of head-room.
func TestLegs_HoldWattsAndHeadRoom(t *testing.T) {
	heater := func(watts string) string {
		return "  - {name: Heater, running: " + watts + ", use: {duty: 1}, needs: {wave: any}}\n"
	}
	assert.Equal(t, []string{"legs"}, ids(onSplit(t, splitUnit, heater("2100 W")).Checks, Fails))
	assert.Equal(t, []string{"legs"}, ids(onSplit(t, splitUnit, heater("1900 W")).Checks, HoldsIf))
	assert.Equal(t, Fits, onSplit(t, splitUnit, heater("1700 W")).Verdict)
}

// In a 120 V house all of it hangs on one leg: 2100 W are within the 4000 W of both, and not within the 2000 W of one.
func TestLegs_A120VHouseHasOneOfThem(t *testing.T) {
	house := house(t, "home: {service: 120 V}\nsite: {inverter_space: 20 C}\noutage: {length: 1 h}\ncircuits:\n"+
		"  - {name: Heater, running: 1100 W, use: {duty: 1}, needs: {wave: any}}\n  - {name: Other heater, running: 1000 W, use: {duty: 1}, needs: {wave: any}}\n")
	house.Gear, _ = home.ReadGear([]byte(splitUnit), "gear.yaml", units.US)
	report, err := Of(house, Request{})
	require.NoError(t, err)
	assert.Equal(t, []string{"legs"}, ids(report.Units[0].Checks, Fails))
	house.House.Service = home.SplitPhase // the two share the legs
	report, err = Of(house, Request{})
	require.NoError(t, err)
	assert.Equal(t, Fits, report.Units[0].Verdict, report.Units[0].Says(Fails, HoldsIf, NotOnSheet))
}

// The rating whose formula is shown is the one that binds: what the hardest moment draws is its share of that.
func TestLegs_TheRatingShownIsTheOneThatBinds(t *testing.T) {
	const head = "- {name: Source, kind: %s, wave: sine, volts: 240 V, legs: 2, hertz: 60 Hz, va: 5000"
	for name, c := range map[string]struct {
		kind, rest, start string
		want              loads.LegMoment
		how               string
	}{
		"running": {"power-station", ", watts: 5000 W", "{times: 1.1}", loads.LegMoment{}, "VA · inverter derate · 0.5 / (1 + power margin)"},
		"in W":    {"power-station", ", watts: 3000 W", "{times: 1.1}", loads.LegMoment{Real: true}, "watts · inverter derate · 0.5 / (1 + power margin)"},
		"steady":  {"power-station", ", watts: 5000 W", "{times: 4}", loads.LegMoment{Starter: "Pump"}, "VA · inverter derate · 0.5"},
		"surge": {"power-station", ", watts: 5000 W, surge: 9000 W, surge_seconds: 5 s", "{times: 6}", loads.LegMoment{Starter: "Pump"},
			"max(VA · inverter derate · 0.5, surge · VA / watts · inverter derate · 0.5)"},
		"long": {"power-station", ", watts: 5000 W, surge: 9000 W, surge_seconds: 1 s", "{times: 6}", loads.LegMoment{Starter: "Pump", Long: true}, "VA · inverter derate · 0.5"},
		"dip": {"generator", ", watts: 5000 W, alternator: wound", "{times: 9}", loads.LegMoment{Starter: "Pump"},
			"VA · alternator derate · 0.5 · allowed dip / (reactance · (1 − allowed dip))"},
	} {
		t.Run(name, func(t *testing.T) {
			house := house(t, "site: {inverter_space: 20 C}\noutage: {length: 1 h}\ncircuits:\n  - {name: Pump, running: 480 W, power_factor: 0.8, start_seconds: 3 s, use: {duty: 0.2}, needs: {wave: any}, start: "+c.start+"}\n")
			gear, err := home.ReadGear([]byte(fmt.Sprintf(head, c.kind)+c.rest+"}\n"), "gear.yaml", units.US)
			require.NoError(t, err)
			d := NewDuty(house)
			h := d.holding(Sheet{Gear: gear[0]}, Place{Part: House}, derive.Over(d.written()))
			leg := h.legRatings().less(h.powerMargin())
			at := h.assigned(leg.limits()).Binds
			assert.Equal(t, c.want, loads.LegMoment{Starter: at.Starter, Long: at.Long, Real: at.Real})
			_, draws, gives, _ := h.legFigures(at, leg)
			assert.InEpsilon(t, draws/at.Stress, gives, 1e-9)
			kind := map[bool]string{true: "fit.leg_surge_", false: "fit.leg_"}[at.Starter != ""] + map[bool]string{true: "w", false: "va"}[at.Real]
			f, _ := h.figures.Get(kind)
			assert.Equal(t, c.how, f.How)
		})
	}
}
