package sheet

import (
	"fmt"
	"math"
	"slices"

	"holdover/loads"
	"holdover/loads/home"
	"holdover/planner/derive"
	"holdover/profiles"
)

// This file holds a unit to the kind of supply that the circuits need: wave, volts, hertz, legs and neutral.

const waveSource = "Fourier series of a wave at +V, 0 and −V; dead time is the share of each half cycle at zero"

// distortion is the unit's distortion, and how sure that is: known says that it is given or follows from the shape; otherwise
// it is the least that any stepped wave has.
func (h *holding) distortion() (share float64, known bool, id string) {
	switch {
	case h.Has("distortion"):
		h.given("distortion", h.Distortion, "")
		return h.Distortion, true, "sheet.distortion"
	case h.Wave == home.Square:
		return SteppedDistortion(0), true, h.figures.Note("fit.distortion", SteppedDistortion(0), "", "√((Vrms/V1rms)² − 1) of a square wave", waveSource)
	case h.Wave == home.Stepped && h.Has("dead_time"):
		h.given("dead_time", h.DeadTime, "")
		share := SteppedDistortion(h.DeadTime)
		return share, true, h.figures.Note("fit.distortion", share, "", "√((Vrms/V1rms)² − 1) at this dead time", waveSource, "sheet.dead_time")
	case h.Wave == home.Stepped:
		dead, least := LeastDistortion()
		how := fmt.Sprintf("the least that any stepped wave has, at a dead time of %.3g of each half cycle; the sheet does not give its own", dead)
		return least, false, h.figures.Note("fit.least_distortion", least, "", how, waveSource)
	}
	return 0, false, ""
}

func (h *holding) checkWave() {
	need, rule := h.demand.SineFor, profiles.Fit().SineDistortion
	limit := h.figures.Note("fit.sine_distortion_limit", rule.Share, "", "the most that counts as a sine wave", rule.Source)
	if h.Wave == "" {
		if minds := append(slices.Clone(need), corrected(h.demand)...); len(minds) > 0 {
			h.ask("wave", "its wave: sine, stepped or square", fmt.Sprintf("It matters to %s.", few(slices.Compact(minds))))
			return
		}
		h.say("wave", Holds, nil, "The sheet does not name its wave; nothing here needs a sine.")
		return
	}
	share, known, id := h.distortion()
	figures := []string{limit}
	if id != "" {
		figures = append(figures, id)
	}
	says := map[bool]string{true: fmt.Sprintf("%s %s wave, %s distorted", article(h.Wave), h.Wave, percent(share)),
		false: fmt.Sprintf("%s %s wave, %s distorted at the least, whatever its dead time", article(h.Wave), h.Wave, percent(share))}[known]
	switch {
	case len(need) == 0:
		if h.Wave == home.Sine && !known {
			says = "A sine wave"
		}
		h.say("wave", Holds, figures, "%s; nothing here needs a sine.", says)
	case h.Wave != home.Sine && share > rule.Share, known && share > rule.Share:
		h.say("wave", Fails, figures, "%s; %s %s a sine wave, %s or less.", says, few(need), verb(need, "needs", "need"), percent(rule.Share))
	case h.Engine() && !known:
		h.ask("wave", "its total harmonic distortion at full load", fmt.Sprintf("A generator's wave may be sine in name only; %s %s %s or less.", few(need), verb(need, "needs", "need"), percent(rule.Share)))
	case known:
		h.say("wave", Holds, figures, "%s; %s or less counts as a sine.", says, percent(rule.Share))
	default:
		h.say("wave", Holds, figures, "A sine wave by its sheet.")
	}
}

// corrected lists the circuits with a power-factor corrected supply: those that say so, and electronics whose power factor is
// that of a corrected one.
func corrected(d *loads.Demand) (names []string) {
	rule := profiles.Fit().Corrected
	for i := range d.Loads {
		l := &d.Loads[i]
		p, known := profiles.FindCircuit(l.Like)
		if l.Needs.Corrected || (known && slices.Contains(rule.Groups, p.Group) && l.PowerFactor >= rule.PowerFactor) {
			names = append(names, l.Name)
		}
	}
	return names
}

