package sheet

import (
	"cmp"
	"fmt"

	"holdover/loads/home"

	"holdover/loads/units"
	"holdover/planner/derive"
	"holdover/planner/generator"
	"holdover/planner/inverter"
	"holdover/profiles"
)

// This file holds a sheet to what the circuits draw: watts and volt-amps both, and the hardest start.

// hair lets a rounding error pass.
const hair = 1 + 1e-9

// derate is the share of its rating that the sheet's machine gives here: watts and volt-amps.
func (h *holding) derate() (watts, va derive.Term) {
	if h.Engine() {
		return h.figures.At("site.engine_derate", h.Rating.Engine), h.figures.At("site.alternator_derate", h.Rating.Alternator)
	}
	inverter := h.figures.At("site.inverter_derate", h.Rating.Inverter)
	return inverter, inverter
}

func (h *holding) runningW() derive.Term {
	return h.figures.At("load.running_w", float64(h.demand.RunningW))
}
func (h *holding) runningVA() derive.Term {
	return h.figures.At("load.running_va", float64(h.demand.Running.VA()))
}
func (h *holding) powerMargin() derive.Term {
	return h.figures.At("assume.power_margin", h.home.Assume.PowerMargin)
}

// checkRatings holds the continuous ratings, derated for this place, to the running draw with the head-room of the plan.
func (h *holding) checkRatings() {
	derateW, derateVA := h.derate()
	h.checkRating("watts", "W", float64(h.Watts), derateW, h.runningW())
	h.checkRating("va", "VA", float64(h.VA), derateVA, h.runningVA())
}

func (h *holding) checkRating(key, unit string, rated float64, derate, running derive.Term) {
	wanted := running.Value
	if !h.Has(key) {
		what := map[string]string{"watts": "its continuous watts", "va": "its continuous volt-amps"}[key]
		h.ask(key, what, fmt.Sprintf("%s %s are wanted.", number(wanted), unit))
		return
	}
	margin, plate := h.powerMargin(), h.given(key, rated, unit)
	gives := h.figures.Put("fit.here_"+key, unit, plate.Times(derate), "")
	figures, here := derive.IDs(gives, plate, margin, derate, running), gives.Value
	h.compare(wanted*(1+margin.Value), here, unit)
	switch {
	case wanted > here*hair:
		h.say(key, Fails, figures, "It gives %s %s here; the circuits draw %s %s running.", number(here), unit, number(wanted), unit)
	case wanted*(1+margin.Value) > here*hair:
		h.say(key, HoldsIf, figures, "You accept less than %s of head-room: it gives %s %s here, the circuits draw %s %s running.", percent(margin.Value), number(here), unit, number(wanted), unit)
	default:
		h.say(key, Holds, figures, "It gives %s %s here; the circuits draw %s %s running.", number(here), unit, number(wanted), unit)
	}
}

// conversion is from the battery to the outlet: the sheet's own figures or those of the inverter before it, else what the plan
// assumes.
func (h *holding) conversion() (efficiency, idle derive.Term) {
	from := h
	if h.Inverter != nil {
		from = &holding{Sheet: *h.Inverter, figures: h.figures}
	}
	a := h.home.Assume
	if from.Has("efficiency") {
		efficiency = from.given("efficiency", from.Efficiency, "")
	} else {
		efficiency = h.figures.At("assume.inverter_efficiency", a.InverterEfficiency)
	}
	if from.Has("idle") {
		return efficiency, from.given("idle", float64(from.Idle), "W")
	}
	return efficiency, h.figures.At("assume.inverter_idle", float64(a.InverterIdle))
}

