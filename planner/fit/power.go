package fit

import (
	"fmt"

	"holdover/loads/units"
	"holdover/planner/generator"
	"holdover/profiles"
)

// This file holds a unit to what the circuits draw: watts and volt-amps both, each leg, and the hardest start.

// checkPower holds the continuous ratings, derated for this place, to the running draw with the head-room of the plan.
func (s *subject) checkPower() {
	if s.Kind == batteryOnly {
		s.checkDischarge()
		return
	}
	derateW, derateVA, from := s.derate()
	s.checkRating("watts", "W", float64(s.Watts), derateW, float64(s.demand.RunningW), append(from, "load.running_w"))
	s.checkRating("va", "VA", float64(s.VA), derateVA, float64(s.demand.Running.VA()), append(from, "load.running_va"))
}

func (s *subject) checkRating(key, unit string, rated, derate, wanted float64, from []string) {
	if !s.Has(key) {
		what := map[string]string{"watts": "its continuous watts", "va": "its continuous volt-amps"}[key]
		s.ask(key, what, fmt.Sprintf("%s %s are wanted.", number(wanted), unit))
		return
	}
	margin := s.home.Assume.PowerMargin
	from = append([]string{s.given(key, rated, unit), s.assumed("assume.power_margin", margin, "")}, from...)
	here := rated * derate
	id := s.figure("fit.here_"+key, here, unit, "rating · what this place leaves of it", "", from[0])
	figures := append([]string{id}, from...)
	switch {
	case wanted > here*hair:
		s.say(key, Failed, figures, "It gives %s %s here; the circuits draw %s %s running.", number(here), unit, number(wanted), unit)
	case wanted*(1+margin) > here*hair:
		s.say(key, Conditional, figures, "You accept less than %s of head-room: it gives %s %s here, the circuits draw %s %s running.", percent(margin), number(here), unit, number(wanted), unit)
	default:
		s.say(key, Passed, figures, "It gives %s %s here; the circuits draw %s %s running.", number(here), unit, number(wanted), unit)
	}
}

// hair lets a rounding error pass.
const hair = 1 + 1e-9

// checkDischarge holds a battery without an inverter to the DC power behind the one that the plan assumes.
func (s *subject) checkDischarge() {
	a := s.home.Assume
	wanted := float64(s.demand.RunningW)/a.InverterEfficiency + float64(a.InverterIdle)
	id := s.figure("fit.dc_w", wanted, "W", "running W / inverter efficiency + idle draw", "", "load.running_w",
		s.assumed("assume.inverter_efficiency", a.InverterEfficiency, ""), s.assumed("assume.inverter_idle", float64(a.InverterIdle), "W"))
	switch given := float64(s.Watts); {
	case !s.Has("watts"):
		s.ask("watts", "the greatest power that it gives continuously", fmt.Sprintf("An inverter would draw %s W from it.", number(wanted)))
	case wanted > given*hair:
		s.say("watts", Failed, []string{id, s.given("watts", given, "W")}, "It gives %s W; an inverter would draw %s W from it.", number(given), number(wanted))
	default:
		s.say("watts", Passed, []string{id, s.given("watts", given, "W")}, "It gives %s W; an inverter would draw %s W from it.", number(given), number(wanted))
	}
	va := float64(s.demand.Running.VA()) * (1 + a.PowerMargin) / s.rating.Inverter
	need := s.figure("fit.inverter_va", va, "VA", "running VA · (1 + power margin) / inverter derate", "", "load.running_va", s.assumed("assume.power_margin", a.PowerMargin, ""))
	s.say("inverter", Conditional, []string{need}, "An inverter stands behind it that gives %s VA continuously and %s VA for a start, checked on its own sheet.", number(va), number(float64(s.demand.WorstVA)/s.rating.Inverter))
}

