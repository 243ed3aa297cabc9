package planner_test

import (
	"context"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"holdover/loads/home"
	"holdover/planner"
)

// verdictOf plans a home's text as far as the choice.
func verdictOf(t require.TestingT, text string) *planner.Result {
	house, err := home.Read([]byte(text), "home.yaml")
	require.NoError(t, err, text)
	r, err := planner.Plan(context.Background(), house, planner.Want{Choice: true, Derivations: true})
	require.NoError(t, err)
	return r
}

// Shedding a circuit that neither heats nor cools never asks more running, starting or energy, and never turns carried into not
// for a battery alone or a generator alone.
func TestLaw_SheddingNeverAsksMore(t *testing.T) {
	asked := []string{"load.running_w", "load.running_va", "load.worst_moment_w", "load.worst_moment_va", "load.cold_return_va", "load.energy_wh", "load.heavier_leg_va"}
	shed, carried := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		h := plainHomes(t, 7)
		h.lengthH = math.Min(h.lengthH, 48)
		var may []int
		for i, c := range h.circuits {
			if c.care != "shed" && c.use != "heating" && c.use != "cooling" && c.like == "" {
				may = append(may, i)
			}
		}
		if len(may) == 0 {
			return
		}
		text := h.text()
		before := verdictOf(t, text)
		i := rapid.SampledFrom(may).Draw(t, "shed")
		h.circuits[i].care = "shed"
		after := verdictOf(t, h.text())
		shed++
		for _, id := range asked {
			was, is := before.Sheet.Value(id), after.Sheet.Value(id)
			if is > was*(1+1e-9)+1e-9 {
				t.Errorf("%s rose from %v to %v", id, was, is)
			}
		}
		for _, kind := range []planner.Kind{planner.Battery, planner.Generator} {
			was, _ := before.Option(kind)
			is, _ := after.Option(kind)
			if was.Carried {
				carried++
			}
			if was.Carried && len(after.Demand.Loads) > 0 && !is.Carried {
				t.Errorf("a %s carried, and does not without %s: %v\n%s", kind, h.circuits[i].name, is.WhyNot, text)
			}
		}
	})
	if shed < 30 || carried < 20 {
		t.Errorf("%d shed, %d carried: too few to prove anything", shed, carried)
	}
}

// A circuit of n units is n circuits of one: the same energy and the same heat.
func TestLaw_UnitsAreCircuits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 6).Draw(t, "units")
		circuit := rapid.SampledFrom([]string{
			"like: space-heater", "running: 1500 W, use: heating, output: 1500 W, fallback_duty: 0.4", "like: refrigerator", "like: lights-led",
			"like: window-ac", "running: 900 W, use: cooling, output: 2600 W, fallback_duty: 0.3", "running: 60 W, standby: 2 W, use: {hours_per_day: 5 h}",
		}).Draw(t, "circuit")
		house := fmt.Sprintf("holdover: 1\nhome: {heat_loss: %d W/K}\noutage: {length: %d h, season: %s}\ncircuits:\n  - {name: Fan, like: furnace-gas}\n",
			rapid.SampledFrom([]int{0, 60, 300}).Draw(t, "loss"), rapid.IntRange(1, 60).Draw(t, "length"), rapid.SampledFrom([]string{"winter", "summer", "mild"}).Draw(t, "season"))
		house = strings.Replace(house, "{heat_loss: 0 W/K}", "{}", 1)
		one := verdictOf(t, house+fmt.Sprintf("  - {name: Thing, count: %d, %s}\n", n, circuit))
		split := house
		for i := range n {
			split += fmt.Sprintf("  - {name: Thing %d, %s}\n", i, circuit)
		}
		many := verdictOf(t, split)
		assert.InEpsilon(t, one.Sheet.Value("load.energy_wh"), many.Sheet.Value("load.energy_wh"), 1e-9, "%s × %d", circuit, n)
		assert.InEpsilon(t, one.Sheet.Value("load.running_w"), many.Sheet.Value("load.running_w"), 1e-9)
		assert.InDelta(t, float64(planner.Warmth(one).Heat), float64(planner.Warmth(many).Heat), 1e-6)
	})
}

// With every quantity given its unit, the system that a home shows its figures in changes none of them.
func TestLaw_UnitsShownChangeNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := quick(t, 5)
		text := h.text()
		us := strings.Replace(text, "home:\n", "home:\n  units: us\n", 1)
		si := strings.Replace(text, "home:\n", "home:\n  units: si\n", 1)
		a, b := verdictOf(t, us), verdictOf(t, si)
		require.Equal(t, a.Choice, b.Choice)
		for _, f := range a.Sheet.All() {
			if g, ok := b.Sheet.Get(f.ID); !ok || g.Value != f.Value || (g.Word != f.Word && f.ID != "home.units") {
				t.Errorf("%s is %v %s in us and %v %s in si", f.ID, f.Value, f.Word, g.Value, g.Word)
			}
		}
	})
}