// checkDischarge holds cells without an inverter to the DC power behind theirs, or else the one that the plan assumes.
func (h *holding) checkDischarge() {
	efficiency, idle := h.conversion()
	dc := h.figures.Put("fit.dc_w", "W", h.runningW().Over(efficiency).Plus(idle), "")
	wanted, figures := dc.Value, func() []string { return derive.IDs(dc, h.given("watts", float64(h.Watts), "W")) }
	given := float64(h.Watts)
	if h.Has("watts") {
		h.compare(wanted, given, "W")
	}
	switch {
	case !h.Has("watts"):
		h.ask("watts", "the greatest power that it gives continuously", fmt.Sprintf("An inverter would draw %s W from it.", number(wanted)))
	case wanted > given*hair:
		h.say("watts", Fails, figures(), "It gives %s W; an inverter would draw %s W from it.", number(given), number(wanted))
	default:
		h.say("watts", Holds, figures(), "It gives %s W; an inverter would draw %s W from it.", number(given), number(wanted))
	}
	if h.Inverter != nil {
		return
	}
	need := h.figures.Put("fit.inverter_va", "VA", inverter.Continuous(h.runningVA(), h.powerMargin(), h.figures.At("site.inverter_derate", h.Rating.Inverter)), "")
	h.say("inverter", HoldsIf, derive.IDs(need), "An inverter stands behind it that gives %s VA continuously and %s VA for a start, checked on its own sheet.", number(need.Value), number(float64(h.demand.WorstVA)/h.Rating.Inverter))
}

// electronic says whether a short-time limit is one of current: of an inverter, and of an engine that makes its wave by one. A
// wound alternator rides through a start on its field, and is held to its dip.
func (h *holding) electronic() bool { return !h.Engine() || h.Alternator == home.Electronic }

// surgeRatings are the watts, and of an electronic machine the volt-amps, that it gives here for a short time. Its short-time limit is
// one of current, so that the volt-amps stand to the watts as in its ratings.
func (h *holding) surgeRatings() (w, va derive.Term) {
	if !h.Has("surge") {
		return w, va
	}
	derateW, derateVA := h.derate()
	weakest := derateVA
	if h.Engine() {
		weakest = derive.Min(derateW, derateVA)
	}
	surge := h.given("surge", float64(h.Surge), "W")
	if h.Watts > 0 && h.Has("va") {
		va = surge.Times(h.given("va", float64(h.VA), "VA")).Over(h.given("watts", float64(h.Watts), "W")).Times(weakest)
	}
	return surge.Times(derateW), va
}

// checkSurge holds the short-time rating, and how long it lasts, to the worst moment. What a machine gives steadily it gives for a
// start too, and a start that outlasts its surge must be within that.
func (h *holding) checkSurge() {
	d := h.demand
	derateW, derateVA := h.derate()
	figures := append([]string{"load.worst_moment_w", "load.worst_moment_va", "load.start_seconds"}, derive.IDs(derateW, derateVA)...)
	wanted := starting{h.starter(), d.WorstW, d.WorstVA, d.StartTime}
	steadyW, steadyVA := units.Watts(float64(h.Watts)*derateW.Value), units.VoltAmps(float64(h.VA)*derateVA.Value)
	switch {
	case d.WorstStart == "" && d.WorstW <= d.RunningW:
		h.say("surge", Holds, nil, "Nothing here starts with a surge.")
	case h.Has("watts") && h.Has("va") && d.WorstW <= steadyW*hair && d.WorstVA <= steadyVA*hair:
		h.comparePower(d.WorstW, steadyW, d.WorstVA, steadyVA)
		h.say("surge", Holds, figures, "%s; it gives as much steadily.", wanted)
	case !h.Has("surge"):
		h.ask("surge", "its surge watts and how long they hold", wanted.String()+".")
	default:
		h.checkSurgeAgainst(wanted, steadyW, steadyVA, figures)
	}
	if !h.electronic() {
		h.checkDip()
	}
}

// starter is what starts in the worst moment, or comes on with all else.
func (h *holding) starter() string { return cmp.Or(h.demand.WorstStart, "the last circuit") }

// A starting is the worst moment in words.
type starting struct {
	circuit string
	w       units.Watts
	va      units.VoltAmps
	seconds units.Seconds
}

