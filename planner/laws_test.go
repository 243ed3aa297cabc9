package planner_test

import (
	"maps"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"holdover/loads/home"
	"holdover/planner"
)

// totals are the figures that only rise when more is asked.
var totals = []string{"load.running_w", "load.running_va", "load.worst_moment_w", "load.worst_moment_va", "load.cold_return_va", "load.energy_wh",
	"inverter.continuous_va", "inverter.surge_va", "battery.dc_wh", "battery.nameplate_wh", "battery.modules",
	"generator.site_kw", "generator.site_kva", "generator.rated_kw", "generator.rated_kva", "generator.starting_kva", "generator.size_kw"}

func planText(t *rapid.T, text string) *planner.Result {
	house, err := home.Read([]byte(text), "plain.yaml")
	if err != nil {
		t.Fatalf("%v\n%s", err, text)
	}
	return planner.PlanAll(house)
}

// quick draws a home whose search is short; the figures of these laws do not hang on the search.
func quick(t *rapid.T, most int) *plainHome {
	h := plainHomes(t, most)
	h.noBatteryPlace = true
	return h
}

// More load never needs less.
func TestLaw_MoreLoadNeverNeedsLess(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := quick(t, 6)
		before := planText(t, h.text())
		more := h.circuit(t, len(h.circuits))
		if more.use == "heating" || more.use == "cooling" || more.like != "" {
			return // it may take heat off another
		}
		h.circuits = append(h.circuits, more)
		after := planText(t, h.text())
		for _, id := range totals {
			a, b := before.Sheet.Value(id), after.Sheet.Value(id)
			if id == "generator.size_kw" && b == 0 { // none made so large
				b = math.Inf(1)
			}
			if id == "generator.size_kw" && a == 0 {
				a = math.Inf(1)
			}
			if b < a*(1-1e-9) {
				t.Errorf("%s fell from %v to %v with one more circuit\n%s", id, a, b, h.text())
			}
		}
	})
}

// The order of the circuits is irrelevant to every total.
func TestLaw_OrderIsIrrelevant(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := quick(t, 8)
		first := planText(t, h.text())
		order := rapid.Permutation(indices(len(h.circuits))).Draw(t, "order")
		shuffled := *h
		shuffled.circuits = nil
		for _, i := range order {
			c := h.circuits[i]
			if c.partner >= 0 {
				c.partner = slices.Index(order, c.partner)
			}
			shuffled.circuits = append(shuffled.circuits, c)
		}
		second := planText(t, shuffled.text())
		for _, id := range totals {
			same(t, id, first, second)
		}
		same(t, "load.heavier_leg_va", first, second)
	})
}

func indices(n int) []int {
	out := make([]int, n)
	for i := range out {
		out[i] = i
	}
	return out
}

func same(t *rapid.T, id string, first, second *planner.Result) {
	a, b := first.Sheet.Value(id), second.Sheet.Value(id)
	if math.Abs(a-b) > 1e-9*math.Abs(a)+1e-9 {
		t.Errorf("%s is %v and %v", id, a, b)
	}
}

// Feet and Fahrenheit say the same as metres and Celsius: 5250 ft is 1600.2 m.
func TestLaw_UnitsAreIrrelevant(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := quick(t, 4)
		h.imperial = false
		metric := planText(t, h.text())
		h.imperial = true
		imperial := planText(t, h.text())
		for _, id := range append(totals, "site.pressure_kpa", "site.engine_derate", "site.alternator_derate", "site.inverter_derate",
			"battery.temperature_factor", "generator.load_fraction", "generator.fuel") {
			same(t, id, metric, imperial)
		}
	})
	feet := planOf(t, "  - {name: A, running: 1 W}\nsite: {elevation: 5250 ft}\n")
	metres := planOf(t, "  - {name: A, running: 1 W}\nsite: {elevation: 1600.2 m}\n")
	if a, b := feet.Sheet.Value("site.pressure_kpa"), metres.Sheet.Value("site.pressure_kpa"); math.Abs(a-b) > 1e-12 {
		t.Errorf("5250 ft gives %v kPa, 1600.2 m %v", a, b)
	}
}

