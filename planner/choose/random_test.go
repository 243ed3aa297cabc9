package choose

import (
	"flag"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"holdover/loads/home"
	"holdover/planner/sheet"
)

// checkAtLeast checks a property on so many random cases, or on as many as -rapid.checks is given and asks for where that is
// more.
func checkAtLeast(t *testing.T, cases int, property func(*rapid.T)) {
	t.Helper()
	f := flag.Lookup("rapid.checks")
	before := f.Value.String()
	if asked, err := strconv.Atoi(before); err != nil || asked < cases || before == f.DefValue {
		if err := f.Value.Set(strconv.Itoa(cases)); err != nil {
			t.Fatal(err)
		}
		defer f.Value.Set(before)
	}
	rapid.Check(t, property)
}

// caseOf makes the case of a home file's text.
func caseOf(t interface{ Fatalf(string, ...any) }, text string) *Case {
	house, err := home.Read([]byte(text), "random.yaml")
	if err != nil {
		t.Fatalf("%v\n%s", err, text)
	}
	return NewCase(sheet.NewDuty(house))
}

// share draws 0..1 in steps of a thousandth, so that a shrunk failure reads well, the small and the large alike.
func share(t *rapid.T, name string) float64 {
	steps := rapid.IntRange(0, 1000).Draw(t, name)
	if rapid.Bool().Draw(t, name+" from above") {
		steps = 1000 - steps
	}
	return float64(steps) / 1000
}

func among(t *rapid.T, lo, hi float64, name string) float64 {
	return math.Round((lo+(hi-lo)*share(t, name))*1e6) / 1e6
}

func oneIn(t *rapid.T, n int, name string) bool { return rapid.IntRange(1, n).Draw(t, name) == n }

// homeText draws a home file: few circuits, any chemistry, any fuel, with or without sun, quiet hours, store, budget and
// prices of its own; with odd hours of no draw at all, where an empty battery does no harm.
func homeText(t *rapid.T) string {
	var b strings.Builder
	line := func(format string, args ...any) { fmt.Fprintf(&b, format+"\n", args...) }
	line("holdover: 1\nhome: {name: Small, service: 120 V}")
	siteLine := fmt.Sprintf("battery_space: %v C", among(t, -15, 45, "battery space"))
	if oneIn(t, 3, "sun") {
		siteLine += fmt.Sprintf(", sun: {kwh_per_day: %v}", among(t, 0.5, 30, "sun kWh"))
	}
	line("site: {%s}", siteLine)
	start := fmt.Sprintf("\"%02d:%02d\"", rapid.IntRange(0, 23).Draw(t, "start"), 15*rapid.IntRange(0, 3).Draw(t, "minute"))
	if oneIn(t, 6, "worst") {
		start = "worst"
	}
	length := among(t, 0.5, rapid.SampledFrom([]float64{6, 24, 72, 72}).Draw(t, "longest"), "length")
	line("outage: {length: %v h, start: %s, season: winter, per_year: %v}", length, start, among(t, 0, 20, "per year"))
	line("assume: {chemistry: %s, module: %v kWh, inverter_idle: %v W, years: %v, discount: %v}",
		rapid.SampledFrom([]string{"lfp", "lfp", "nmc", "agm", "flooded"}).Draw(t, "chemistry"), among(t, 0.2, 6, "module"),
		rapid.SampledFrom([]float64{0, 25, 25, 80, 300, 700}).Draw(t, "idle"), among(t, 1, 30, "years"), among(t, 0, 0.1, "discount"))
	line("limits: {%s}", strings.Join(limitsText(t), ", "))
	line("prices: {%s}", strings.Join(pricesText(t), ", "))
	line("circuits:")
	for i := range rapid.IntRange(1, 3).Draw(t, "circuits") {
		line("  - {name: Circuit %d, care: keep, volts: 120 V, running: %v W, power_factor: %v, start: none, use: %s}",
			i, among(t, 20, rapid.SampledFrom([]float64{300, 1500, 4000}).Draw(t, "scale"), "running"), among(t, 0.6, 1, "pf"), useText(t))
	}
	return b.String()
}

