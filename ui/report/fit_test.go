package report

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"holdover/loads/home"
	"holdover/planner"
	"holdover/planner/sheet"
)

func fitted(t *testing.T, path string) (*home.Home, sheet.Report) {
	t.Helper()
	house, err := home.ReadFile(path)
	require.NoError(t, err)
	result, err := sheet.Of(house, sheet.Request{})
	require.NoError(t, err)
	return house, result
}

// The page as it is shown, for a reader of a change to judge. Renew it with -update.
func TestFitOfOneAppliance(t *testing.T) {
	house, result := fitted(t, "../../testdata/homes/fit-appliance.yaml")
	golden(t, "fit.golden", Fit(house, result, 80))
}

// Every check of every unit is said, whole and once.
func TestFit_SaysEveryCheck(t *testing.T) {
	house, result := fitted(t, "../../testdata/homes/fit-owned.yaml")
	text := strings.Join(strings.Fields(Fit(house, result, 100)), " ")
	for _, u := range result.Units {
		for _, c := range u.Checks {
			said := strings.ReplaceAll(c.ID, "-", " ") + ": " + strings.Join(strings.Fields(c.Says), " ")
			assert.Contains(t, text, said)
		}
	}
}

// The JSON keeps its keys, and every figure that a check names is there.
func TestFitJSON_KeepsItsPromise(t *testing.T) {
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
		Cautions *[]planner.Caution
	}
	for _, path := range []string{"../../testdata/homes/fit-appliance.yaml", "../../testdata/homes/fit-owned.yaml"} {
		house, result := fitted(t, path)
		text, err := FitJSON(house, result)
		require.NoError(t, err)
		decoder := json.NewDecoder(strings.NewReader(text))
		decoder.DisallowUnknownFields()
		require.NoError(t, decoder.Decode(&out))
		assert.Equal(t, 1, out.Holdover)
		assert.NotEmpty(t, out.Circuits)
		require.NotNil(t, out.Pairs, "pairs is never null")
		require.NotNil(t, out.Cautions, "cautions is never null")
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