// wild pushes a home to the ends of what the home file accepts.
func wild(t *rapid.T, h *plainHome) {
	ends := map[string][2]float64{
		"power_margin": {0, 2}, "energy_margin": {0, 2}, "starting_power_factor": {0.05, 1}, "inverter_efficiency": {0.3, 1}, "inverter_idle": {0, 2000},
		"inverter_knee": {0, 80}, "inverter_derate_per_k": {0, 0.2}, "depth_of_discharge": {0.05, 1}, "capacity_at_end_of_life": {0.3, 1},
		"battery_temperature_factor": {0.05, 1.3}, "peukert": {1, 2}, "module": {100, 1000000}, "mechanical_efficiency": {0.5, 1}, "reactance": {0.02, 1},
		"allowed_dip": {0.02, 0.6}, "generator_surge": {1, 3}, "generator_power_factor": {0.5, 1}, "years": {1, 50}, "discount": {0, 0.3},
	}
	for _, key := range slices.Sorted(maps.Keys(ends)) {
		if chance(t, 4, "wild "+key) {
			h.assume[key] = ends[key][rapid.IntRange(0, 1).Draw(t, "end of "+key)]
		}
	}
	if chance(t, 3, "wild site") {
		h.elevationM = rapid.SampledFrom([]float64{-430, 0, 5500}).Draw(t, "height")
		h.coldestC, h.hottestC = -60, 60
		h.batteryC, h.inverterC = rapid.SampledFrom([]float64{-50, 60}).Draw(t, "space"), rapid.SampledFrom([]float64{-50, 80}).Draw(t, "inverter's")
	}
	h.lengthH = rapid.SampledFrom([]float64{1.0 / 60, 0.25, 24, 100}).Draw(t, "wild length")
	h.noBatteryPlace = h.assume["module"] < 2000
}

// Whatever the home file accepts gets a verdict in finite numbers, with reasons, sources, and workings that lead to inputs.
func TestLaw_EveryHomeGetsASoundVerdict(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := plainHomes(t, 5)
		wild(t, h)
		r := planText(t, h.text())
		sound(t, r)
		if t.Failed() {
			t.Logf("\n%s", h.text())
		}
	})
}

func sound(t *rapid.T, r *planner.Result) {
	if len(r.Reasons) == 0 || slices.Contains(r.Reasons, "") {
		t.Errorf("%s without a reason: %q", r.Choice, r.Reasons)
	}
	chosen, ok := r.Option(r.Choice)
	if r.Choice != planner.None && (!ok || !chosen.Open()) {
		t.Errorf("%s was chosen though it is not open: %+v", r.Choice, chosen.WhyNot)
	}
	for _, o := range r.Options {
		if math.IsNaN(o.Cost) || math.IsInf(o.Cost, 0) || o.Cost < 0 {
			t.Errorf("%s costs %v", o.Kind, o.Cost)
		}
		if !o.Open() && len(o.WhyNot) == 0 {
			t.Errorf("%s is not open, and no word why", o.Kind)
		}
		if o.Open() && r.Choice != planner.None && o.Cost < chosen.Cost {
			t.Errorf("%s is cheaper than the chosen %s", o.Kind, r.Choice)
		}
		if o.Open() && r.Choice == planner.None && len(r.Demand.Loads) > 0 {
			t.Errorf("%s is open, and none was chosen", o.Kind)
		}
	}
	for _, c := range r.Cautions {
		if c.Source == "" || c.Text == "" || !slices.Contains([]string{"DANGER", "WARNING", "CAUTION", "NOTICE"}, c.Word) {
			t.Errorf("caution %+v", c)
		}
	}
	workings(t, r)
}

// workings: every figure says how, comes from figures that exist, and in no circle.
func workings(t *rapid.T, r *planner.Result) {
	const going, done = 1, 2
	state := map[string]int{}
	var visit func(id string)
	visit = func(id string) {
		f, ok := r.Sheet.Get(id)
		switch {
		case !ok:
			t.Errorf("%s is named as the ground of a figure and does not exist", id)
			return
		case state[id] == going:
			t.Errorf("%s rests on itself", id)
			return
		case state[id] == done:
			return
		}
		state[id] = going
		for _, from := range f.From {
			visit(from)
		}
		state[id] = done
		if strings.TrimSpace(f.How) == "" {
			t.Errorf("%s does not say how", id)
		}
		if math.IsNaN(f.Value) || math.IsInf(f.Value, 0) {
			t.Errorf("%s is %v", id, f.Value)
		}
	}
	for _, f := range r.Sheet.All() {
		visit(f.ID)
	}
}
