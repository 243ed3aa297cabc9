package fit

import (
	"slices"

	"holdover/loads"
)

// This file holds each half of a 120/240 V unit to the heavier leg, which in a 120 V house is everything, and keeps shared
// neutrals off a 120 V one.

const eachHalf = "circuit theory: each half of a centre-tapped source carries its own"

func (s *subject) checkLegs() {
	two, known := s.two()
	if s.home.House.Service.LegVolts() > 200 || !s.Has("volts") {
		return
	}
	if s.Volts < 200 {
		if pairs := s.sharedNeutrals(); len(pairs) > 0 {
			s.say("legs", Failed, nil, "%s share a neutral; on one 120 V leg it would carry the sum of both currents and could burn (%s).", list(pairs), s.home.Code().Rule("single-supply").Source())
		}
		return
	}
	if !two || !known || !s.Has("va") {
		return // asked for under volts or va
	}
	s.checkHalves()
	s.checkLegStart()
}

// checkHalves holds half of the VA, and of the watts where the sheet gives them, to the heavier leg with the head-room of the plan.
func (s *subject) checkHalves() {
	derateW, derateVA, _ := s.derate()
	half, heavier := float64(s.VA)*derateVA/2, float64(s.demand.Legs.Heaviest)
	figures := []string{s.given("legs", float64(s.Legs), "legs"),
		s.figure("fit.leg_va", half, "VA", "half of its VA on each leg, derated", eachHalf, s.given("va", float64(s.VA), "VA")),
		s.figure("load.heavier_leg_va", heavier, "VA", "the heavier leg, the circuits split as evenly as can be; in a 120 V house everything", sums, "load.running_va")}
	gives, draws, unit := half, heavier, "VA"
	if s.Has("watts") {
		halfW, heavierW := float64(s.Watts)*derateW/2, float64(max(s.demand.Legs.A.W(), s.demand.Legs.B.W()))
		figures = append(figures, s.figure("fit.leg_w", halfW, "W", "half of its watts on each leg, derated", eachHalf, s.given("watts", float64(s.Watts), "W")),
			s.figure("load.heavier_leg_w", heavierW, "W", "real power of the heavier leg", sums, "load.running_w"))
		if heavierW/halfW > heavier/half {
			gives, draws, unit = halfW, heavierW, "W"
		}
	}
	margin := s.home.Assume.PowerMargin
	switch {
	case draws > gives*hair:
		s.say("legs", Failed, figures, "Each leg gives %s %s here; the heavier one is to carry %s %s.", number(gives), unit, number(draws), unit)
	case draws*(1+margin) > gives*hair:
		s.say("legs", Conditional, append(figures, s.assumed("assume.power_margin", margin, "")), "You accept less than %s of head-room: each leg gives %s %s here, the heavier one is to carry %s %s.", percent(margin), number(gives), unit, number(draws), unit)
	default:
		s.say("legs", Passed, figures, "Each leg gives %s %s here; the heavier one is to carry %s %s.", number(gives), unit, number(draws), unit)
	}
}

// checkLegStart asks whether one leg alone bears the hardest start on it, where the whole of the surge would: a sheet gives the
// surge of both legs together, and what one of them gives is the maker's to say. A generator's starts are held by its dip.
func (s *subject) checkLegStart() {
	if s.Kind == generatorSet || !s.Has("watts") || s.Watts == 0 {
		return
	}
	_, derate, _ := s.derate()
	share := max(1, float64(s.Surge)/float64(s.Watts)) // without a surge it has what it gives steadily
	half := float64(s.VA) * share * derate / 2
	starter, worst := s.hardestOnALeg()
	if starter == "" || worst <= half*hair {
		return
	}
	from := []string{s.given("va", float64(s.VA), "VA"), s.given("watts", float64(s.Watts), "W")}
	if s.Has("surge") {
		from = append(from, s.given("surge", float64(s.Surge), "W"))
	}
	figures := []string{s.figure("fit.leg_surge_va", half, "VA", "half of VA · surge W / W of its ratings, derated; of its VA where the sheet gives no surge", eachHalf, from...),
		s.figure("load.leg_start_va", worst, "VA", "the running total of one leg, and the hardest starter on it starting", sums, "load.running_va")}
	s.say("leg-start", Conditional, figures, "The maker confirms that one leg alone gives %s VA for a start: so much is drawn when %s starts, and half of what the unit gives for a short time is %s VA.", number(worst), starter, number(half))
}

// hardestOnALeg is the largest draw of one leg, VA, while one unit of a circuit starts.
func (s *subject) hardestOnALeg() (starter string, worst float64) {
	for _, leg := range []struct {
		name    string
		running loads.Power
	}{{"A", s.demand.Legs.A}, {"B", s.demand.Legs.B}} {
		for i := range s.demand.Loads {
			l, on := &s.demand.Loads[i], s.demand.Legs.Of[i]
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

// sharedNeutrals lists the pairs of a shared neutral of which both halves are to be served.
func (s *subject) sharedNeutrals() (pairs []string) {
	for i := range s.demand.Loads {
		l := &s.demand.Loads[i]
		if l.SharesWith != "" && slices.Contains(loadNames(s.demand), l.SharesWith) && !slices.Contains(pairs, l.SharesWith+" and "+l.Name) {
			pairs = append(pairs, l.Name+" and "+l.SharesWith)
		}
	}
	return pairs
}
