package heat

import (
	"cmp"
	"fmt"

	"holdover/loads"
	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/planner/derive"
	"holdover/profiles"
)

// Water says what each water heater of a home needs in its outage, in the order of the file, whatever care it has.
func Water(house *home.Home, d *loads.Demand) (out []Need) {
	for i := range house.Circuits {
		if kind := kindOf(&house.Circuits[i]); kind != "" {
			n := &need{Need: Need{Circuit: house.Circuits[i].Name, Index: i, Kind: kind, Sheet: &derive.Figures{}}, home: house, c: &house.Circuits[i], d: d, facts: profiles.Water()}
			n.work()
			out = append(out, n.Need)
		}
	}
	return out
}

// kindOf is a circuit's kind of water heater, empty for what is none. One without a profile is told by its own blocks: a heater
// block is a gas heater that fires at once or with a fan, a tank block without one an electric tank.
func kindOf(c *home.Circuit) profiles.HeaterKind {
	if kind, ok := profiles.Water().Kinds[c.Like]; ok {
		return kind
	}
	switch {
	case c.Heater != nil && c.Tank.Holds > 0:
		return profiles.GasTank
	case c.Heater != nil:
		return profiles.GasInstant
	case c.Tank.Holds > 0:
		return profiles.ElectricTank
	}
	return ""
}

// need is a heater being worked out.
type need struct {
	Need
	home  *home.Home
	c     *home.Circuit
	d     *loads.Demand
	facts profiles.HotWater
}

func (n *need) work() {
	switch n.Kind {
	case profiles.GasPilot:
		n.say("Its pilot and valve live off the flame: it needs no supply, and there is hot water throughout.")
	case profiles.GasInstant, profiles.GasTank:
		n.gas()
	case profiles.ElectricTank:
		n.tank()
	case profiles.HeatPumpTank:
		n.tank()
		n.say("Set it to heat pump only: its backup element draws as much as an electric tank.")
	case profiles.ElectricInstant:
		n.instant()
	case profiles.RecirculationPump:
		n.say("It only saves waiting at the tap: leave it off.")
	}
	if n.Kind != profiles.RecirculationPump {
		n.frost()
	}
}

func (n *need) say(format string, args ...any) { n.Says = append(n.Says, fmt.Sprintf(format, args...)) }

func (n *need) figure(id string, value float64, unit, how, source string, from ...string) derive.Term {
	return n.Sheet.Add(derive.Figure{ID: id, Value: value, Unit: unit, How: how, From: from, Source: source})
}

// own puts down a figure of the circuit itself.
func (n *need) own(key string, value float64, unit string) derive.Term {
	path := fmt.Sprintf("circuits[%d].%s", n.Index, key)
	return n.figure(path, value, unit, n.Circuit+": "+key, cmp.Or(n.home.Source(path), "its profile"))
}

// gas is a heater that burns gas and needs supply for igniter, fan and board: its firing, its standby, its frost heaters.
func (n *need) gas() {
	h := n.c.Heater
	if h == nil {
		n.say("It draws %s W while it burns.", units.Format(float64(n.c.Running)))
		return
	}
	burning := n.own("heater.draw", float64(h.Draw), "min").As("hours burning", float64(h.Draw)/60)
	fires := n.own("heater.firing", float64(h.Firing), "W").Times(burning)
	rests := n.own("heater.standby", float64(h.Standby), "W").Times(derive.Number(24).Minus(burning))
	perDay := n.Sheet.Put("heater.wh_per_day", "Wh", fires.Plus(rests), "energy balance").Value
	n.say("It draws %s W while it burns and %s W at rest: %s Wh a day with %s min of %s.", units.Format(float64(h.Firing)), units.Format(float64(h.Standby)), units.Format(perDay), units.Format(float64(h.Draw)),
		map[bool]string{true: "hot water", false: "its burner on"}[n.Kind == profiles.GasInstant])
	if p, ok := loads.StartingPower(n.c, n.home.Assume.StartingPowerFactor); ok {
		n.say("Its fan starts with %s VA.", units.Format(float64(p.VA())))
	}
	if h.FreezeGuard > 0 {
		n.guard(h)
	}
	if n.Kind == profiles.GasTank {
		n.say("What its tank holds stays hot for hours: it may wait.")
	} else {
		n.say("Without supply there is no hot water at all.")
	}
}

// guard works out the frost heaters from the temperature where the heater stands.
func (n *need) guard(h *home.Heater) {
	around, _ := loads.Around(n.home, n.Index)
	var hourly [24]units.Watts
	coldest, most := around[0], 0.0
	for hour, at := range around {
		duty := loads.GuardDuty(h, at)
		hourly[hour] = units.Watts(duty) * h.FreezeGuard
		coldest, most = min(coldest, at), max(most, duty)
	}
	energy := float64(loads.EnergyOver(hourly, n.d.Start, n.home.Outage.Length))
	from := derive.IDs(n.own("heater.freeze_guard", float64(h.FreezeGuard), "W"), n.own("heater.guard_from", float64(h.GuardFrom), "°C"), n.own("heater.guard_full", float64(h.GuardFull), "°C"),
		n.figure("heater.coldest_c", float64(coldest), "°C", "the coldest hour where it stands, in this season", "hourly temperatures by ASHRAE's fractions of the daily range, or what the file gives"))
	n.figure("heater.guard_duty", most, "", "0 at the cut-in, rising to 1 at the temperature at which they never rest", "common practice, no source", from...)
	n.figure("heater.guard_wh", energy, "Wh", "frost heaters · their share of each hour, over the outage", "common practice for the duty, no source", append(from, "heater.guard_duty")...)
	if energy == 0 {
		n.say("Its frost heaters (%s W) stay off: it does not get cold enough where it stands.", units.Format(float64(h.FreezeGuard)))
		return
	}
	n.say("Its frost heaters of %s W are on up to %s %% of the time where it stands: %s Wh over the outage.", units.Format(float64(h.FreezeGuard)), units.Format(100*most), units.Format(energy))
}

