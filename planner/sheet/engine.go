package sheet

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"holdover/loads"
	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/planner/derive"
	"holdover/planner/outage"
	"holdover/profiles"
)

// This file holds a generator to its fuel: whether it is to be had, whether it comes fast enough in the cold, and whether it lasts
// through the outage beside the hours in which no engine may run.

// An Engine is what a generator's sheet gives here on its fuel.
type Engine struct {
	KW      float64     // rated
	SiteKW  float64     // what the engine gives here
	LeastKW float64     // it burns fuel as for so much at the least
	Store   units.Limit // fuel units there are
	Fuel    *profiles.Fuel
	Line    profiles.Willans
}

// EngineOf is what a generator's sheet gives here; ok is false where its fuel is not known.
func (d *Duty) EngineOf(s Sheet) (e Engine, ok bool) {
	fuel, ok := profiles.FindFuel(s.Fuel)
	if !ok {
		return e, false
	}
	kW := float64(s.Watts) / 1000
	return Engine{KW: kW, SiteKW: kW * d.Rating.Engine, LeastKW: fuel.LeastLoad * kW, Store: storeOf(d.Home, fuel), Fuel: &fuel, Line: fuel.Line(kW)}, true
}

// Into puts the engine into what the outage run knows.
func (e Engine) Into(p *outage.Design) {
	p.SiteKW, p.LeastKW, p.FuelStore = e.SiteKW, e.LeastKW, e.Store.Most()
	p.IdleBurn, p.BurnPerKWh = e.Line.IdleUnitsPerHourPerKW*e.KW, e.Line.UnitsPerKWh
}

// FullKW is the heat that it burns at its rating, higher heating value, kW.
func (e Engine) FullKW() float64 {
	return e.KW * (e.Line.IdleUnitsPerHourPerKW + e.Line.UnitsPerKWh) * e.Fuel.KWhPerUnit
}

// storeOf is how much of a fuel there is, in its unit: without end for piped fuel.
func storeOf(house *home.Home, fuel profiles.Fuel) units.Limit {
	if fuel.Stored {
		return house.Limits.FuelStore
	}
	return units.Limit{}
}

func (h *holding) checkFuel() {
	e, ok := h.EngineOf(h.Sheet)
	switch {
	case !ok:
		h.ask("fuel", "the fuel that it burns", "")
		return
	case !slices.Contains(h.home.Limits.Fuels, h.Fuel):
		h.say("fuel", Fails, nil, "It burns %s, which is not to be had (limits.fuels).", h.Fuel)
		return
	case e.Store.None():
		h.say("fuel", Fails, []string{"limits.fuel_store"}, "It burns %s, of which none is kept (limits.fuel_store).", h.Fuel)
		return
	}
	h.checkVapour(e)
	if h.Part == House && h.Has("watts") && !h.Standing {
		h.checkRun(e)
	}
}

// checkVapour holds an engine on cylinders to what they give as vapour in the cold, beside the appliances on them.
func (h *holding) checkVapour(e Engine) {
	v, ok := VapourOf(h.home, h.demand, e.Fuel, e.FullKW())
	if !ok {
		return
	}
	id := h.figures.Note("fit.fuel_btuh", v.WantedBtuH, "Btu/h", "engine at full load and every appliance on the cylinders, higher heating value", "Willans line; "+e.Line.Source)
	figures := []string{id}
	if v.Known {
		h.compare(v.WantedBtuH, v.GivesBtuH, "Btu/h")
	}
	switch {
	case !v.Known:
		h.say("vapour", Fails, figures, "At %s its cylinders are colder or emptier than their table goes: nothing says that they give the %s Btu/h wanted (%s).",
			degrees{h.home, v.AtC}, number(v.WantedBtuH), v.Source)
	case v.WantedBtuH > v.GivesBtuH*hair:
		h.say("vapour", Fails, append(figures, h.figures.Note("fit.vapour_btuh", v.GivesBtuH, "Btu/h", v.How, v.Source)), "Its cylinders give %s Btu/h as vapour at %s; %s are wanted. It takes %s of them.",
			number(v.GivesBtuH), degrees{h.home, v.AtC}, number(v.WantedBtuH), number(v.Takes))
	default:
		h.say("vapour", Holds, append(figures, h.figures.Note("fit.vapour_btuh", v.GivesBtuH, "Btu/h", v.How, v.Source)), "Its cylinders give %s Btu/h as vapour at %s; %s are wanted.",
			number(v.GivesBtuH), degrees{h.home, v.AtC}, number(v.WantedBtuH))
	}
}

// A Vapour is what cylinders of gas give as vapour in the coldest hour of an outage, against what is wanted of them.
type Vapour struct {
	WantedBtuH, GivesBtuH float64
	EachBtuH              float64
	Takes                 float64 // cylinders that would give what is wanted
	AtC                   float64 // outdoors
	Known                 bool    // their table has a row for so little left and a column for such cold
	How, Source           string
}

