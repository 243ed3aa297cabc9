package sheet

import (
	"cmp"
	"fmt"

	"holdover/loads/home"

	"holdover/loads/units"
	"holdover/planner/generator"
	"holdover/profiles"
)

// This file holds a sheet to what the circuits draw: watts and volt-amps both, and the hardest start.

// hair lets a rounding error pass.
const hair = 1 + 1e-9

// derate is the share of its rating that the sheet's machine gives here: watts and volt-amps.
func (h *holding) derate() (watts, va float64, from []string) {
	if h.Engine() {
		h.figure("site.engine_derate", h.Rating.Engine, "", "what an engine gives at this height and warmth", "ISO 3046-1, or what the home file says")
		h.figure("site.alternator_derate", h.Rating.Alternator, "", "(1 − 1 % per 100 m above 1000 m)·(1 − 1 % per K above 40 °C)", "common practice among makers, no source")
		return h.Rating.Engine, h.Rating.Alternator, []string{"site.engine_derate", "site.alternator_derate"}
	}
	h.figure("site.inverter_derate", h.Rating.Inverter, "", "1 up to the knee, then less by so much per K", "common practice, no source; the maker's curve goes first")
	return h.Rating.Inverter, h.Rating.Inverter, []string{"site.inverter_derate"}
}

// checkRatings holds the continuous ratings, derated for this place, to the running draw with the head-room of the plan.
func (h *holding) checkRatings() {
	derateW, derateVA, from := h.derate()
	h.checkRating("watts", "W", float64(h.Watts), derateW, float64(h.demand.RunningW), append(from, "load.running_w"))
	h.checkRating("va", "VA", float64(h.VA), derateVA, float64(h.demand.Running.VA()), append(from, "load.running_va"))
}

func (h *holding) checkRating(key, unit string, rated, derate, wanted float64, from []string) {
	if !h.Has(key) {
		what := map[string]string{"watts": "its continuous watts", "va": "its continuous volt-amps"}[key]
		h.ask(key, what, fmt.Sprintf("%s %s are wanted.", number(wanted), unit))
		return
	}
	margin := h.home.Assume.PowerMargin
	from = append([]string{h.given(key, rated, unit), h.assumed("assume.power_margin", margin, "")}, from...)
	here := rated * derate
	id := h.figure("fit.here_"+key, here, unit, "rating · what this place leaves of it", "", from[0])
	figures := append([]string{id}, from...)
	switch {
	case wanted > here*hair:
		h.say(key, Fails, figures, "It gives %s %s here; the circuits draw %s %s running.", number(here), unit, number(wanted), unit)
	case wanted*(1+margin) > here*hair:
		h.say(key, HoldsIf, figures, "You accept less than %s of head-room: it gives %s %s here, the circuits draw %s %s running.", percent(margin), number(here), unit, number(wanted), unit)
	default:
		h.say(key, Holds, figures, "It gives %s %s here; the circuits draw %s %s running.", number(here), unit, number(wanted), unit)
	}
}

// conversion is from the battery to the outlet: the sheet's own figures or those of the inverter before it, else what the plan
// assumes.
func (h *holding) conversion() (efficiency float64, idle units.Watts) {
	from := h.Sheet
	if h.Inverter != nil {
		from = *h.Inverter
	}
	efficiency, idle = h.home.Assume.InverterEfficiency, h.home.Assume.InverterIdle
	if from.Has("efficiency") {
		efficiency = from.Efficiency
	}
	if from.Has("idle") {
		idle = from.Idle
	}
	return efficiency, idle
}

// checkDischarge holds cells without an inverter to the DC power behind theirs, or else the one that the plan assumes.
func (h *holding) checkDischarge() {
	efficiency, idle := h.conversion()
	wanted := float64(h.demand.RunningW)/efficiency + float64(idle)
	id := h.figure("fit.dc_w", wanted, "W", "running W / inverter efficiency + idle draw", "", "load.running_w",
		h.conversionFigure("efficiency", "assume.inverter_efficiency", efficiency, ""), h.conversionFigure("idle", "assume.inverter_idle", float64(idle), "W"))
	switch given := float64(h.Watts); {
	case !h.Has("watts"):
		h.ask("watts", "the greatest power that it gives continuously", fmt.Sprintf("An inverter would draw %s W from it.", number(wanted)))
	case wanted > given*hair:
		h.say("watts", Fails, []string{id, h.given("watts", given, "W")}, "It gives %s W; an inverter would draw %s W from it.", number(given), number(wanted))
	default:
		h.say("watts", Holds, []string{id, h.given("watts", given, "W")}, "It gives %s W; an inverter would draw %s W from it.", number(given), number(wanted))
	}
	if h.Inverter != nil {
		return
	}
	a := h.home.Assume
	va := float64(h.demand.Running.VA()) * (1 + a.PowerMargin) / h.Rating.Inverter
	need := h.figure("fit.inverter_va", va, "VA", "running VA · (1 + power margin) / inverter derate", "", "load.running_va", h.assumed("assume.power_margin", a.PowerMargin, ""))
	h.say("inverter", HoldsIf, []string{need}, "An inverter stands behind it that gives %s VA continuously and %s VA for a start, checked on its own sheet.", number(va), number(float64(h.demand.WorstVA)/h.Rating.Inverter))
}

