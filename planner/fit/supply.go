package fit

import (
	"fmt"
	"math"
	"slices"

	"holdover/loads"
	"holdover/loads/home"
	"holdover/profiles"
)

// This file holds a unit to the kind of supply that the circuits need: wave, volts, hertz, legs and neutral.

const waveSource = "Fourier series of a wave at +V, 0 and −V; dead time is the share of each half cycle at zero"

// distortion is the unit's distortion, and how sure that is: known says that it is given or follows from the shape; otherwise
// it is the least that any stepped wave has.
func (s *subject) distortion() (share float64, known bool, id string) {
	switch {
	case s.Has("distortion"):
		return s.Distortion, true, s.given("distortion", s.Distortion, "")
	case s.Wave == "square":
		return SteppedDistortion(0), true, s.figure("fit.distortion", SteppedDistortion(0), "", "√((Vrms/V1rms)² − 1) of a square wave", waveSource)
	case s.Wave == "stepped" && s.Has("dead_time"):
		from := s.given("dead_time", s.DeadTime, "")
		share := SteppedDistortion(s.DeadTime)
		return share, true, s.figure("fit.distortion", share, "", "√((Vrms/V1rms)² − 1) at this dead time", waveSource, from)
	case s.Wave == "stepped":
		dead, least := LeastDistortion()
		how := fmt.Sprintf("the least that any stepped wave has, at a dead time of %.3g of each half cycle; the sheet does not give its own", dead)
		return least, false, s.figure("fit.least_distortion", least, "", how, waveSource)
	}
	return 0, false, ""
}

func (s *subject) checkWave() {
	need, rule := s.demand.SineFor, profiles.Fit().SineDistortion
	limit := s.figure("fit.sine_distortion_limit", rule.Share, "", "the most that counts as a sine wave", rule.Source)
	if s.Wave == "" {
		if minds := append(slices.Clone(need), corrected(s.demand)...); len(minds) > 0 {
			s.ask("wave", "its wave: sine, stepped or square", fmt.Sprintf("It matters to %s.", list(slices.Compact(minds))))
			return
		}
		s.say("wave", Passed, nil, "The sheet does not name its wave; nothing here needs a sine.")
		return
	}
	share, known, id := s.distortion()
	figures := []string{limit}
	if id != "" {
		figures = append(figures, id)
	}
	says := map[bool]string{true: fmt.Sprintf("%s %s wave, %s distorted", article(s.Wave), s.Wave, percent(share)),
		false: fmt.Sprintf("%s %s wave, %s distorted at the least, whatever its dead time", article(s.Wave), s.Wave, percent(share))}[known]
	switch {
	case len(need) == 0:
		if s.Wave == home.Sine && !known {
			says = "A sine wave"
		}
		s.say("wave", Passed, figures, "%s; nothing here needs a sine.", says)
	case s.Wave != home.Sine && share > rule.Share, known && share > rule.Share:
		s.say("wave", Failed, figures, "%s; %s %s a sine wave, %s or less.", says, list(need), verb(need, "needs", "need"), percent(rule.Share))
	case s.Kind == generatorSet && !known:
		s.ask("wave", "its total harmonic distortion at full load", fmt.Sprintf("A generator's wave may be sine in name only; %s %s %s or less.", list(need), verb(need, "needs", "need"), percent(rule.Share)))
	case known:
		s.say("wave", Passed, figures, "%s; %s or less counts as a sine.", says, percent(rule.Share))
	default:
		s.say("wave", Passed, figures, "A sine wave by its sheet.")
	}
}

