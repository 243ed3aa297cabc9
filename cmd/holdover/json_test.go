package main

import (
	"bytes"
	"encoding/json"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// These are what another program may read; it decodes strictly, so that a key cannot change its name unseen.
type (
	figure struct {
		Value  any       `json:"value"`
		Unit   *string   `json:"unit"`
		How    *string   `json:"how"`
		From   *[]string `json:"from"`
		Source *string   `json:"source"`
	}
	design struct {
		Sheets     []map[string]any `json:"sheets"`
		ChargerW   *float64         `json:"charger_w"`
		InverterVA *float64         `json:"inverter_va"`
		Modules    *int             `json:"modules"`
	}
	check struct {
		Sheet, Part, Check, Finding string
		Wants, Gives                *float64
		Unit, Words, Source         *string
	}
	plan struct {
		Version int      `json:"holdover"`
		Home    string   `json:"home"`
		Choice  string   `json:"choice"`
		Carried *bool    `json:"carried"`
		Runner  string   `json:"runner_up"`
		Reasons []string `json:"reasons"`
		Flips   *[]struct {
			Quantity, Unit, From, To string
			Now, At                  *float64
			Proven                   *bool
		} `json:"flips"`
		Unsettled *[]struct {
			Quantity, Unit string
			Now            *float64
			UpTo           *float64 `json:"same_up_to"`
		} `json:"flips_unsettled"`
		Front    *[]frontPoint     `json:"front"`
		Risk     *chances          `json:"risk"`
		Remedies *[]remedy         `json:"remedies"`
		AllTried *bool             `json:"remedies_proven"`
		Figures  map[string]figure `json:"figures"`
		Options  []struct {
			Kind    string            `json:"kind"`
			Carried *bool             `json:"carried"`
			Proven  *bool             `json:"proven"`
			ShortAt *float64          `json:"fell_short_at_h"`
			WhyNot  *[]string         `json:"why_not"`
			Cost    *float64          `json:"cost"`
			Design  *design           `json:"design"`
			Checks  *[]check          `json:"checks"`
			Run     *ran              `json:"run"`
			Trace   *[]step           `json:"trace"`
			Figures map[string]figure `json:"figures"`
		} `json:"options"`
		Cautions []struct{ ID, Word, Text, Source string } `json:"cautions"`
	}
)

// The ids that the design of the home file promises.
var promised = strings.Fields(`load.running_w load.running_va load.worst_moment_va load.worst_moment_w load.cold_return_va
	load.energy_wh load.leg_a_va load.leg_b_va load.wave load.average_w site.pressure_kpa site.engine_derate
	site.alternator_derate site.inverter_derate inverter.continuous_va inverter.surge_va battery.dc_wh
	battery.temperature_factor battery.nameplate_wh battery.modules battery.runtime_h generator.site_kw generator.site_kva
	generator.rated_kw generator.rated_kva generator.size_kw generator.starting_kva generator.load_fraction generator.fuel
	generator.fuel_per_day`)

func planOf(t *testing.T, args ...string) plan {
	var out, errs bytes.Buffer
	code := run(append([]string{"plan", "--json"}, args...), terminal{strings.NewReader(""), &out, &errs})
	require.Less(t, code, exitWrong, errs.String())
	checkNulls(t, out.Bytes())
	var p plan
	decoder := json.NewDecoder(&out)
	decoder.DisallowUnknownFields()
	require.NoError(t, decoder.Decode(&p))
	assert.Equal(t, code == exitNotCarried, !*p.Carried)
	return p
}

func TestJSONOfEveryHomeKeepsItsPromise(t *testing.T) {
	homes, err := filepath.Glob("../../testdata/homes/*.yaml")
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(homes), 12)
	for _, home := range append(homes, "") {
		t.Run(strings.TrimSuffix(filepath.Base(home), ".yaml"), func(t *testing.T) {
			args := []string{home}
			if home == "" {
				args = nil // the demo home
			}
			checkPlan(t, planOf(t, args...))
		})
	}
}

