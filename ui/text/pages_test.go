package text

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/planner"
	"holdover/planner/derive"
	"holdover/planner/install"
	"holdover/planner/sheet"
	"holdover/profiles"
	"holdover/ui/compare"
	"holdover/ui/document"
)

// Whole documents as they read on a terminal.

var update = flag.Bool("update", false, "write the golden files anew")

func wide(columns int) Style { return Style{Width: columns, Glyphs: Blocks} }

func planned(t testing.TB, text string) *planner.Result {
	house, err := home.Read([]byte(text), "home.yaml")
	require.NoError(t, err)
	return planAll(t, house)
}

// planAll works out everything of a home.
func planAll(t testing.TB, house *home.Home) *planner.Result {
	t.Helper()
	r, err := planner.Plan(t.Context(), house, planner.Everything())
	require.NoError(t, err)
	return r
}

// planText is a whole plan, with what is worked out beside it.
func planText(t testing.TB, r *planner.Result, columns int) string {
	wait, warmth := planner.Wait(t.Context(), r), planner.Warmth(r)
	w := document.Worked{Plan: r, Wait: &wait, Warmth: &warmth, Water: planner.Heaters(r)}
	if units, err := planner.Fit(r); err == nil {
		w.Units = &units
	}
	if owned, ok := planner.Owned(t.Context(), r); ok {
		w.Owned = &owned
	}
	return String(document.Plan(w), wide(columns))
}

// The page as it is shown, for a reader of a change to judge. Renew it with -update.
func TestTextOfTheDemoHome(t *testing.T) {
	golden(t, "demo.golden", planText(t, planned(t, string(profiles.Demo())), 80))
}

func TestTextOfASmallHome(t *testing.T) {
	golden(t, "small.golden", planText(t, planned(t, small), 80))
}

const small = `
holdover: 1
home: {name: Hut, service: 230 V, units: si}
outage: {length: 10 h, season: mild}
circuits:
  - {name: A refrigerator whose name is so long that it cannot stand beside its own figures, care: keep, running: 150 W, power_factor: 0.8, start: {times: 4}, use: {duty: 0.5}}
  - {name: Lamps, count: 3, care: rotate, running: 60 W, start: none, use: {duty: 0.1}}
  - {name: Oven, care: shed, running: 2 kW}
`

func golden(t *testing.T, name, got string) {
	path := filepath.Join("testdata", name)
	if *update {
		require.NoError(t, os.MkdirAll("testdata", 0o755))
		require.NoError(t, os.WriteFile(path, []byte(got), 0o644))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err)
	wanted, lines := strings.Split(string(want), "\n"), strings.Split(got, "\n")
	for i := range min(len(wanted), len(lines)) {
		require.Equal(t, wanted[i], lines[i], "line %d of %s", i+1, path)
	}
	require.Len(t, lines, len(wanted), path)
}

// Cautions are never cut: each stands in the text whole, with its source, and in the order of the result.
func TestEveryCautionIsThere(t *testing.T) {
	r := planned(t, string(profiles.Demo()))
	text := strings.Join(strings.Fields(planText(t, r, 60)), " ")
	last := 0
	for _, c := range r.Cautions {
		said := strings.Join(strings.Fields("- "+c.Word+": "+c.Text+" ("+c.Source+")"), " ")
		at := strings.Index(text, said)
		require.Greater(t, at, last, c.ID)
		last = at
	}
	assert.True(t, strings.HasSuffix(text, ")"), "nothing follows the cautions")
}

// What rules an option out is said once: among the reasons, or else beneath the options.
func TestEveryWhyNotIsSaidOnce(t *testing.T) {
	r := planned(t, string(profiles.Demo()))
	r.Options[1].WhyNot = append(r.Options[1].WhyNot, "It hums.")
	text := strings.Join(strings.Fields(planText(t, r, 100)), " ")
	for _, o := range r.Options {
		for _, why := range o.WhyNot {
			assert.Equal(t, 1, strings.Count(text, strings.Join(strings.Fields(why), " ")), why)
		}
	}
	assert.Contains(t, text, "generator: It hums.")
}

func TestTextKeepsItsWidth(t *testing.T) {
	r := planned(t, string(profiles.Demo()))
	for _, width := range []int{MinWidth, 80, 100, 200} {
		for _, line := range strings.Split(planText(t, r, width), "\n") {
			assert.LessOrEqual(t, Cells(line), width, line)
		}
	}
}