func article(word string) string {
	if slices.Contains([]byte("aeiou"), word[0]) {
		return "An"
	}
	return "A"
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

func (s *subject) checkCorrected() {
	names := corrected(s.demand)
	if len(names) == 0 || s.Wave == home.Sine || s.Wave == "" {
		return // a missing wave is asked for under wave when it matters
	}
	share, _, id := s.distortion()
	if share <= profiles.Fit().SineDistortion.Share {
		return
	}
	s.say("corrected-supply", Failed, []string{id}, "%s: a power-factor corrected supply on a %s wave may draw hard pulses, trip the unit or shut down (common practice, no source).", list(names), s.Wave)
}

// two says whether the unit gives 120 V on each of two legs. It is not known when the sheet is silent.
func (s *subject) two() (is, known bool) {
	if s.Volts < 200 {
		return false, true
	}
	return s.Legs == 2, s.Has("legs")
}

func (s *subject) checkVolts() {
	if !s.Has("volts") {
		s.ask("volts", "its output voltage", "")
		return
	}
	rule := profiles.Fit().Volts
	id := s.given("volts", float64(s.Volts), "V")
	two, known := s.two()
	var wrong, onLeg []string
	for i := range s.demand.Loads {
		l := &s.demand.Loads[i]
		near := func(volts float64) bool { return math.Abs(volts/float64(l.Volts)-1) <= rule.Share }
		switch {
		case near(float64(s.Volts)):
		case s.Volts >= 200 && near(float64(s.Volts)/2):
			onLeg = append(onLeg, l.Name)
		default:
			wrong = append(wrong, fmt.Sprintf("%s (%s V)", l.Name, number(float64(l.Volts))))
		}
	}
	switch {
	case len(wrong) > 0:
		s.say("volts", Failed, []string{id}, "It gives %s V; %s cannot run on it.", number(float64(s.Volts)), list(wrong))
	case len(onLeg) > 0 && !known:
		s.ask("volts", fmt.Sprintf("whether it gives 120 V on each of two legs (legs: 2) or %s V alone (legs: 1)", number(float64(s.Volts))), fmt.Sprintf("%s %s 120 V.", list(onLeg), verb(onLeg, "is", "are")))
	case len(onLeg) > 0 && !two:
		s.say("volts", Failed, []string{id}, "It gives %s V on one pair of wires, without 120 V legs; %s %s 120 V.", number(float64(s.Volts)), list(onLeg), verb(onLeg, "is", "are"))
	default:
		s.say("volts", Passed, []string{id}, "%s V is what the circuits take.", number(float64(s.Volts)))
	}
}

func (s *subject) checkHertz() {
	rule := profiles.Fit()
	want := rule.ServiceHertz[int(s.home.House.Service.LegVolts())]
	if !s.Has("hertz") {
		s.ask("hertz", "its output frequency", fmt.Sprintf("%s Hz is wanted here.", number(want)))
		return
	}
	figures := []string{s.given("hertz", float64(s.Frequency), "Hz"), s.figure("fit.hertz_wanted", want, "Hz", "the frequency of the service", rule.HertzSource)}
	if math.Abs(float64(s.Frequency)/want-1) > rule.Hertz.Share {
		s.say("hertz", Failed, figures, "It gives %s Hz; %s Hz is wanted, within %s.", number(float64(s.Frequency)), number(want), percent(rule.Hertz.Share))
		return
	}
	s.say("hertz", Passed, figures, "%s Hz.", number(float64(s.Frequency)))
}

func (s *subject) checkNeutral() {
	var need []string
	for i := range s.demand.Loads {
		if s.demand.Loads[i].Needs.EarthedNeutral {
			need = append(need, s.demand.Loads[i].Name)
		}
	}
	if len(need) == 0 {
		return
	}
	switch s.Neutral {
	case "":
		s.ask("neutral", "its neutral: floating, bonded to earth, or passed through", fmt.Sprintf("The flame sensing of %s needs an earthed one.", list(need)))
	case "floating":
		if s.Kind == "generator" {
			s.say("neutral", Conditional, nil, "Its neutral floats; %s %s the flame against earth. It fits if the transfer equipment leaves the house's neutral, joined to earth at the service, connected to it (common practice, no source).", list(need), verb(need, "senses", "sense"))
			return
		}
		s.say("neutral", Failed, nil, "Its neutral floats; %s %s the flame against earth and would light and lock out (common practice, no source). Only where its maker allows a joint of neutral and earth will it do.", list(need), verb(need, "senses", "sense"))
	case "bonded":
		s.say("neutral", Passed, nil, "Its neutral is joined to earth, as the flame sensing of %s needs.", list(need))
	default:
		s.say("neutral", Passed, nil, "It passes the house's earthed neutral through, as the flame sensing of %s needs; that holds only while it stays plugged into the house.", list(need))
	}
}
