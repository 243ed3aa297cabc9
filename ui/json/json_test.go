package json

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"holdover/loads/home"
	"holdover/planner"
	"holdover/planner/sheet"
	"holdover/profiles"
	"holdover/ui/compare"
)

func planned(t testing.TB, text string) *planner.Result {
	house, err := home.Read([]byte(text), "home.yaml")
	require.NoError(t, err)
	r, err := planner.Plan(t.Context(), house, planner.Everything())
	require.NoError(t, err)
	return r
}

func TestJSONShowsWhatATerminalWouldActOn(t *testing.T) {
	text, err := indented([]string{"a\x1b[31m b\u202ec\u2028d\u00adé <e> \\u202e \"q\" \b\r\x00", "two\nlines"})
	assert.NoError(t, err)
	assert.Equal(t, "[\n  \"a<U+001B>[31m b<U+202E>c<U+2028>d<U+00AD>é \\u003ce\\u003e \\\\u202e \\\"q\\\" <U+0008><U+000D><U+0000>\",\n  \"two\\nlines\"\n]\n", text)
	assert.True(t, json.Valid([]byte(text)))
}

const firstHome = `
holdover: 1
home: {name: Hut, heat_loss: 200 W/K}
site: {elevation: 1000 ft}
outage: {length: 10 h}
circuits:
  - {name: Lamp, running: 100 W, care: keep, count: 2, start: none, use: {duty: 0.5}, needs: {wave: sine}}
  - {name: Kiln, running: 2 kW, care: shed}
  - {name: Heater, care: keep, like: gas-instant-heater, heater: {draw: 40 min}}
`

const secondHome = `
holdover: 1
home: {name: Barn}
site: {elevation: 2000 ft}
outage: {length: 10 h}
limits: {quiet: "22:00-07:00"}
circuits:
  - {name: Pump, running: 500 W, care: rotate}
  - {name: Heater, care: keep, like: gas-instant-heater, heater: {draw: 20 min}}
  - {name: Lamp, running: 100 W, care: rotate, count: 3, start: {times: 4}, use: {minutes_per_day: 60 min}}
`

// What stands in the differences of the JSON are exactly the figures that differ, and both plans are whole.
func TestAgainst_HoldsBothPlansAndEveryDifference(t *testing.T) {
	first, second := planned(t, firstHome), planned(t, secondHome)
	text, err := Against(compare.Chosen(first), compare.Chosen(second))
	require.NoError(t, err)
	var got struct {
		First, Second json.RawMessage
		Differences   []struct {
			ID            string
			First, Second any
			Unit          *string
		}
	}
	require.NoError(t, json.Unmarshal([]byte(text), &got))
	for i, r := range []*planner.Result{first, second} {
		plan, err := Plan(r)
		require.NoError(t, err)
		assert.JSONEq(t, plan, string([]json.RawMessage{got.First, got.Second}[i]))
	}
	seen := map[string]bool{}
	for _, d := range got.Differences {
		require.False(t, seen[d.ID], d.ID)
		seen[d.ID] = true
		assert.NotEqual(t, d.First, d.Second, d.ID)
		require.NotNil(t, d.Unit)
	}
	for _, f := range first.Sheet.All() {
		other, ok := second.Sheet.Get(f.ID)
		assert.Equal(t, !ok || other.Value != f.Value || other.Word != f.Word, seen[f.ID], f.ID)
	}
	for _, id := range []string{"site.elevation", "circuits[Lamp].care", "circuits[Pump]", "circuit.pump.running_w", "option.cost"} {
		assert.True(t, seen[id], id)
	}
	assert.NotContains(t, text, "null,\n          \"second\"")
}

// The JSON keeps its keys, and every figure that a check names is there.
func TestFit_KeepsItsPromise(t *testing.T) {
	type figures map[string]struct {
		Value             any
		Unit, How, Source string
		From              []string
	}
	type checks []struct {
		ID, Outcome, Says string
		Figures           *[]string
	}
	var out struct {
		Holdover int
		Circuits []string
		LengthH  float64 `json:"length_h"`
		Fits     *bool
		Units    []struct {
			Name, Kind, Verdict            string
			Reasons, Conditions, Questions *[]string
			TotalPrice                     *float64 `json:"total_price"`
			RuntimeH                       *float64 `json:"runtime_h"`
			SpareH                         *float64 `json:"spare_h"`
			Checks                         checks
			Figures                        figures
		}
		Pairs *[]struct {
			Generator, UPS, Verdict string
			Checks                  checks
			Figures                 figures
		}
		Cautions []planner.Caution
	}
	for _, path := range []string{"../../testdata/homes/fit-appliance.yaml", "../../testdata/homes/fit-owned.yaml"} {
		house, err := home.ReadFile(path)
		require.NoError(t, err)
		result, err := sheet.Of(house, sheet.Request{})
		require.NoError(t, err)
		text, err := Fit(house, result)
		require.NoError(t, err)
		decoder := json.NewDecoder(strings.NewReader(text))
		decoder.DisallowUnknownFields()
		require.NoError(t, decoder.Decode(&out))
		assert.Equal(t, 1, out.Holdover)
		assert.NotEmpty(t, out.Circuits)
		require.NotNil(t, out.Pairs, "pairs is never null")
		for _, u := range out.Units {
			assert.Contains(t, []string{"fits", "fits if", "does not fit"}, u.Verdict)
			require.True(t, u.Reasons != nil && u.Conditions != nil && u.Questions != nil, "lists are never null")
			assert.Equal(t, u.Verdict == "does not fit", len(*u.Reasons) > 0)
			for _, c := range u.Checks {
				for _, id := range *c.Figures {
					assert.Contains(t, u.Figures, id)
				}
			}
			for id, f := range u.Figures {
				for _, from := range f.From {
					assert.Contains(t, u.Figures, from, id)
				}
			}
		}
	}
}

// A plan's JSON with more in it: every key of the plan stands, with the scope's figures among the others.
func TestScope_HasThePlansShape(t *testing.T) {
	r := planned(t, string(profiles.Demo()))
	planText, err := Plan(r)
	require.NoError(t, err)
	scopeText, err := Scope(r, planner.Scope(r))
	require.NoError(t, err)
	var plan, scope map[string]json.RawMessage
	require.NoError(t, json.Unmarshal([]byte(planText), &plan))
	require.NoError(t, json.Unmarshal([]byte(scopeText), &scope))
	for key := range plan {
		assert.Contains(t, scope, key)
		if key != "figures" && key != "cautions" {
			assert.JSONEq(t, string(plan[key]), string(scope[key]), key)
		}
	}
	var was, is map[string]json.RawMessage
	require.NoError(t, json.Unmarshal(plan["figures"], &was))
	require.NoError(t, json.Unmarshal(scope["figures"], &is))
	for id := range was {
		assert.Contains(t, is, id)
	}
	for _, id := range []string{"standard_va", "standard_a", "neutral_va", "neutral_a", "optional_va", "optional_a", "existing_va", "minimum_a"} {
		assert.Contains(t, is, "service."+id)
	}
	assert.NotContains(t, string(scope["scope"]), "null", "a list is never null, and the demo has a source")
}