// shortOfFuel is carried by nothing: three litres of gasoline last for a part of the night only.
const shortOfFuel = `
holdover: 1
home: {name: Hut, service: 120 V, units: si}
outage: {length: 30 h, start: "18:00", season: mild}
circuits:
  - {name: Pump, care: keep, running: 900 W, start: none, use: {duty: 1}}
limits: {fuels: [gasoline], fuel_store: 3 L, battery_place: none}
`

func TestRemediesAreSaidOnce(t *testing.T) {
	r := planned(t, shortOfFuel)
	require.NotEmpty(t, r.Outlook.Remedies)
	text := strings.Join(strings.Fields(planText(t, r, 200)), " ")
	for _, m := range r.Outlook.Remedies {
		assert.Equal(t, 1, strings.Count(text, m.Change), m.Change)
		assert.NotContains(t, text, m.String())
		assert.Contains(t, text, m.Change+" a "+string(m.Kind)+" "+planner.Money(m.Cost))
	}
	assert.Contains(t, text, "Why - Nothing carries this house within its limits.", "other reasons stay")
}

func TestWhereNothingHelpsTheOutlookSaysSo(t *testing.T) {
	r := planned(t, shortOfFuel)
	r.Outlook = planner.Outlook{AllTried: true}
	text := planText(t, r, 80)
	assert.Contains(t, text, "No single limit lifted and no circuits moved would do")
	assert.Contains(t, text, "No outage of up to 14 days")
}

// The front has the planned length among its rows, and what nothing carries is said in words.
func TestTheFrontMarksThePlannedLength(t *testing.T) {
	r := planned(t, shortOfFuel)
	text := outlookText(r)
	assert.Contains(t, text, "2 h  generator  ")
	assert.Regexp(t, `planned: 30 h +nothing +nothing within the limits`, text)
	for i := range r.Outlook.Front {
		r.Outlook.Front[i].Kind = planner.None
	}
	assert.Contains(t, outlookText(r), "costs\n  - Nothing within the limits carries even 2 h.\n")
}

func TestRiskNamesEveryOptionWithADesignAndTheSource(t *testing.T) {
	r := planned(t, string(profiles.Demo()))
	text := strings.Join(strings.Fields(outlookText(r)), " ")
	for _, o := range r.Options {
		e, ok := r.Chance.Exposure[o.Kind]
		assert.Equal(t, o.Outcome.Real(), ok)
		assert.Equal(t, ok, strings.Contains(text, string(o.Kind)+" "+units.Percent(e.Carried)), o.Kind)
	}
	assert.Contains(t, text, r.Chance.Lasting.Source)
	assert.Contains(t, text, "2 a year are expected")
}

func outlookText(r *planner.Result) string {
	return String(document.Outlook(document.Worked{Plan: r}), wide(80))
}

// Where nothing carries the house the run shown is of the option nearest to it, and says when it falls short.
func TestTheNearestIsShownWhereNothingCarries(t *testing.T) {
	r := planned(t, shortOfFuel)
	require.Equal(t, planner.None, r.Choice)
	o, ok := r.Nearest()
	require.True(t, ok)
	require.Equal(t, planner.Generator, o.Kind)
	text := planText(t, r, 80)
	assert.Contains(t, text, "\nThe run: a generator falls short through 30 h from 18:00\n")
	assert.Contains(t, text, "\n  fuel gone, generator stops ")
	assert.Contains(t, text, "kWh is wanted and not supplied, first at ")
	assert.Regexp(t, `\n     short ·+▂?▄+\n`, text)
}

func TestAgainst_TwoHomes(t *testing.T) {
	longer := strings.Replace(string(profiles.Demo()), "length: 24 h", "length: 48 h", 1)
	first, second := planned(t, string(profiles.Demo())), planned(t, longer)
	text := String(document.Against(compare.Chosen(first), compare.Chosen(second)), wide(80))
	assert.Contains(t, text, "\n  - outage.length: first 24 h, second 48 h\n")
	assert.Regexp(t, `\n  Energy over the outage +[0-9,]+ Wh +[0-9,]+ Wh +\+[0-9,]+ Wh\n`, text)
	assert.Regexp(t, `\n  Choice +hybrid +hybrid\n`, text)
	assert.Regexp(t, `\n  In all, estimate +about [0-9,]+ USD +about [0-9,]+ USD +\+[0-9,]+ USD\n`, text)
	assert.Regexp(t, `\n  Outages carried +[0-9.]+ % +[0-9.]+ % +[-+][0-9.]+ points\n`, text)
	assert.NotContains(t, text, "Running draw, all together", "it is the same")
	for _, line := range strings.Split(text, "\n") {
		assert.LessOrEqual(t, Cells(line), 80, line)
	}
	same := String(document.Against(compare.Chosen(first), compare.Chosen(planned(t, string(profiles.Demo())))), wide(80))
	assert.Contains(t, same, "Nothing that the plan rests on.")
}