// VapourOf holds the cylinders of a home to an engine that burns so many kW of a fuel at full load, and to every appliance on them; ok
// is false where the engine does not hang on cylinders, or nothing says how many there are.
func VapourOf(house *home.Home, demand *loads.Demand, fuel *profiles.Fuel, fullKW float64) (v Vapour, ok bool) {
	gas := house.Site.Gas
	if gas.Cylinders == 0 || gas.Burns() != fuel.Name {
		return v, false
	}
	table := fuel.Cylinder
	left := cmp.Or(gas.Left, table.Left)
	v.AtC, v.Source = float64(slices.Min(demand.Outdoors[:])), table.Source
	v.WantedBtuH = units.Power.In(1000*fullKW, "Btu/h") + AppliancesBtuH(house)
	atF := units.Temperature.In(v.AtC, "F")
	v.EachBtuH, v.Known = table.DrawBtuH(left*table.FullLb, atF)
	if v.Known {
		v.GivesBtuH, v.Takes = v.EachBtuH*float64(gas.Cylinders), math.Ceil(v.WantedBtuH/v.EachBtuH)
	}
	v.How = fmt.Sprintf("%d of %s lb, %s full, at %s °F give %s Btu/h each", gas.Cylinders, number(table.FullLb), percent(left), number(atF), number(v.EachBtuH))
	return v, true
}

// AppliancesBtuH is the gas that all but the generator burns, Btu/h: site.gas.appliances and the gas water heaters.
func AppliancesBtuH(house *home.Home) float64 {
	others := float64(house.Site.Gas.Appliances)
	for i := range house.Circuits {
		if heater := house.Circuits[i].Heater; heater != nil {
			others += float64(heater.GasInput) * float64(house.Circuits[i].Count)
		}
	}
	return units.Power.In(others, "Btu/h")
}

// checkRun carries the outage with the engine alone, from each moment at which it may begin: is there an hour in which it may not
// run, and is there fuel to the end?
func (h *holding) checkRun(e Engine) {
	endless := e
	endless.Store = units.Limit{}
	free, stored := h.runs(endless), h.runs(e)
	switch quiet := h.home.Limits.Quiet; {
	case free.ok && quiet.Any():
		h.say("quiet", Holds, nil, "Nothing is wanted in the quiet hours %s of the outage.", quiet)
	case quiet.Any():
		h.say("quiet", Fails, nil, "No engine may run in the quiet hours %s (limits.quiet), and the outage of %s reaches into them.", quiet, span(h.home.Outage.Length))
	case !free.ok:
		h.say("watts", Fails, nil, "It gives %s kW here; the circuits draw more on the mean of some hour.", number(e.SiteKW))
	}
	burnt := free.fuel
	id := h.figures.Note("fit.fuel", burnt, e.Fuel.Unit, fmt.Sprintf("%.4g %s/h for each rated kW · hours on + %.4g %s/kWh · energy given, over the run of the outage", e.Line.IdleUnitsPerHourPerKW, e.Fuel.Unit, e.Line.UnitsPerKWh, e.Fuel.Unit),
		"Willans line; "+e.Line.Source, append(derive.IDs(h.given("watts", float64(h.Watts), "W")), "outage.length")...)
	figures := []string{id}
	says := fmt.Sprintf("It burns about %s %s of %s (%s %s) in %s", number(burnt), e.Fuel.Unit, e.Fuel.Name, number(burnt*e.Fuel.USPerUnit), e.Fuel.USUnit, span(h.home.Outage.Length))
	if h.Has("fuel_tank") && e.Fuel.Stored && burnt > 0 {
		tank := h.given("fuel_tank", float64(h.FuelTank), "L").Times(derive.Called("hours on", free.hours)).Over(h.figures.At(id, burnt))
		tank = h.figures.Put("fit.tank_h", "h", tank, "")
		figures = append(figures, derive.IDs(tank)...)
		says += fmt.Sprintf("; its tank lasts %s", span(tank.Value))
		if more := int(math.Ceil(burnt/float64(h.FuelTank)-1e-9)) - 1; more > 0 {
			says += fmt.Sprintf(" and is filled %d more %s", more, map[bool]string{true: "time", false: "times"}[more == 1])
		}
	}
	if e.Store.Ends() {
		h.compare(burnt, e.Store.Most(), e.Fuel.Unit)
	}
	switch {
	case free.ok && !stored.ok, !e.Store.Allows(burnt):
		figures = append(figures, "limits.fuel_store")
		h.say("fuel", Fails, figures, "%s; %s L are stored (limits.fuel_store).", says, number(e.Store.Most()))
	default:
		h.say("fuel", Holds, figures, "%s.", says)
	}
}

// A ran is what the runs of one engine through the outages come to: carried in all of them, and the most fuel and hours of any.
type ran struct {
	ok          bool
	fuel, hours float64
}

func (d *Duty) runs(e Engine) ran {
	p := outage.Design{Efficiency: 1, ChargeEfficiency: 1}
	e.Into(&p)
	r := ran{ok: true}
	for _, o := range d.Outages() {
		s := o.Run(&p, nil)
		r.ok = r.ok && s.Carried()
		if s.Fuel >= r.fuel {
			r.fuel, r.hours = s.Fuel, s.RunHours
		}
	}
	return r
}
