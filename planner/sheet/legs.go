package sheet

import (
	"math"
	"slices"

	"holdover/loads"
	"holdover/loads/units"
)

// This file holds each leg of a 120/240 V source to what comes on it, running and starting, and keeps shared neutrals off a 120 V
// one. The legs are not split beforehand: the question is whether any assignment of the circuits keeps both legs within what the
// sheet gives, in every turn.

const eachHalf = "circuit theory: each half of a centre-tapped source carries its own"

// legShare is the share of its rating that one leg may give, where the sheet does not say more.
const legShare = 0.5

func (h *holding) checkLegs() {
	two, known := h.TwoLegs()
	if h.home.House.Service.LegVolts() > 200 || !h.Has("volts") {
		return
	}
	if h.Volts < 200 {
		if pairs := h.sharedNeutrals(); len(pairs) > 0 {
			h.say("legs", Fails, nil, "%s share a neutral; on one 120 V leg it would carry the sum of both currents and could burn (%s).", few(pairs), h.home.Code().Rule("single-supply").Source())
		}
		return
	}
	if !two || !known || !h.Has("va") {
		return // asked for under volts or va
	}
	margin := h.home.Assume.PowerMargin
	limits := h.legLimits(margin)
	split := h.assigned(limits)
	outcome := Fails
	switch {
	case split.Stress <= hair:
		outcome = Holds
	case h.figures != nil && margin > 0:
		if without := h.legLimits(0); h.assigned(without).Stress <= hair {
			outcome, limits, split = HoldsIf, without, h.assigned(without)
		}
	}
	h.sayLegs(outcome, split, limits)
}

// sayLegs says what the hardest moment on a leg asks of it, in the assignment that asks least.
func (h *holding) sayLegs(outcome Outcome, split loads.LegSplit, limits loads.LegLimits) {
	at := split.Binds
	id := "legs"
	if at.Starter != "" {
		id = "leg-start"
	}
	if h.figures == nil {
		h.say(id, outcome, nil, "")
		return
	}
	draws, gives, unit := float64(at.Draw.VA()), float64(at.Draw.VA())/at.Stress, " VA"
	if at.Real {
		draws, gives, unit = float64(at.Draw.W()), float64(at.Draw.W())/at.Stress, " W"
	}
	if at.Stress == 0 {
		gives = float64(limits.RunningVA)
	}
	figures := h.legFigures(at, draws, gives, unit)
	switch {
	case outcome == Holds:
		h.say(id, outcome, figures, "The hardest moment of a leg is %s: it draws %s%s of the %s%s that it may.", at, number(draws), unit, number(gives), unit)
	case outcome == HoldsIf:
		h.say(id, outcome, figures, "You accept less than %s of head-room on a leg: %s draws %s%s of the %s%s that it gives.", percent(h.home.Assume.PowerMargin), at, number(draws), unit, number(gives), unit)
	case split.Bound <= hair:
		h.say(id, outcome, figures, "No assignment of the circuits to its legs was found within what they give (%s draws %s%s of %s%s); that there is none is not proven.", at, number(draws), unit, number(gives), unit)
	default:
		h.say(id, outcome, figures, "However the circuits lie on its legs, one draws more than it may: at best %s draws %s%s of %s%s.", at, number(draws), unit, number(gives), unit)
	}
}

func (h *holding) legFigures(at loads.LegMoment, draws, gives float64, unit string) []string {
	unit = unit[1:]
	from := []string{h.given("legs", float64(h.Legs), "legs"), h.given("va", float64(h.VA), "VA")}
	limit, draw := "fit.leg_"+map[string]string{"VA": "va", "W": "w"}[unit], "load.heavier_leg_"+map[string]string{"VA": "va", "W": "w"}[unit]
	how := "its rating · share that one leg may give, derated, less the head-room"
	if at.Starter != "" {
		limit, draw = "fit.leg_surge_"+map[string]string{"VA": "va", "W": "w"}[unit], "load.leg_start_"+map[string]string{"VA": "va", "W": "w"}[unit]
		how = "what it gives for a start · share that one leg may give, derated; of an alternator the VA that hold its dip"
	}
	return []string{h.figure(limit, gives, unit, how, eachHalf, from...),
		h.figure(draw, draws, unit, at.String()+", the circuits on the legs as asks least of them", sums, "load.running_va")}
}