func TestAgainst_TwoOptionsOfOneHome(t *testing.T) {
	r := planned(t, string(profiles.Demo()))
	battery, _ := r.Option(planner.Battery)
	text := String(document.Against(compare.Chosen(r), compare.Side{Result: r, Option: battery}), wide(80))
	assert.Contains(t, text, "Alder Row 12: a hybrid against a battery.\n")
	assert.Regexp(t, `\n  Battery +15 kWh +30 kWh +\+15 kWh\n`, text)
	assert.Contains(t, text, "Why not a battery\n")
	assert.NotContains(t, text, "What differs")
}

func fitted(t *testing.T, path string) document.Document {
	t.Helper()
	house, err := home.ReadFile(path)
	require.NoError(t, err)
	result, err := sheet.Of(house, sheet.Request{})
	require.NoError(t, err)
	return document.Fit(house, result)
}

// The page as it is shown, for a reader of a change to judge. Renew it with -update.
func TestFitOfOneAppliance(t *testing.T) {
	golden(t, "fit.golden", String(fitted(t, "../../testdata/homes/fit-appliance.yaml"), wide(80)))
}

// Every check of every unit is said, whole and once.
func TestFit_SaysEveryCheck(t *testing.T) {
	house, err := home.ReadFile("../../testdata/homes/fit-owned.yaml")
	require.NoError(t, err)
	result, err := sheet.Of(house, sheet.Request{})
	require.NoError(t, err)
	text := strings.Join(strings.Fields(String(document.Fit(house, result), wide(100))), " ")
	for _, u := range result.Units {
		for _, c := range u.Checks {
			said := strings.ReplaceAll(c.ID, "-", " ") + ": " + strings.Join(strings.Fields(c.Says), " ")
			assert.Contains(t, text, said)
		}
	}
}

func scopeText(t testing.TB, r *planner.Result, width int) (string, *install.Scope) {
	s := planner.Scope(r)
	return String(document.Scope(document.Worked{Plan: r, Scope: s}), wide(width)), s
}

func planOfFile(t testing.TB, name string) *planner.Result {
	house, err := home.ReadFile(filepath.Join("../../testdata/homes", name))
	require.NoError(t, err)
	return planAll(t, house)
}

// The job sheet as it is shown; renew it with -update.
func TestScopeOfAThinPipe(t *testing.T) {
	text, _ := scopeText(t, planOfFile(t, "scope-thin-pipe.yaml"), 80)
	golden(t, "scope.golden", text)
}

// Two sides of a letter page of 66 lines, for the house of the demo.
func TestScopeFitsTwoSides(t *testing.T) {
	text, _ := scopeText(t, planned(t, string(profiles.Demo())), 80)
	one, two, found := strings.Cut(text, "\nSIDE 2\n")
	require.True(t, found)
	assert.LessOrEqual(t, strings.Count(one, "\n"), 66)
	assert.LessOrEqual(t, strings.Count(two, "\n")+1, 70, "four lines of the bottom margin at most")
	for _, line := range strings.Split(text, "\n") {
		assert.LessOrEqual(t, Cells(line), 80, line)
	}
}

// Whatever fails, is missing or is refused is said in full, every circuit and every item is there, and so is every caution,
// as far as there is room for it.
func TestScopeSaysEverything(t *testing.T) {
	files, err := filepath.Glob("../../testdata/homes/scope-*.yaml")
	require.NoError(t, err)
	for _, file := range files {
		r := planOfFile(t, filepath.Base(file))
		text, s := scopeText(t, r, 100)
		flat := strings.Join(strings.Fields(text), " ")
		contains := func(want string) {
			assert.Contains(t, flat, strings.Join(strings.Fields(want), " "), file)
		}
		for _, c := range s.Checks {
			if c.Result == install.Pass && c.About != "" && (s.Source == nil || c.About != s.Source.Name) {
				continue // what is well of what the job is not for
			}
			contains(c.Name)
			if c.Result != install.Pass {
				contains(c.Result + " " + c.Name + ": " + c.Reason)
			}
		}
		for _, c := range s.Refusals {
			contains(c.Source + ": " + c.Reason)
		}
		for _, row := range s.Panel {
			contains(row.Circuit)
		}
		for _, item := range s.Equipment {
			contains(item.Item)
		}
		for _, c := range s.Cautions {
			sentence, _, _ := strings.Cut(c.Text, ". ")
			contains(c.Word + ": " + sentence)
		}
	}
}