func (s starting) String() string {
	return fmt.Sprintf("%s starts with %s and %s for %s", s.circuit, watts(s.w), voltAmps(s.va), brief(s.seconds))
}

// checkSurgeAgainst compares W with W, and of an electronic machine VA with VA in the proportion of its ratings.
func (h *holding) checkSurgeAgainst(wanted starting, steadyW units.Watts, steadyVA units.VoltAmps, figures []string) {
	surgeW, surgeVA := h.surgeRatings()
	figures = append(figures, "sheet.surge")
	givesW, givesVA := units.Watts(surgeW.Value), units.VoltAmps(0) // VA without limit
	short, gives := wanted.w > givesW*hair, watts(givesW)
	if h.electronic() && h.Has("va") && h.Watts > 0 {
		surgeVA = h.figures.Put("fit.surge_va", "VA", surgeVA.With("for its short-time limit is one of current"), "common practice, no source")
		figures = append(figures, derive.IDs(surgeVA)...)
		givesVA = units.VoltAmps(surgeVA.Value)
		short = short || wanted.va > givesVA*hair
		gives += " and " + voltAmps(givesVA)
	}
	if short {
		h.comparePower(wanted.w, givesW, wanted.va, givesVA)
		h.say("surge", Fails, figures, "%s; for a short time it gives %s.", wanted, gives)
	}
	if !h.Has("surge_seconds") {
		h.ask("surge", "how long its surge holds", wanted.String()+".")
		return
	}
	figures = append(figures, derive.IDs(h.given("surge_seconds", float64(h.SurgeTime), "s"))...)
	long := h.demand.Worst(h.SurgeTime)
	switch {
	case long.W > steadyW*hair || (h.Has("va") && long.VA > steadyVA*hair):
		h.comparePower(long.W, steadyW, long.VA, steadyVA)
		h.say("surge", Fails, figures, "%s; its surge holds for %s, and beyond it gives %s.", starting{long.Circuit, long.W, long.VA, long.Seconds}, brief(h.SurgeTime), watts(steadyW))
	case !short:
		h.comparePower(wanted.w, givesW, wanted.va, givesVA)
		h.say("surge", Holds, figures, "%s; for %s it gives %s.", wanted, brief(h.SurgeTime), gives)
	}
}

// checkDip holds a generator's starting dip to what is allowed, and to what electronics ride through.
func (h *holding) checkDip() {
	if !h.Has("va") {
		return // asked for under va
	}
	a, d := h.home.Assume, h.demand
	_, alternator := h.derate()
	sags := h.figures.Put("fit.starting_dip", "", generator.Dip(h.figures.At("assume.reactance", a.Reactance), h.given("va", float64(h.VA), "VA").Times(alternator), h.figures.At("load.worst_moment_va", float64(d.WorstVA))),
		"voltage divider of subtransient reactance and starting load: circuit theory")
	figures, dip := append(derive.IDs(sags), "assume.allowed_dip"), sags.Value
	h.compare(a.AllowedDip, dip, "")
	if dip > a.AllowedDip*hair {
		h.say("dip", Fails, figures, "Its voltage dips by %s when %s starts; %s is allowed.", percent(dip), h.starter(), percent(a.AllowedDip))
		return
	}
	curve := profiles.VoltageTolerance()
	minds := h.sensitive()
	if len(minds) == 0 || curve.Tolerates(1-dip, float64(d.StartTime)) {
		h.say("dip", Holds, figures, "Its voltage dips by %s when %s starts; %s is allowed.", percent(dip), h.starter(), percent(a.AllowedDip))
		return
	}
	ride := units.Seconds(curve.Ride(1 - dip))
	h.sayMet("dip", figures, "You accept that %s may restart: its voltage dips by %s for %s when %s starts, and electronics ride that through for %s (ITIC curve).",
		few(minds), percent(dip), brief(d.StartTime), h.starter(), brief(ride))
}