// electronic says whether a short-time limit is one of current: of an inverter, and of an engine that makes its wave by one. A
// wound alternator rides through a start on its field, and is held to its dip.
func (h *holding) electronic() bool { return !h.Engine() || h.Alternator == home.Electronic }

// surgeRatings are the watts, and of an electronic machine the volt-amps, that it gives here for a short time.
func (h *holding) surgeRatings() (w units.Watts, va units.VoltAmps) {
	derateW, derateVA, _ := h.derate()
	w = units.Watts(float64(h.Surge) * derateW)
	if h.Watts > 0 {
		va = units.VoltAmps(float64(h.Surge) * float64(h.VA) / float64(h.Watts) * min(derateW, derateVA))
	}
	return w, va
}

// checkSurge holds the short-time rating, and how long it lasts, to the worst moment. What a machine gives steadily it gives for a
// start too, and a start that outlasts its surge must be within that.
func (h *holding) checkSurge() {
	d := h.demand
	derateW, derateVA, from := h.derate()
	figures := append([]string{"load.worst_moment_w", "load.worst_moment_va", "load.start_seconds"}, from...)
	wanted := starting{h.starter(), d.WorstW, d.WorstVA, d.StartTime}
	steadyW, steadyVA := units.Watts(float64(h.Watts)*derateW), units.VoltAmps(float64(h.VA)*derateVA)
	switch {
	case d.WorstStart == "" && d.WorstW <= d.RunningW:
		h.say("surge", Holds, nil, "Nothing here starts with a surge.")
	case h.Has("watts") && h.Has("va") && d.WorstW <= steadyW*hair && d.WorstVA <= steadyVA*hair:
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
	figures = append(figures, h.given("surge", float64(h.Surge), "W"))
	short, gives := wanted.w > surgeW*hair, watts(surgeW)
	if h.electronic() && h.Has("va") && h.Watts > 0 {
		figures = append(figures, h.figure("fit.surge_va", float64(surgeVA), "VA", "surge W · VA / W of its ratings, derated: its short-time limit is one of current", "common practice, no source", "sheet.surge"))
		short = short || wanted.va > surgeVA*hair
		gives += " and " + voltAmps(surgeVA)
	}
	if short {
		h.say("surge", Fails, figures, "%s; for a short time it gives %s.", wanted, gives)
	}
	if !h.Has("surge_seconds") {
		h.ask("surge", "how long its surge holds", wanted.String()+".")
		return
	}
	figures = append(figures, h.given("surge_seconds", float64(h.SurgeTime), "s"))
	long := h.demand.Worst(h.SurgeTime)
	switch {
	case long.W > steadyW*hair || (h.Has("va") && long.VA > steadyVA*hair):
		h.say("surge", Fails, figures, "%s; its surge holds for %s, and beyond it gives %s.", starting{long.Circuit, long.W, long.VA, long.Seconds}, brief(h.SurgeTime), watts(steadyW))
	case !short:
		h.say("surge", Holds, figures, "%s; for %s it gives %s.", wanted, brief(h.SurgeTime), gives)
	}
}

// checkDip holds a generator's starting dip to what is allowed, and to what electronics ride through.
func (h *holding) checkDip() {
	if !h.Has("va") {
		return // asked for under va
	}
	a, d := h.home.Assume, h.demand
	_, alternator, _ := h.derate()
	dip := generator.Dip(a.Reactance, float64(h.VA)*alternator/1000, float64(d.WorstVA)/1000)
	id := h.figure("fit.starting_dip", dip, "", "X / (X + rated kVA / starting kVA)", "voltage divider of subtransient reactance and starting load: circuit theory",
		h.assumed("assume.reactance", a.Reactance, ""), h.given("va", float64(h.VA), "VA"), "load.worst_moment_va", "site.alternator_derate")
	figures := []string{id, h.assumed("assume.allowed_dip", a.AllowedDip, "")}
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