// whyText is the derivation of a figure.
func whyText(r *planner.Result, id string, all bool) string {
	return String(document.Why(r.Home, document.FigureOf(r), id, all), wide(80))
}

// many is how many circuits a sum may have and still be shown whole.
const many = 24

// sumOf is a result with one figure summed from so many circuits and a total of another kind.
func sumOf(circuits int) *planner.Result {
	s := &derive.Figures{}
	sum := derive.Figure{ID: "load.running_w", Unit: "W", From: []string{"outage.length"}}
	s.Add(derive.Figure{ID: "outage.length", Value: 3, Unit: "h", Source: "home.yaml, line 2"})
	for i := range circuits {
		id := fmt.Sprintf("circuit.c%d.running_w", i)
		s.Add(derive.Figure{ID: id, Value: float64(i), Unit: "W"})
		sum.From = append(sum.From, id)
	}
	s.Add(sum)
	return &planner.Result{Home: &home.Home{}, Sheet: s}
}

func TestALongSumShowsTheLargestAndCountsTheRest(t *testing.T) {
	text := whyText(sumOf(many+6), "load.running_w", false)
	assert.Equal(t, 10, strings.Count(text, "circuit."))
	assert.Contains(t, text, "circuit.c29.running_w: 29 W", "the largest")
	assert.NotContains(t, text, "circuit.c19.running_w", "the eleventh")
	assert.Contains(t, text, "outage.length: 3 h", "what is no circuit always stands")
	assert.Contains(t, text, "and 20 smaller ones (--all shows them)")

	text = whyText(sumOf(many+6), "load.running_w", true)
	assert.Equal(t, many+6, strings.Count(text, "circuit."))
	text = whyText(sumOf(many), "load.running_w", false)
	assert.Equal(t, many, strings.Count(text, "circuit."))
}

func TestAFigureMetAgainIsNotOpenedAgain(t *testing.T) {
	s := &derive.Figures{}
	s.Add(derive.Figure{ID: "leaf", Value: 1})
	s.Add(derive.Figure{ID: "branch", Value: 2, From: []string{"leaf"}})
	s.Add(derive.Figure{ID: "top", Value: 3, How: "branch + branch", From: []string{"branch", "branch", "gone"}})
	r := *planned(t, string(profiles.Demo()))
	r.Sheet = s
	text := whyText(&r, "top", false)
	assert.Equal(t, strings.TrimLeft(`
top: 3
  how: branch + branch
  from:
    branch: 2
      from:
        leaf: 1
    branch: 2 (see above)
    gone
`, "\n"), text)
}

func TestAFigureOfAnOptionAloneIsFound(t *testing.T) {
	option := &derive.Figures{}
	option.Add(derive.Figure{ID: "hybrid.cost", Value: 900, Unit: "USD"})
	r := *planned(t, string(profiles.Demo()))
	r.Sheet, r.Options = &derive.Figures{}, []planner.Option{{Kind: planner.Hybrid, Sheet: option}}
	assert.Equal(t, "hybrid.cost: 900 USD\n", whyText(&r, "hybrid.cost", false))
	_, ok := document.FigureOf(&r)("hybrid.price")
	assert.False(t, ok)
}

func TestFactsShowsEveryFieldUnderItsKey(t *testing.T) {
	entry := struct {
		Name   string            `yaml:"name"`
		Note   string            `yaml:"note"`
		Limit  float64           `yaml:"limit_kwh"`
		Points []profiles.PointC `yaml:"points"`
		Inner  struct {
			Use struct {
				Duty float64 `yaml:"duty"`
			} `yaml:"use"`
		} `yaml:"inner"`
	}{Name: "x", Limit: 80, Points: []profiles.PointC{{Celsius: 0, Share: 0.8}, {Celsius: 25, Share: 1}}}
	text, err := document.Facts(document.Fact{Entry: entry})
	require.NoError(t, err)
	assert.Equal(t, `name: x
limit_kwh: 80
points:
  - {celsius: 0, share: 0.8}
  - {celsius: 25, share: 1}
inner:
  use: {duty: 0}
`, String(text, wide(80)))
}
