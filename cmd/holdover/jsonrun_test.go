package main

import (
	"encoding/json"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The parts of a plan's JSON that tell of the run and the outlook. No key may be missing but short_at_h.
type (
	ran struct {
		ShortAt   *float64 `json:"short_at_h"`
		Short     *float64 `json:"short_kwh"`
		Served    *float64 `json:"served_kwh"`
		Generator *float64 `json:"generator_kwh"`
		Sun       *float64 `json:"sun_kwh"`
		Fuel      *float64 `json:"fuel"`
		FuelUnit  *string  `json:"fuel_unit"`
		RunHours  *float64 `json:"run_hours"`
		Starts    *int     `json:"starts"`
		Begin     *float64 `json:"begin_kwh"`
		End       *float64 `json:"end_kwh"`
		Inverter  *float64 `json:"inverter_loss_kwh"`
		Charge    *float64 `json:"charge_loss_kwh"`
		Start     *float64 `json:"start_h"`
	}
	step struct {
		From      *float64 `json:"from_h"`
		To        *float64 `json:"to_h"`
		Begin     *float64 `json:"battery_begin_kwh"`
		End       *float64 `json:"battery_end_kwh"`
		Generator *float64 `json:"generator_kw"`
		Draw      *float64 `json:"draw_kw"`
		Sun       *float64 `json:"sun_kw"`
		Short     *float64 `json:"short_kw"`
		On        *bool    `json:"generator_on"`
	}
	made struct {
		Battery   *float64 `json:"battery_kwh"`
		Modules   *int     `json:"battery_modules"`
		Inverter  *float64 `json:"inverter_va"`
		Charger   *float64 `json:"charger_kw"`
		KW        *float64 `json:"generator_kw"`
		Generator *string  `json:"generator"`
		Fuel      *string  `json:"fuel"`
	}
	frontPoint struct {
		Length *float64 `json:"length_h"`
		Kind   string   `json:"kind"`
		Proven *bool    `json:"proven"`
		Cost   *float64 `json:"cost"`
		Design *made    `json:"design"`
	}
	chances struct {
		PerYear   *float64 `json:"outages_per_year"`
		Mean      *float64 `json:"mean_outage_h"`
		Half      *float64 `json:"half_within_h"`
		NineInTen *float64 `json:"nine_in_ten_within_h"`
		Source    string   `json:"source"`
		Options   *[]struct {
			Kind    string   `json:"kind"`
			Carried *float64 `json:"carried_share"`
			Short   *float64 `json:"short_h_per_year"`
		} `json:"options"`
	}
	remedy struct {
		Change string   `json:"change"`
		Kind   string   `json:"kind"`
		Cost   *float64 `json:"cost"`
		Design *made    `json:"design"`
	}
)

// checkRun wants the energies to balance and the trace to tell the same as the sums: begin + generator + sun = served +
// losses + end, by the conservation of energy.
func checkRun(t *testing.T, r ran, trace []step, fellShortAt *float64) {
	all := *r.Begin + *r.Generator + *r.Sun
	near, nearSum := 1e-9*math.Max(1, all), 1e-9*math.Max(1000, all)
	assert.InDelta(t, all, *r.Served+*r.Inverter+*r.Charge+*r.End, near)
	assert.Equal(t, fellShortAt, r.ShortAt)
	assert.Equal(t, r.ShortAt != nil, *r.Short > 0)
	at, left, generator, sun, on := 0.0, *r.Begin, 0.0, 0.0, 0.0
	for _, s := range trace {
		require.Equal(t, at, *s.From)
		require.Greater(t, *s.To, *s.From)
		assert.InDelta(t, left, *s.Begin, near)
		hours := *s.To - *s.From
		at, left, generator, sun = *s.To, *s.End, generator+*s.Generator*hours, sun+*s.Sun*hours
		if *s.On {
			on += hours
		}
	}
	assert.InDelta(t, *r.End, left, near)
	assert.InDelta(t, *r.Generator, generator, nearSum)
	assert.InDelta(t, *r.Sun, sun, nearSum)
	assert.InDelta(t, *r.RunHours, on, 1e-6)
}

// checkOutlook wants the front to rise: what carries a longer outage carries a shorter one, and for no more.
func checkOutlook(t *testing.T, p plan) {
	cost, planned := 0.0, false
	for i, f := range *p.Front {
		require.NotNil(t, f.Design)
		assert.Equal(t, f.Kind == "none", *f.Cost == 0)
		if i > 0 && f.Kind != "none" {
			assert.NotEqual(t, "none", (*p.Front)[i-1].Kind)
			assert.GreaterOrEqual(t, *f.Cost, cost-1e-6, "%v h", *f.Length)
		}
		if length, ok := p.Figures["outage.length"].Value.(float64); ok && length == *f.Length {
			planned = true
			assert.Equal(t, p.Choice, f.Kind)
		}
		cost = *f.Cost
	}
	assert.True(t, planned, "the planned length is on the front")
	assert.NotEmpty(t, p.Risk.Source)
	assert.Less(t, *p.Risk.Half, *p.Risk.NineInTen)
	for _, o := range *p.Risk.Options {
		assert.True(t, *o.Carried >= 0 && *o.Carried <= 1 && *o.Short >= 0, o.Kind)
	}
	assert.True(t, p.Choice == "none" || len(*p.Remedies) == 0)
}

// checkNulls wants no null but that of fell_short_at_h.
func checkNulls(t *testing.T, text []byte) {
	var value any
	require.NoError(t, json.Unmarshal(text, &value))
	var walk func(path string, value any)
	walk = func(path string, value any) {
		switch value := value.(type) {
		case nil:
			assert.Equal(t, "fell_short_at_h", path)
		case []any:
			for _, inner := range value {
				walk(path, inner)
			}
		case map[string]any:
			for key, inner := range value {
				walk(key, inner)
			}
		}
	}
	walk("", value)
}
