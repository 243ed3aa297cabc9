package json

import (
	"math"

	"holdover/loads/home"
	"holdover/planner"
	"holdover/planner/choose"
	"holdover/planner/outage"
)

// The run and the outlook in the JSON of a plan. An option without a design has a run of zeros and an empty trace; a kind of
// none has a design of zeros.
type (
	// runJSON is how a run went. Energies balance: begin + generator + sun = served + inverter loss + charge loss + end.
	runJSON struct {
		ShortAtH        *float64 `json:"short_at_h,omitempty"` // left out when nothing was short
		ShortKWh        float64  `json:"short_kwh"`
		ServedKWh       float64  `json:"served_kwh"`
		GeneratorKWh    float64  `json:"generator_kwh"`
		SunKWh          float64  `json:"sun_kwh"`
		Fuel            float64  `json:"fuel"`      // in fuel_unit
		FuelUnit        string   `json:"fuel_unit"` // empty without a generator
		RunHours        float64  `json:"run_hours"`
		Starts          int      `json:"starts"`
		BeginKWh        float64  `json:"begin_kwh"`
		EndKWh          float64  `json:"end_kwh"`
		InverterLossKWh float64  `json:"inverter_loss_kwh"`
		ChargeLossKWh   float64  `json:"charge_loss_kwh"`
		StartH          float64  `json:"start_h"` // clock time of the hardest start
	}
	stepJSON struct {
		FromH       float64 `json:"from_h"` // after the start
		ToH         float64 `json:"to_h"`
		BeginKWh    float64 `json:"battery_begin_kwh"`
		EndKWh      float64 `json:"battery_end_kwh"`
		GeneratorKW float64 `json:"generator_kw"`
		DrawKW      float64 `json:"draw_kw"`
		SunKW       float64 `json:"sun_kw"`
		ShortKW     float64 `json:"short_kw"`
		On          bool    `json:"generator_on"`
	}
	designJSON struct {
		BatteryKWh  float64 `json:"battery_kwh"`
		Modules     int     `json:"battery_modules"`
		InverterVA  float64 `json:"inverter_va"`
		ChargerKW   float64 `json:"charger_kw"`
		GeneratorKW float64 `json:"generator_kw"`
		Generator   string  `json:"generator"` // its kind
		Fuel        string  `json:"fuel"`
	}
	frontJSON struct {
		LengthH float64      `json:"length_h"`
		Kind    planner.Kind `json:"kind"`   // none where nothing was found that carries so long an outage
		Proven  bool         `json:"proven"` // nothing is cheaper, or carries it
		Cost    float64      `json:"cost"`
		Design  designJSON   `json:"design"`
	}
	riskJSON struct {
		PerYear    float64        `json:"outages_per_year"`
		MeanH      float64        `json:"mean_outage_h"`
		HalfH      float64        `json:"half_within_h"`
		NineInTenH float64        `json:"nine_in_ten_within_h"`
		Source     string         `json:"source"`
		Options    []exposureJSON `json:"options"` // those that have a design
	}
	exposureJSON struct {
		Kind      planner.Kind `json:"kind"`
		Carried   float64      `json:"carried_share"`
		ShortHour float64      `json:"short_h_per_year"`
	}
	remedyJSON struct {
		Change string       `json:"change"`
		Kind   planner.Kind `json:"kind"`
		Cost   float64      `json:"cost"`
		Design designJSON   `json:"design"`
	}
)

func runOf(o planner.Option) runJSON {
	if !o.Outcome.Real() {
		return runJSON{}
	}
	s := o.Outcome.Run
	run := runJSON{ServedKWh: s.ServedKWh, GeneratorKWh: s.GeneratorKWh, SunKWh: s.SunKWh, Fuel: s.Fuel, RunHours: s.RunHours,
		Starts: s.Starts, BeginKWh: s.BeginKWh, EndKWh: s.EndKWh, InverterLossKWh: s.InverterLoss, ChargeLossKWh: s.ChargeLoss,
		StartH: o.Outcome.Start}
	if m := o.Outcome.Machine; m != nil {
		run.FuelUnit = m.Fuel.Unit
	}
	if !o.Carried && !math.IsInf(s.ShortAt, 1) {
		run.ShortAtH, run.ShortKWh = &s.ShortAt, s.ShortKWh
	}
	return run
}

// stepOf is a stretch of a run. A shortfall of less than a microwatt, either way, is none: it is what is left of a subtraction.
func stepOf(s outage.Step) stepJSON {
	if s.ShortKW <= outage.LeastShortKW {
		s.ShortKW = 0
	}
	return stepJSON{s.From, s.To, s.BeginKWh, s.EndKWh, s.GeneratorKW, s.DrawKW, s.SunKW, s.ShortKW, s.On}
}

func designOf(house *home.Home, d choose.Design) designJSON {
	out := designJSON{BatteryKWh: float64(d.Modules) * float64(house.Assume.Module) / 1000, Modules: d.Modules, InverterVA: d.InverterVA, ChargerKW: d.ChargerKW}
	if m := d.Machine; m != nil {
		out.GeneratorKW, out.Generator, out.Fuel = m.KW, m.Kind, string(m.Fuel.Name)
	}
	return out
}

func riskOf(r *planner.Result) riskJSON {
	l := r.Chance.Lasting
	half, nineInTen := l.Quantile(0.5), l.Quantile(0.9)
	out := riskJSON{PerYear: r.Home.Outage.PerYear, MeanH: l.Mean(), HalfH: half, NineInTenH: nineInTen, Source: l.Source, Options: []exposureJSON{}}
	for _, o := range r.Options {
		if e, ok := r.Chance.Exposure[o.Kind]; ok {
			out.Options = append(out.Options, exposureJSON{o.Kind, e.Carried, e.ShortPerYear})
		}
	}
	return out
}
