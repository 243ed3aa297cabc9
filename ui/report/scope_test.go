package report

import (
	"encoding/json"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"holdover/loads/home"
	"holdover/planner"
	"holdover/planner/install"
	"holdover/profiles"
)

func scopeText(t testing.TB, r *planner.Result, width int) (string, *install.Scope) {
	s := planner.Scope(r)
	return Scope(r, s, width), s
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
		assert.LessOrEqual(t, cells(line), 80, line)
	}
}

// Whatever fails, is missing or is refused is said in full, every circuit and every item is there, and so is every caution with
// its source.
func TestScopeSaysEverything(t *testing.T) {
	files, err := filepath.Glob("../../testdata/homes/scope-*.yaml")
	require.NoError(t, err)
	for _, file := range files {
		r := planOfFile(t, filepath.Base(file))
		text, s := scopeText(t, r, 100)
		j := &jobSheet{scope: s}
		flat := strings.Join(strings.Fields(text), " ")
		contains := func(want string) {
			assert.Contains(t, flat, strings.Join(strings.Fields(want), " "), file)
		}
		for _, c := range s.Checks {
			contains(c.Name)
			if c.Result != install.Pass {
				contains(c.Result + " " + c.Name + ": " + c.Reason)
				contains(c.Step)
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
			contains(c.Word + ": " + leading(c.Text) + " (" + j.short(c.Source) + ")")
		}
	}
}

// A plan's JSON with more in it: every key of the plan stands, with the scope's figures among the others.
func TestScopeJSONHasThePlansShape(t *testing.T) {
	r := planned(t, string(profiles.Demo()))
	planText, err := JSON(r)
	require.NoError(t, err)
	scopeText, err := ScopeJSON(r, planner.Scope(r))
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