// tank is a heater that stores hot water: what a full tank is worth, and what it takes to warm it again.
func (n *need) tank() {
	t, f := n.c.Tank, n.facts
	holds, from := n.ofTank("holds", float64(t.Holds), n.usual(f), f.Tank.Source)
	water := n.figure("tank.holds_l", holds, "L", "water it holds", from).As("litres", holds)
	hot, from := n.ofTank("set_to", float64(t.SetTo), f.Tank.SetToC, f.Tank.Source)
	setTo := n.figure("tank.set_to_c", hot, "°C", "temperature it is kept at", from)
	cold, from := n.ofTank("inlet", float64(t.Inlet), f.Day.InletC, f.Day.Source)
	inlet := n.figure("tank.inlet_c", cold, "°C", "temperature of the cold water", from)
	each := n.figure("water.kj_per_kg_k", f.Heat.KJPerKgK, "kJ/(kg·K)", "heat of water", f.Heat.Source)
	heat := n.Sheet.Put("tank.heat_wh", "Wh", WaterHeat(water, setTo.Minus(inlet), each.As(fmt.Sprintf("%.4g kJ/(kg·K)", each.Value), each.Value)), f.Heat.Source)
	showers := Showers(water, derive.Quantity(f.Tank.Usable, "that comes out hot"), setTo, inlet, derive.Quantity(f.Shower.C, "°C"), derive.Quantity(f.Shower.Litres, "L"))
	n.Sheet.Put("tank.showers", "showers", showers, f.Tank.Source+"; "+f.Shower.Source)
	n.say("%s", showersText(whole(showers.Value)))
	full := heat.Value
	draws := float64(loads.RunningPower(n.c).W())
	if draws == 0 {
		n.say("Warming a cold tank takes %s kWh of heat.", units.Format(full/1000))
		return
	}
	if n.Kind == profiles.HeatPumpTank {
		n.say("A tank holds %s kWh of heat above the cold water; the heat pump draws %s W to make it, a third or so of the heat (common practice, no source).", units.Format(full/1000), units.Format(draws))
		return
	}
	hours := n.Sheet.Put("tank.reheat_h", "h", heat.Over(n.own("running", draws, "W")), f.Heat.Source).Value
	n.say("Warming a cold tank takes %s kWh: %s W for %s h.", units.Format(full/1000), units.Format(draws), units.Format(hours))
}

// usual is the size of a tank of its profile where nobody gives one, L.
func (n *need) usual(f profiles.HotWater) float64 {
	return cmp.Or(f.TankLitres[n.c.Like], f.Tank.Litres)
}

// ofTank is a figure of the tank and where it is from. What the file gives counts even where it is 0, as cold water can be.
func (n *need) ofTank(key string, value, otherwise float64, source string) (used float64, from string) {
	if own := n.home.Source(fmt.Sprintf("circuits[%d].tank.%s", n.Index, key)); own != "" {
		return value, own
	}
	return otherwise, source
}

func showersText(n int) string {
	switch n {
	case 0:
		return "A full tank gives no shower without supply, only warm water."
	case 1:
		return "A full tank gives about 1 shower without supply, so it can be left off at first."
	}
	return fmt.Sprintf("A full tank gives about %d showers without supply, so it can be left off at first.", n)
}

// instant is an electric heater that heats as the water runs: never on a battery, and here is what it would take.
func (n *need) instant() {
	f, a := n.facts, n.home.Assume
	draws := float64(loads.RunningPower(n.c).W())
	chemistry, _ := profiles.FindChemistry(a.Chemistry)
	dc := n.own("running", draws, "W").Over(n.Sheet.Input(n.home, "assume.inverter_efficiency")).Plus(n.Sheet.Input(n.home, "assume.inverter_idle"))
	power := dc.Over(derive.Called("greatest discharge as a share of nameplate an hour", chemistry.DischargePerHour)).With("for its power alone")
	battery := n.Sheet.Put("heater.battery_wh", "Wh", power, chemistry.Source).Value
	rise := derive.Quantity(f.Shower.C, "°C").Minus(derive.Quantity(f.Day.InletC, "°C"))
	shower := n.Sheet.Put("heater.shower_wh", "Wh", WaterHeat(derive.Quantity(f.Shower.Litres, "L"), rise, derive.Quantity(f.Heat.KJPerKgK, "kJ/(kg·K)")), f.Shower.Source+"; "+f.Day.Source).Value
	n.say("Never on a battery: it draws %s kW, which takes an inverter of %s kVA and %s kWh of battery for the power alone.", units.Format(draws/1000), units.Format(draws*(1+a.PowerMargin)/1000), units.Format(battery/1000))
	n.say("A shower takes %s kWh; warm a pot on a gas ring, or wait.", units.Format(shower/1000))
}
