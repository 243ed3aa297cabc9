package sheet

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"holdover/loads"
	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/planner/outage"
	"holdover/profiles"
)

// This file works out how long what a unit has stored will last. Where something is not known, both ends of what it may be are
// carried along, and the unit passes only where the worse end does.

// bounds are the runtimes of a unit.
type bounds struct {
	sure    units.Hours // as far as the maker vouches
	runtime units.Hours // likely: lighter loads than the maker published one for take no more energy than that
	best    units.Hours // the kindest way to read use and sheet
	carried bool        // the outage is carried for sure
	spared  bool        // and with the head-room of the plan
}

// alone says whether one circuit is to be served.
func (h *holding) alone() bool { return len(h.demand.Loads) == 1 }

// spell says whether the one circuit may be used in one go, as hot water is, and does not come and go of itself, as a
// refrigerator does.
func (h *holding) spell() bool {
	if !h.InOneGo {
		return false
	}
	l := &h.demand.Loads[0]
	return l.Use.Spell || l.Use.Kind == home.UseHours || (l.Heater != nil && l.Use.Kind == home.UseAlways)
}

// stretches are the circuits' draw from the start of the outage, for one day that repeats: the hours of the plan. One circuit
// that may be used in one go is on from the start until its hours of the day are used up.
func (h *holding) stretches() (day []Stretch) {
	low, high := units.Watts(0), h.demand.RunningW
	budgetH := 0.0
	for i := range h.demand.Loads {
		l := &h.demand.Loads[i]
		low += standby(l)
		for _, duty := range l.Duty {
			budgetH += duty
		}
	}
	at, end := float64(h.demand.Start), float64(h.demand.Start)+24
	for at < end-1e-9 {
		next := min(math.Floor(at+1e-9)+1, end)
		day = append(day, Stretch{units.Hours(next - at), low, high, h.demand.Hourly[int(at+1e-9)%24]})
		at = next
	}
	if h.spell() {
		return h.inOneGo(day, budgetH)
	}
	return day
}

// inOneGo moves the hours that one circuit is on to the start of the day. Frost heaters stay where they are.
func (h *holding) inOneGo(even []Stretch, budgetH float64) (day []Stretch) {
	l := &h.demand.Loads[0]
	guard := units.Watts(0)
	on := loads.RunningPower(l.Circuit).W() * units.Watts(l.Count)
	if h.demand.RunningW > on {
		guard = h.demand.RunningW - on
	}
	idle := standby(l)
	at := float64(h.demand.Start)
	for _, e := range even {
		hour := int(at+1e-9) % 24
		duty := units.Watts(l.Duty[hour])
		frost := e.Mean - duty*on - (1-duty)*idle // the mean of the frost heaters in this hour
		first := min(budgetH, float64(e.Hours))
		if first > 1e-9 {
			day = append(day, Stretch{units.Hours(first), on, on + guard, on + frost})
		}
		if rest := float64(e.Hours) - first; rest > 1e-9 {
			day = append(day, Stretch{units.Hours(rest), idle, idle + guard, idle + frost})
		}
		budgetH -= first
		at += float64(e.Hours)
	}
	return day
}

// standby is what a load draws when it is idle, all its units.
func standby(l *loads.Load) units.Watts {
	one := l.Standby
	if l.Heater != nil && l.Heater.Standby > 0 {
		one = l.Heater.Standby
	}
	return one * units.Watts(l.Count)
}

// chemistries are what the unit's battery may be: the one on its sheet, or all there are.
func (h *holding) chemistries() []profiles.Chemistry {
	if c, ok := profiles.FindChemistry(h.Chemistry); ok {
		return []profiles.Chemistry{c}
	}
	return profiles.Chemistries()
}

// reserveOf makes the reserve for one chemistry: by the published runtimes where there are any, else by the Wh. problem names what
// the sheet lacks.
func (h *holding) reserveOf(c profiles.Chemistry) (r Reserve, problem string) {
	age := h.Ageing(h.Sheet, c)
	left := age.EndOfLife * age.Temperature
	efficiency, idle := h.drawn()
	switch curve, ok := NewCurve(h.Runtimes, h.Watts); {
	case ok:
		return newPublished(curve, left, h.Energy, efficiency, idle), ""
	case h.Has("energy") && h.Energy > 0:
		usable := h.packOf(c).UsableKWh[1] * 1000 * (1 + h.home.Assume.EnergyMargin)
		return newStore(units.WattHours(usable), left, efficiency, idle), ""
	case len(h.Runtimes) > 0:
		return Reserve{}, "its continuous watts, of which the loads of its published runtimes are shares"
	}
	return Reserve{}, "its stored energy in Wh, or its runtimes at two loads or more"
}

// drawn is the [holding.conversion] in numbers.
func (h *holding) drawn() (efficiency float64, idle units.Watts) {
	e, i := h.conversion()
	return e.Value, units.Watts(i.Value)
}

// packOf is the unit's battery as one module of a kind.
func (h *holding) packOf(c profiles.Chemistry) Pack {
	efficiency, idle := h.drawn()
	return h.PackOf(h.Sheet, c, 1, h.home.Outage.Length, efficiency, idle)
}