// legLimits is what one leg gives here, its running ratings less a head-room.
func (h *holding) legLimits(margin float64) loads.LegLimits {
	share := h.share()
	derateW, derateVA, _ := h.derate()
	steadyVA := units.VoltAmps(float64(h.VA) * derateVA * share)
	steadyW := units.Watts(math.Inf(1))
	if h.Has("watts") {
		steadyW = units.Watts(float64(h.Watts) * derateW * share)
	}
	l := loads.LegLimits{Running: steadyW / units.Watts(1+margin), RunningVA: steadyVA / units.VoltAmps(1+margin), Starting: units.Watts(math.Inf(1)), StartingVA: units.VoltAmps(math.Inf(1))}
	if !h.Has("surge") || !h.Has("watts") {
		if l.Starting, l.StartingVA = steadyW, steadyVA; !h.electronic() {
			l.StartingVA = h.dipVA(steadyVA)
		}
		return l
	}
	surgeW, surgeVA := h.surgeRatings()
	l.Starting, l.StartingVA = max(steadyW, surgeW*units.Watts(share)), max(steadyVA, surgeVA*units.VoltAmps(share))
	if !h.electronic() {
		l.StartingVA = h.dipVA(steadyVA)
	}
	if h.Has("surge_seconds") {
		l.Seconds, l.Long, l.LongVA = max(h.SurgeTime, leastSeconds), steadyW, min(steadyVA, l.StartingVA)
	}
	return l
}

// leastSeconds is how long a surge of no length holds: not at all, s.
const leastSeconds = 1e-9

// dipVA is the starting VA that dips an alternator of so many VA by as much as is allowed: S·d/(X·(1 − d)).
func (h *holding) dipVA(rated units.VoltAmps) units.VoltAmps {
	a := h.home.Assume
	return rated * units.VoltAmps(a.AllowedDip/(a.Reactance*(1-a.AllowedDip)))
}

// share is what one leg may give of the rating.
func (h *holding) share() float64 {
	if h.Has("leg_share") {
		return h.LegShare
	}
	return legShare
}

// A stressed assignment is the best under limits of a proportion, of a source that gives 1 VA on a leg.
type stressed struct {
	limits loads.LegLimits
	split  loads.LegSplit
}

// assigned is the assignment that asks least of legs with some limits. Sheets of one proportion, such as the sizes of one make, share it.
func (d *Duty) assigned(limits loads.LegLimits) loads.LegSplit {
	va := limits.RunningVA
	if va <= 0 {
		return loads.LegSplit{Stress: math.Inf(1), Bound: math.Inf(1), Proven: true}
	}
	one := loads.LegLimits{Running: limits.Running / units.Watts(va), RunningVA: 1, Starting: limits.Starting / units.Watts(va), StartingVA: limits.StartingVA / va,
		Seconds: limits.Seconds, Long: limits.Long / units.Watts(va), LongVA: limits.LongVA / va}
	split := d.splitUnder(one)
	split.Stress, split.Bound = split.Stress/float64(va), split.Bound/float64(va)
	split.Binds.Stress = split.Stress
	return split
}

func (d *Duty) splitUnder(one loads.LegLimits) loads.LegSplit {
	for _, s := range d.stress {
		if alike(s.limits, one) {
			return s.split
		}
	}
	split := loads.LegSplit{Stress: float64(d.Demand.Legs.Heaviest), Bound: float64(d.Demand.Legs.Heaviest), Proven: true}
	if d.Demand.Legs.Of != nil { // at best no assignment is known, and any has at least half of all on one leg
		split = d.Demand.Assign(d.Home, one)
	}
	d.stress = append(d.stress, stressed{one, split})
	return split
}

// alike says whether limits are the same but for rounding.
func alike(a, b loads.LegLimits) bool {
	near := func(x, y float64) bool { return x == y || math.Abs(x-y) <= 1e-12*math.Abs(x) }
	return near(float64(a.Running), float64(b.Running)) && near(float64(a.Starting), float64(b.Starting)) && near(float64(a.StartingVA), float64(b.StartingVA)) &&
		a.Seconds == b.Seconds && near(float64(a.Long), float64(b.Long)) && near(float64(a.LongVA), float64(b.LongVA))
}

// LegsOn is how the circuits lie on the legs of a sheet such that least is asked of it; ok is false where it has not two.
func (d *Duty) LegsOn(s Sheet) (split loads.LegSplit, ok bool) {
	if two, known := s.TwoLegs(); !two || !known || !s.Has("va") || !d.SplitPhase() {
		return split, false
	}
	h := d.holding(s, Place{Part: House}, nil)
	return h.assigned(h.legLimits(d.Home.Assume.PowerMargin)), true
}

// sharedNeutrals lists the pairs of a shared neutral of which a half at least is to be served: the halves of a pair move together,
// so that one brings the other.
func (h *holding) sharedNeutrals() (pairs []string) {
	for name, other := range h.home.Partners() {
		if slices.Contains(h.Circuits, name) && (name < other || !slices.Contains(h.Circuits, other)) {
			pairs = append(pairs, name+" and "+other)
		}
	}
	slices.Sort(pairs)
	return pairs
}