// checkSurge holds the short-time rating, and how long it lasts, to the worst moment. What the unit gives steadily it gives for
// a start too.
func (s *subject) checkSurge() {
	d := s.demand
	derateW, derateVA, from := s.derate()
	figures := append([]string{"load.worst_moment_w", "load.worst_moment_va", "load.start_seconds"}, from...)
	wanted := fmt.Sprintf("%s starts with %s and %s for %s", d.WorstStart, watts(d.WorstW), voltAmps(d.WorstVA), brief(d.StartTime))
	steadyW, steadyVA := float64(s.Watts)*derateW, float64(s.VA)*derateVA
	switch {
	case d.WorstStart == "":
		s.say("surge", Passed, nil, "Nothing here starts with a surge.")
	case s.Has("watts") && s.Has("va") && float64(d.WorstW) <= steadyW*hair && float64(d.WorstVA) <= steadyVA*hair:
		s.say("surge", Passed, figures, "%s; it gives as much steadily.", wanted)
	case !s.Has("surge"):
		s.ask("surge", "its surge watts and how long they hold", wanted+".")
	default:
		s.checkSurgeAgainst(derateW, wanted, figures)
	}
	if s.Kind == generatorSet && d.WorstStart != "" {
		s.checkDip()
	}
}

// checkSurgeAgainst compares W with W. The short-time limit of an inverter is one of current, so its VA surge in the proportion
// of its ratings; a generator's is its starting dip, see checkDip.
func (s *subject) checkSurgeAgainst(derate float64, wanted string, figures []string) {
	surgeW := float64(s.Surge) * derate
	figures = append(figures, s.given("surge", float64(s.Surge), "W"))
	short := float64(s.demand.WorstW) > surgeW*hair
	gives := number(surgeW) + " W"
	if s.Kind != generatorSet && s.Has("watts") && s.Has("va") && s.Watts > 0 {
		surgeVA := surgeW * float64(s.VA) / float64(s.Watts)
		figures = append(figures, s.figure("fit.surge_va", surgeVA, "VA", "surge W · VA / W of its ratings, derated: its short-time limit is one of current", "common practice, no source", "sheet.surge"))
		short = short || float64(s.demand.WorstVA) > surgeVA*hair
		gives += " and " + number(surgeVA) + " VA"
	}
	switch {
	case short:
		s.say("surge", Failed, figures, "%s; for a short time it gives %s.", wanted, gives)
	case !s.Has("surge_seconds"):
		s.ask("surge", "how long its surge holds", wanted+".")
	case s.SurgeTime < s.demand.StartTime:
		s.say("surge", Failed, append(figures, s.given("surge_seconds", float64(s.SurgeTime), "s")), "%s; its surge holds for %s.", wanted, brief(s.SurgeTime))
	default:
		s.say("surge", Passed, append(figures, s.given("surge_seconds", float64(s.SurgeTime), "s")), "%s; for %s it gives %s.", wanted, brief(s.SurgeTime), gives)
	}
}

// checkDip holds a generator's starting dip to what is allowed, and to what electronics ride through.
func (s *subject) checkDip() {
	if !s.Has("va") {
		return // asked for under va
	}
	a, d := s.home.Assume, s.demand
	_, alternator, _ := s.derate()
	dip := generator.Dip(a.Reactance, float64(s.VA)*alternator/1000, float64(d.WorstVA)/1000)
	id := s.figure("fit.starting_dip", dip, "", "X / (X + rated kVA / starting kVA)", "voltage divider of subtransient reactance and starting load: circuit theory",
		s.assumed("assume.reactance", a.Reactance, ""), s.given("va", float64(s.VA), "VA"), "load.worst_moment_va", "site.alternator_derate")
	figures := []string{id, s.assumed("assume.allowed_dip", a.AllowedDip, "")}
	if dip > a.AllowedDip*hair {
		s.say("dip", Failed, figures, "Its voltage dips by %s when %s starts; %s is allowed.", percent(dip), d.WorstStart, percent(a.AllowedDip))
		return
	}
	curve := profiles.VoltageTolerance()
	minds := s.sensitive()
	if len(minds) == 0 || curve.Tolerates(1-dip, float64(d.StartTime)) {
		s.say("dip", Passed, figures, "Its voltage dips by %s when %s starts; %s is allowed.", percent(dip), d.WorstStart, percent(a.AllowedDip))
		return
	}
	ride := units.Seconds(curve.Ride(1 - dip))
	s.say("dip", Conditional, figures, "You accept that %s may restart: its voltage dips by %s for %s when %s starts, and electronics ride that through for %s (ITIC curve).",
		list(minds), percent(dip), brief(d.StartTime), d.WorstStart, brief(ride))
}

// sensitive lists the circuits that mind a short break, which are those that mind a dip.
func (s *subject) sensitive() (names []string) {
	for i := range s.demand.Loads {
		if _, _, minds := s.dark(i); minds {
			names = append(names, s.demand.Loads[i].Name)
		}
	}
	return names
}
