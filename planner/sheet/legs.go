package sheet

import (
	"slices"

	"holdover/loads"
)

// This file holds each leg of a 120/240 V source to what comes on it, running and starting, and keeps shared neutrals off a 120 V
// one.

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
			h.say("legs", Fails, nil, "%s share a neutral; on one 120 V leg it would carry the sum of both currents and could burn (NEC 710.15(C), 2020 edition, from memory).", few(pairs))
		}
		return
	}
	if !two || !known || !h.Has("va") {
		return // asked for under volts or va
	}
	h.checkHalves()
	if h.demand.Legs.Of != nil { // at best no split is known
		h.checkLegStart()
	}
}

// share is what one leg may give of the rating.
func (h *holding) share() float64 {
	if h.Has("leg_share") {
		return h.LegShare
	}
	return legShare
}

// checkHalves holds one leg's share of the VA, and of the watts where the sheet gives them, to the heavier leg with the head-room of
// the plan.
func (h *holding) checkHalves() {
	derateW, derateVA, _ := h.derate()
	half, heavier := float64(h.VA)*derateVA*h.share(), float64(h.demand.Legs.Heaviest)
	figures := []string{h.given("legs", float64(h.Legs), "legs"),
		h.figure("fit.leg_va", half, "VA", "its VA · share that one leg may give, derated", eachHalf, h.given("va", float64(h.VA), "VA")),
		h.figure("load.heavier_leg_va", heavier, "VA", "the heavier leg, the circuits split as evenly as can be; in a 120 V house everything", sums, "load.running_va")}
	gives, draws, unit := half, heavier, "VA"
	if h.Has("watts") {
		halfW, heavierW := float64(h.Watts)*derateW*h.share(), float64(max(h.demand.Legs.A.W(), h.demand.Legs.B.W()))
		figures = append(figures, h.figure("fit.leg_w", halfW, "W", "its watts · share that one leg may give, derated", eachHalf, h.given("watts", float64(h.Watts), "W")),
			h.figure("load.heavier_leg_w", heavierW, "W", "real power of the heavier leg", sums, "load.running_w"))
		if heavierW/halfW > heavier/half {
			gives, draws, unit = halfW, heavierW, "W"
		}
	}
	margin := h.home.Assume.PowerMargin
	switch {
	case draws > gives*hair:
		h.say("legs", Fails, figures, "Each leg gives %s %s here; the heavier one is to carry %s %s.", number(gives), unit, number(draws), unit)
	case draws*(1+margin) > gives*hair:
		h.say("legs", HoldsIf, append(figures, h.assumed("assume.power_margin", margin, "")), "You accept less than %s of head-room: each leg gives %s %s here, the heavier one is to carry %s %s.", percent(margin), number(gives), unit, number(draws), unit)
	default:
		h.say("legs", Holds, figures, "Each leg gives %s %s here; the heavier one is to carry %s %s.", number(gives), unit, number(draws), unit)
	}
}

// checkLegStart holds the hardest start on one leg to that leg's share of the surge.
func (h *holding) checkLegStart() {
	if h.Watts == 0 {
		return
	}
	_, surgeVA := h.surgeRatings()
	half := float64(surgeVA) * h.share()
	starter, worst := h.hardestOnALeg()
	if starter == "" || worst <= half*hair {
		return
	}
	from := []string{h.given("va", float64(h.VA), "VA"), h.given("watts", float64(h.Watts), "W")}
	if h.Has("surge") {
		from = append(from, h.given("surge", float64(h.Surge), "W"))
	}
	figures := []string{h.figure("fit.leg_surge_va", half, "VA", "VA · surge W / W of its ratings, derated · share that one leg may give", eachHalf, from...),
		h.figure("load.leg_start_va", worst, "VA", "the running total of one leg, and the hardest starter on it starting", sums, "load.running_va")}
	h.say("leg-start", Fails, figures, "One leg is to give %s VA when %s starts; for a short time it gives %s VA.", number(worst), starter, number(half))
}

// hardestOnALeg is the largest draw of one leg, VA, while one unit of a circuit starts.
func (h *holding) hardestOnALeg() (starter string, worst float64) {
	for _, leg := range []struct {
		name    string
		running loads.Power
	}{{"A", h.demand.Legs.A}, {"B", h.demand.Legs.B}} {
		for i := range h.demand.Loads {
			l, on := &h.demand.Loads[i], h.demand.Legs.Of[i]
			if !l.Starts || (on != leg.name && on != "both") {
				continue
			}
			more := l.Starting - l.Running/loads.Power(complex(float64(l.Count), 0))
			if on == "both" {
				more /= 2
			}
			if va := float64((leg.running + more).VA()); va > worst {
				starter, worst = l.Name, va
			}
		}
	}
	return starter, worst
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