func checkPlan(t *testing.T, p plan) {
	assert.Equal(t, 1, p.Version)
	assert.NotEmpty(t, p.Home)
	assert.Contains(t, []string{"battery", "generator", "hybrid", "none"}, p.Choice)
	assert.Contains(t, []string{"battery", "generator", "hybrid", "none"}, p.Runner)
	assert.True(t, p.Runner == "none" || p.Runner != p.Choice, "a runner-up is another option")
	assert.NotEmpty(t, p.Reasons)
	require.NotNil(t, p.Flips, "flips is never null")
	for _, f := range *p.Flips {
		assert.NotEqual(t, f.From, f.To, f.Quantity)
		assert.NotEqual(t, *f.Now, *f.At, f.Quantity)
		assert.True(t, *f.Proven, f.Quantity)
	}
	assert.Empty(t, *p.Unsettled)
	assert.True(t, *p.AllTried)
	for _, point := range *p.Front {
		assert.True(t, *point.Proven, "%g h", *point.Length)
	}
	for _, id := range promised {
		assert.Contains(t, p.Figures, id)
	}
	checkFigures(t, p.Figures, p.Figures)
	checkOutlook(t, p)
	require.Len(t, p.Options, 3)
	for i, kind := range []string{"battery", "generator", "hybrid"} {
		o := p.Options[i]
		assert.Equal(t, kind, o.Kind)
		require.NotNil(t, o.WhyNot, "why_not is never null")
		require.NotNil(t, o.Carried)
		require.NotNil(t, o.Cost)
		assert.True(t, *o.Proven, "%s: homes like these are within the budget of work", kind)
		checkFigures(t, o.Figures, p.Figures)
		checkDesign(t, kind, *o.Carried, *o.Design, *o.Checks)
		checkRun(t, *o.Run, *o.Trace, o.ShortAt)
		assert.False(t, p.Choice == kind && (!*o.Carried || len(*o.WhyNot) > 0), "the choice is open to choose")
	}
	assert.NotEmpty(t, p.Cautions)
	for _, c := range p.Cautions {
		assert.Contains(t, []string{"DANGER", "WARNING", "CAUTION", "NOTICE"}, c.Word)
		assert.NotEmpty(t, c.Text)
		assert.NotEmpty(t, c.Source)
	}
}

// checkDesign wants what each kind of option is made of, and every check of what carries to hold.
func checkDesign(t *testing.T, kind string, carried bool, d design, checks []check) {
	kinds := map[string][]string{"battery": {"inverter", "battery"}, "generator": {"generator"}, "hybrid": {"inverter", "battery", "generator"}}
	require.False(t, carried && len(d.Sheets) == 0, kind)
	for i, s := range d.Sheets {
		assert.Equal(t, kinds[kind][i], s["kind"], kind)
		assert.Equal(t, map[bool]string{true: "charging", false: "house"}[kind == "hybrid" && i == 2], s["part"], kind)
		switch s["kind"] {
		case "inverter":
			assert.Equal(t, *d.InverterVA, s["va"])
			assert.Contains(t, s, "idle_w")
			assert.Contains(t, s, "gap_s")
		case "battery":
			assert.Greater(t, s["energy_wh"], 0.0)
			assert.Greater(t, *d.Modules, 0)
		}
	}
	for _, c := range checks {
		assert.NotEmpty(t, *c.Words)
		assert.Equal(t, c.Wants == nil, c.Gives == nil, c.Check)
		assert.True(t, !carried || c.Finding == "holds" || c.Finding == "holds-if", "%s: %s", kind, *c.Words)
	}
}

// checkFigures wants every figure whole, and each that it came from to be there.
func checkFigures(t *testing.T, figures, all map[string]figure) {
	for id, f := range figures {
		require.NotNil(t, f.Value, id)
		require.NotNil(t, f.Unit, id)
		require.NotNil(t, f.How, id)
		require.NotNil(t, f.From, "%s: from is never null", id)
		require.NotNil(t, f.Source, id)
		for _, from := range *f.From {
			assert.Contains(t, all, from, "from of %s", id)
		}
	}
}