func (h *holding) checkCorrected() {
	names := corrected(h.demand)
	if len(names) == 0 || h.Wave == home.Sine || h.Wave == "" {
		return // a missing wave is asked for under wave when it matters
	}
	share, _, id := h.distortion()
	if share <= profiles.Fit().SineDistortion.Share {
		return
	}
	h.say("corrected-supply", Fails, []string{id}, "%s: a power-factor corrected supply on a %s wave may draw hard pulses, trip the unit or shut down (common practice, no source).", few(names), h.Wave)
}

func (h *holding) checkVolts() {
	if !h.Has("volts") {
		h.ask("volts", "its output voltage", "")
		return
	}
	rule := profiles.Fit().Volts
	figures := derive.IDs(h.given("volts", float64(h.Volts), "V"))
	two, known := h.TwoLegs()
	var wrong, onLeg []string
	for i := range h.demand.Loads {
		l := &h.demand.Loads[i]
		near := func(volts float64) bool { return math.Abs(volts/float64(l.Volts)-1) <= rule.Share }
		switch {
		case near(float64(h.Volts)):
		case h.Volts >= 200 && near(float64(h.Volts)/2):
			onLeg = append(onLeg, l.Name)
		default:
			wrong = append(wrong, fmt.Sprintf("%s (%s V)", l.Name, number(float64(l.Volts))))
		}
	}
	switch {
	case len(wrong) > 0:
		h.say("volts", Fails, figures, "It gives %s V; %s cannot run on it.", number(float64(h.Volts)), few(wrong))
	case len(onLeg) > 0 && !known:
		h.ask("volts", fmt.Sprintf("whether it gives 120 V on each of two legs (legs: 2) or %s V alone (legs: 1)", number(float64(h.Volts))), fmt.Sprintf("%s %s 120 V.", few(onLeg), verb(onLeg, "is", "are")))
	case len(onLeg) > 0 && !two:
		h.say("volts", Fails, figures, "It gives %s V on one pair of wires, without 120 V legs; %s %s 120 V.", number(float64(h.Volts)), few(onLeg), verb(onLeg, "is", "are"))
	default:
		h.say("volts", Holds, figures, "%s V is what the circuits take.", number(float64(h.Volts)))
	}
}

func (h *holding) checkHertz() {
	rule := profiles.Fit()
	want := rule.ServiceHertz[int(h.home.House.Service.LegVolts())]
	if !h.Has("hertz") {
		h.ask("hertz", "its output frequency", fmt.Sprintf("%s Hz is wanted here.", number(want)))
		return
	}
	figures := append(derive.IDs(h.given("hertz", float64(h.Frequency), "Hz")), h.figures.Note("fit.hertz_wanted", want, "Hz", "the frequency of the service", rule.HertzSource))
	h.compare(want, float64(h.Frequency), "Hz")
	if math.Abs(float64(h.Frequency)/want-1) > rule.Hertz.Share {
		h.say("hertz", Fails, figures, "It gives %s Hz; %s Hz is wanted, within %s.", number(float64(h.Frequency)), number(want), percent(rule.Hertz.Share))
		return
	}
	h.say("hertz", Holds, figures, "%s Hz.", number(float64(h.Frequency)))
}

func (h *holding) checkNeutral() {
	var need []string
	for i := range h.demand.Loads {
		if h.demand.Loads[i].Needs.EarthedNeutral {
			need = append(need, h.demand.Loads[i].Name)
		}
	}
	if len(need) == 0 {
		return
	}
	switch h.Neutral {
	case "":
		h.ask("neutral", "its neutral: floating, bonded to earth, or passed through", fmt.Sprintf("The flame sensing of %s needs an earthed one.", few(need)))
	case home.Floating:
		if h.Engine() {
			h.sayMet("neutral", nil, "Its neutral floats; %s %s the flame against earth. It fits if the transfer equipment leaves the house's neutral, joined to earth at the service, connected to it (common practice, no source).", few(need), verb(need, "senses", "sense"))
			return
		}
		h.say("neutral", Fails, nil, "Its neutral floats; %s %s the flame against earth and would light and lock out (common practice, no source). Only where its maker allows a joint of neutral and earth will it do.", few(need), verb(need, "senses", "sense"))
	case home.Bonded:
		h.say("neutral", Holds, nil, "Its neutral is joined to earth, as the flame sensing of %s needs.", few(need))
	default:
		h.say("neutral", Holds, nil, "It passes the house's earthed neutral through, as the flame sensing of %s needs; that holds only while it stays plugged into the house.", few(need))
	}
}