func limitsText(t *rapid.T) []string {
	fuels := rapid.Permutation([]string{"gasoline", "diesel", "propane", "natural-gas"}).Draw(t, "fuels")
	out := []string{"battery_place: outdoors", "fuels: [" + strings.Join(fuels[:rapid.IntRange(1, 4).Draw(t, "how many fuels")], ", ") + "]"}
	if rapid.Bool().Draw(t, "quiet") {
		from := rapid.IntRange(0, 23).Draw(t, "quiet from")
		to := (from + rapid.IntRange(1, 20).Draw(t, "quiet hours")) % 24
		out = append(out, fmt.Sprintf("quiet: \"%02d:30-%02d:00\"", from, to))
	}
	if rapid.Bool().Draw(t, "store") {
		out = append(out, fmt.Sprintf("fuel_store: %v L", among(t, 0.5, rapid.SampledFrom([]float64{5, 30, 200}).Draw(t, "largest store"), "litres")))
	}
	if oneIn(t, 3, "budget") {
		out = append(out, fmt.Sprintf("budget: %v", among(t, 1500, 20000, "budget")))
	}
	return out
}

// pricesText draws prices from nothing to several times the bands, each given half the time.
func pricesText(t *rapid.T) (out []string) {
	for _, p := range []struct {
		key  string
		most float64
	}{
		{"battery_per_kwh", 1500}, {"battery_fixed", 4000}, {"inverter_per_kva", 900}, {"inverter_fixed", 3000}, {"charger_per_kw", 500},
		{"charger_fixed", 1000}, {"generator_per_kw", 1000}, {"generator_fixed", 6000}, {"transfer", 3000}, {"gasoline_per_l", 6},
		{"diesel_per_l", 6}, {"propane_per_l", 4}, {"natural_gas_per_m3", 4},
	} {
		if rapid.Bool().Draw(t, p.key) {
			out = append(out, fmt.Sprintf("%s: %v", p.key, among(t, 0, p.most, p.key)))
		}
	}
	return out
}

func useText(t *rapid.T) string {
	if rapid.Bool().Draw(t, "steady") {
		return fmt.Sprintf("{duty: %v}", share(t, "duty"))
	}
	hours := make([]string, 24)
	for i := range hours {
		hours[i] = "0"
		if rapid.Bool().Draw(t, "on") {
			hours[i] = strconv.FormatFloat(share(t, "hour"), 'g', -1, 64)
		}
	}
	return "{hours: [" + strings.Join(hours, ", ") + "]}"
}

// smallCase draws a home and shrinks its grid until every design can be tried.
func smallCase(t *rapid.T) *Case {
	c := caseOf(t, homeText(t))
	most := rapid.IntRange(1, 12).Draw(t, "most modules")
	if len(c.Outages) > 1 {
		most = min(most, 5)
	}
	c.Battery.UsableKWh = c.Battery.UsableKWh[:min(len(c.Battery.UsableKWh), most+1)]
	if rapid.Bool().Draw(t, "any power") {
		c.PowerModules = 1
	}
	fewMachines(t, c)
	c.Alone, c.Beside = c.Battery.MayDischarge, c.Battery.MayDischarge && c.Battery.MayCharge // the grid is another one now
	return c
}

// fewMachines leaves a case few inverters (some too small for the draw), chargers, policies and generators.
func fewMachines(t *rapid.T, c *Case) {
	inverters := []float64{300, 500, 700, 1000, 1500, 2000, 3000, 5000, 8000}
	if rapid.Bool().Draw(t, "inverters that serve") && len(c.InvertersVA) > 0 {
		inverters = c.InvertersVA[:min(len(c.InvertersVA), 5)]
	}
	c.InvertersVA = some(t, inverters, 1, 3, "inverters")
	c.ChargersKW = some(t, c.ChargersKW, 2, 4, "chargers")
	c.Policies = some(t, c.Policies, 1, 5, "policies")
	c.Machines = someMachines(t, c.Machines, "machines")
	c.Generators = someMachines(t, c.Generators, "generators")
	if rapid.Bool().Draw(t, "none alone") {
		c.Generators = nil
	}
}

// some draws lo to hi entries of a list in its own order; fewer where it is shorter.
func some[T any](t *rapid.T, list []T, lo, hi int, name string) []T {
	order := make([]int, len(list))
	for i := range order {
		order[i] = i
	}
	hi = min(hi, len(list))
	picked := rapid.Permutation(order).Draw(t, name)[:rapid.IntRange(min(lo, hi), hi).Draw(t, name+" kept")]
	slices.Sort(picked)
	out := make([]T, len(picked))
	for i, at := range picked {
		out[i] = list[at]
	}
	return out
}

// someMachines draws 2 to 5 machines, of the smaller ones: a house of three circuits needs no larger.
func someMachines(t *rapid.T, list []Machine, name string) []Machine {
	small := slices.DeleteFunc(slices.Clone(list), func(m Machine) bool { return m.KW > 16 })
	return some(t, small, 2, 5, name)
}
