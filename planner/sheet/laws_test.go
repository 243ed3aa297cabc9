package sheet

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/profiles"
)

// drawSheet writes a random spec sheet, some figures missing, some absurd but within their ranges.
func drawSheet(r *rapid.T) string {
	var b strings.Builder
	fmt.Fprintf(&b, "- name: Unit\n  kind: %s\n", rapid.SampledFrom([]home.GearKind{home.UPS, home.PowerStation, home.Inverter, home.Battery, home.Generator}).Draw(r, "kind"))
	for _, f := range home.FieldsOf("gear") {
		if f.Key == "name" || f.Key == "kind" || rapid.IntRange(0, 3).Draw(r, f.Key+" missing") == 0 {
			continue
		}
		value := ""
		switch {
		case f.Words != nil:
			value = rapid.SampledFrom(f.Words).Draw(r, f.Key)
		case f.Key == "owned":
			value = "true"
		case f.Key == "runtimes":
			value = rapid.SampledFrom([]string{"[[50%, 11 min]]", "[[50%, 11 min], [100%, 2.5 min]]", "[[1%, 900 min], [30%, 40 min], [120%, 3 min]]"}).Draw(r, f.Key)
		case f.Key == "legs":
			value = fmt.Sprint(rapid.IntRange(1, 2).Draw(r, f.Key))
		case f.Key == "energy":
			value = fmt.Sprint(f.High) // what stands under runtimes is never more
		default:
			span := rapid.SampledFrom([]float64{0, 0.001, 0.01, 0.1, 0.5, 1}).Draw(r, f.Key)
			value = fmt.Sprint(f.Low + span*(f.High-f.Low))
		}
		fmt.Fprintf(&b, "  %s: %s\n", f.Key, value)
	}
	return b.String()
}

func homes(t *testing.T) (all []*home.Home) {
	t.Helper()
	paths, err := filepath.Glob("../../testdata/homes/*.yaml")
	require.NoError(t, err)
	for _, path := range paths {
		text, err := os.ReadFile(path)
		require.NoError(t, err)
		house, err := home.Read(text, path)
		require.NoError(t, err, path)
		if len(house.Circuits) < 50 {
			all = append(all, house)
		}
	}
	require.Greater(t, len(all), 10)
	return all
}

// Whatever the sheet and the home: an answer, with every figure there and finite, and a verdict that follows from the checks.
func TestOf_AnySheetGetsAnAnswer(t *testing.T) {
	all := homes(t)
	rapid.Check(t, func(r *rapid.T) {
		sheet := drawSheet(r)
		gear, err := home.ReadGear([]byte(sheet), "gear.yaml", units.SI)
		require.NoError(r, err, sheet)
		house := *rapid.SampledFrom(all).Draw(r, "home")
		house.Gear = gear
		report, err := Of(&house, Request{})
		if err != nil {
			require.ErrorContains(r, err, "no circuit is kept")
			return
		}
		u := report.Units[0]
		worst := Fits
		for _, c := range u.Checks {
			if c.Outcome == Fails {
				worst = DoesNotFit
			} else if c.Outcome != Holds && worst == Fits {
				worst = FitsIf
			}
			assert.NotContains(r, c.Says, "%!", c.ID)
			for _, id := range c.Figures {
				_, ok := u.Sheet.Get(id)
				assert.True(r, ok, "%s names %s", c.ID, id)
			}
		}
		assert.Equal(r, worst, u.Verdict)
		for _, f := range u.Sheet.All() {
			for _, id := range f.From {
				_, ok := u.Sheet.Get(id)
				assert.True(r, ok, "%s comes from %s", f.ID, id)
			}
		}
	})
}

// A longer outage never makes a unit fit that did not, and where neither more circuits get a turn in it nor the rate of discharge
// counts, the unit lasts as long.
func TestOf_LongerIsNeverEasier(t *testing.T) {
	all := homes(t)
	order := []Verdict{Fits, FitsIf, DoesNotFit}
	rapid.Check(t, func(r *rapid.T) {
		gear, err := home.ReadGear([]byte(drawSheet(r)), "gear.yaml", units.SI)
		require.NoError(r, err)
		house := *rapid.SampledFrom(all).Draw(r, "home")
		house.Gear = gear
		house.Outage.Start = home.StartHour{At: 18} // the hardest start depends on the length
		short := rapid.Float64Range(0.1, 40).Draw(r, "short")
		first, err := Of(&house, Request{Length: units.Hours(short)})
		if err != nil {
			return
		}
		second, err := Of(&house, Request{Length: units.Hours(short * rapid.Float64Range(1, 10).Draw(r, "times"))})
		require.NoError(r, err)
		assert.GreaterOrEqual(r, slices.Index(order, second.Units[0].Verdict), slices.Index(order, first.Units[0].Verdict))
		if c, _ := profiles.FindChemistry(gear[0].Chemistry); c.Peukert == 1 && slices.Equal(first.Circuits, second.Circuits) {
			assert.InDelta(r, float64(first.Units[0].Runtime), float64(second.Units[0].Runtime), 1e-6, "what it lasts does not depend on what is asked")
		}
	})
}

// More stored energy never lasts less long, and a battery with more of its capacity left neither.
func TestOf_MoreLastsNoLess(t *testing.T) {
	all := homes(t)
	rapid.Check(t, func(r *rapid.T) {
		house := *rapid.SampledFrom(all).Draw(r, "home")
		sheet := func(energy, left float64) []home.Gear {
			gear, err := home.ReadGear([]byte(fmt.Sprintf("- {name: Box, kind: power-station, watts: 2 kW, energy: %f, capacity_left: %f, chemistry: %s}\n", energy, left,
				"agm")), "gear.yaml", units.SI)
			require.NoError(r, err)
			return gear
		}
		energy, left := rapid.Float64Range(100, 10000).Draw(r, "energy"), rapid.Float64Range(0.1, 0.5).Draw(r, "left")
		house.Gear = sheet(energy, left)
		less, err := Of(&house, Request{})
		if err != nil {
			return
		}
		house.Gear = sheet(energy*rapid.Float64Range(1, 2).Draw(r, "more"), left*rapid.Float64Range(1, 2).Draw(r, "younger"))
		more, err := Of(&house, Request{})
		require.NoError(r, err)
		assert.GreaterOrEqual(r, float64(more.Units[0].Runtime)*(1+1e-9), float64(less.Units[0].Runtime))
	})
}
