package sheet

import (
	"math"
	"slices"
	"strings"

	"holdover/loads"
	"holdover/loads/units"
	"holdover/planner/derive"
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
	whole := h.legRatings()
	gives := whole.less(h.powerMargin())
	split := h.assigned(gives.limits())
	outcome := Fails
	switch {
	case split.Stress <= hair:
		outcome = Holds
	case h.figures != nil && h.home.Assume.PowerMargin > 0:
		if without := h.assigned(whole.limits()); without.Stress <= hair {
			outcome, gives, split = HoldsIf, whole, without
		}
	}
	h.sayLegs(outcome, split, gives)
}

// sayLegs says what the hardest moment on a leg asks of it, in the assignment that asks least.
func (h *holding) sayLegs(outcome Outcome, split loads.LegSplit, leg legRatings) {
	at := split.Binds
	id := "legs"
	if at.Starter != "" {
		id = "leg-start"
	}
	if h.figures == nil {
		h.say(id, outcome, nil, "")
		return
	}
	figures, draws, gives, unit := h.legFigures(at, leg)
	h.compare(draws, gives, strings.TrimSpace(unit))
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

// legFigures puts down what a leg draws in a moment, and what of it there the leg gives.
func (h *holding) legFigures(at loads.LegMoment, leg legRatings) (figures []string, draws, gives float64, unit string) {
	draws, unit = float64(at.Draw.VA()), "VA"
	if at.Real {
		draws, unit = float64(at.Draw.W()), "W"
	}
	limit, draw, nearest := "fit.leg_", "load.heavier_leg_", leg.at(at)
	if at.Starter != "" {
		limit, draw = "fit.leg_surge_", "load.leg_start_"
	}
	kind := strings.ToLower(unit)
	most := h.figures.Put(limit+kind, unit, nearest, eachHalf)
	figures = append(derive.IDs(h.given("legs", float64(h.Legs), "legs"), most),
		h.figures.Note(draw+kind, draws, unit, at.String()+", the circuits on the legs as asks least of them", sums, "load.running_va"))
	return figures, draws, most.Value, " " + unit
}

// legRatings are what one leg gives here, W and VA: steadily, for a start, and for one that outlasts the seconds of a surge, where the
// sheet says how long that holds. What has no limit is without end.
type legRatings struct {
	w, va, startW, startVA, longW, longVA derive.Term
	seconds                               units.Seconds
}

func (h *holding) legRatings() legRatings {
	share, endless := h.share(), derive.Called("no limit", math.Inf(1))
	derateW, derateVA := h.derate()
	r := legRatings{w: endless, va: h.given("va", float64(h.VA), "VA").Times(derateVA).Times(share)}
	if h.Has("watts") {
		r.w = h.given("watts", float64(h.Watts), "W").Times(derateW).Times(share)
	}
	r.startW, r.startVA = r.w, r.va
	surges := h.Has("surge") && h.Has("watts")
	if surges {
		surgeW, surgeVA := h.surgeRatings()
		r.startW, r.startVA = derive.Max(r.w, surgeW.Times(share)), derive.Max(r.va, surgeVA.Times(share))
	}
	if !h.electronic() {
		r.startVA = h.dipVA(r.va)
	}
	if surges && h.Has("surge_seconds") {
		r.seconds, r.longW, r.longVA = max(h.SurgeTime, leastSeconds), r.w, r.va
		if !h.electronic() {
			r.longVA = derive.Min(r.va, r.startVA)
		}
	}
	return r
}

// less are the same but for a head-room on what runs.
func (r legRatings) less(margin derive.Term) legRatings {
	headroom := derive.One.Plus(margin)
	r.w, r.va = r.w.Over(headroom), r.va.Over(headroom)
	return r
}

func (r legRatings) limits() loads.LegLimits {
	return loads.LegLimits{Running: units.Watts(r.w.Value), RunningVA: units.VoltAmps(r.va.Value), Starting: units.Watts(r.startW.Value), StartingVA: units.VoltAmps(r.startVA.Value),
		Seconds: r.seconds, Long: units.Watts(r.longW.Value), LongVA: units.VoltAmps(r.longVA.Value)}
}

// at is the rating that a moment is held to.
func (r legRatings) at(m loads.LegMoment) derive.Term {
	w, va := r.w, r.va
	switch {
	case m.Long:
		w, va = r.longW, r.longVA
	case m.Starter != "":
		w, va = r.startW, r.startVA
	}
	if m.Real {
		return w
	}
	return va
}

// leastSeconds is how long a surge of no length holds: not at all, s.
const leastSeconds = 1e-9

// dipVA is the starting VA that dips an alternator of so many VA by as much as is allowed.
func (h *holding) dipVA(rated derive.Term) derive.Term {
	a := h.home.Assume
	dip, reactance := h.figures.At("assume.allowed_dip", a.AllowedDip), h.figures.At("assume.reactance", a.Reactance)
	return rated.Times(dip).Over(reactance.Times(derive.One.Minus(dip)))
}

// share is what one leg may give of the rating.
func (h *holding) share() derive.Term {
	if h.Has("leg_share") {
		return h.given("leg_share", h.LegShare, "")
	}
	return derive.Number(legShare)
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
	return h.assigned(h.legRatings().less(h.powerMargin()).limits()), true
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