// carries carries the outage with what is stored alone, with or without the head-room of the plan, from each moment at which it may
// begin. Sun reaches what is wired in.
func (h *holding) carries(c profiles.Chemistry, headroom bool) bool {
	pack := h.packOf(c)
	efficiency, idle := h.drawn()
	p := outage.Design{Efficiency: efficiency, IdleKW: float64(idle) / 1000, InverterKW: math.Inf(1)}
	pack.Into(&p, 1)
	if !headroom {
		p.UsableKWh *= 1 + h.home.Assume.EnergyMargin
	}
	from := h.Sheet
	if h.Inverter != nil {
		from = *h.Inverter
	}
	if !from.Bare() && from.Has("va") {
		p.InverterKW = float64(from.VA) / 1000 * h.Rating.Inverter * h.PowerFactor()
	}
	if !h.Wired() {
		p.DischargeKW, p.ChargeKW = math.Inf(1), 0
	}
	return !slices.ContainsFunc(h.Outages(), func(o outage.Outage) bool {
		_, ok := o.Carry(&p)
		return !ok
	})
}

// runtimes works the bounds out over what the battery may be.
func (h *holding) runtimes() (b bounds, r Reserve, problem string) {
	b = bounds{sure: longest, runtime: longest, carried: true, spared: true}
	day, length := h.stretches(), h.home.Outage.Length
	margin := 1 + h.home.Assume.EnergyMargin
	kindest := Stretch.atLeast
	if h.alone() {
		kindest = Stretch.atMost // one circuit is on or idle and nothing between, so this is exact
	}
	for _, c := range h.chemistries() {
		one, problem := h.reserveOf(c)
		if problem != "" {
			return b, r, problem
		}
		sure := func(x Stretch) float64 { return x.atMost(one.Sure) }
		b.sure = min(b.sure, lasts(day, 1, sure))
		at := lasts(day, 1, func(x Stretch) float64 { return x.atMost(one.Use) })
		if at <= b.runtime {
			b.runtime, r = at, one
		}
		b.best = max(b.best, lasts(day, 1, func(x Stretch) float64 { return kindest(x, one.Use) }))
		if one.Published == nil && !h.InOneGo {
			b.carried, b.spared = b.carried && h.carries(c, false), b.spared && h.carries(c, true)
			continue
		}
		b.carried, b.spared = b.carried && b.sure >= length, b.spared && lasts(day, 1/margin, sure) >= min(length, longest)
	}
	return b, r, ""
}

// checkRuntime holds what is stored to the outage. Beside an engine the run of the design says what is enough, and so does the
// choice for itself.
func (h *holding) checkRuntime() {
	if h.Beside != nil || h.Standing {
		return
	}
	b, r, problem := h.runtimes()
	length := h.home.Outage.Length
	if problem != "" {
		h.ask("runtime", problem, fmt.Sprintf("%s are wanted.", span(length)))
		return
	}
	if !r.Claims(h.demand.RunningW) {
		most := float64(r.Published.Heaviest()) * r.Left
		h.ask("runtime", fmt.Sprintf("its runtime at %s", watts(h.demand.RunningW)), fmt.Sprintf("The heaviest load that it is published for is %s W, with the battery at %s of its new capacity %s W; %s are wanted.",
			number(r.Published.Heaviest()), percent(r.Left), number(most), span(length)))
		return
	}
	h.reserve = &b
	figures := h.addRuntime(b, r)
	says := fmt.Sprintf("It lasts %s for sure%s with the battery at %s of its new capacity; %s are wanted.", span(b.sure), h.likely(b, r), percent(r.Left), span(length))
	switch {
	case b.carried && b.sure < length && h.home.Site.Sun.PerDay > 0:
		says = "With what the sun adds it carries the outage. Without: " + says
	case b.carried && b.sure < length:
		says = "Nothing is drawn once it is empty. " + says
	default:
		h.compare(float64(length), float64(b.sure), "h")
	}
	switch {
	case b.spared:
		h.say("runtime", Holds, figures, "%s", says)
	case b.carried:
		h.say("runtime", HoldsIf, figures, "You accept less than %s of head-room. %s", percent(h.home.Assume.EnergyMargin), says)
	case b.runtime >= length && r.Published != nil:
		h.say("runtime", HoldsIf, figures, "The maker confirms the runtime at less than %s, the lightest load that one is published for: %s", watts(r.Published.Lightest()), says)
	case b.best >= length && b.best > b.runtime:
		h.say("runtime", HoldsIf, figures, "%s", h.kindly(b, length))
	default:
		h.say("runtime", Fails, figures, "%s", says)
	}
}

// likely adds how long the unit likely lasts, and with everything on, where those are other figures.
func (h *holding) likely(b bounds, r Reserve) (text string) {
	differs := func(a, b units.Hours) bool { return math.Abs(float64(a/b)-1) > 0.01 }
	if differs(b.runtime, b.sure) {
		text = fmt.Sprintf(" and likely %s", span(b.runtime))
	}
	if on := r.Hours(h.demand.RunningW); differs(on, b.runtime) && differs(on, b.sure) {
		text += fmt.Sprintf(" (%s with everything on throughout)", span(on))
	}
	return text
}

// kindly says on what the longer runtime hangs.
func (h *holding) kindly(b bounds, length units.Hours) string {
	var hangs []string
	if h.Chemistry == "" {
		hangs = append(hangs, "its battery is of a kind that keeps its capacity (ask the maker for the chemistry)")
	}
	if !h.alone() {
		hangs = append(hangs, "the circuits are not on together for long")
	}
	return fmt.Sprintf("%s: then it lasts up to %s, else %s; %s are wanted.", sentence(strings.Join(hangs, ", and ")), span(b.best), span(b.runtime), span(length))
}
