package sheet

import (
	"holdover/loads/home"
	"holdover/planner/derive"
	"holdover/profiles"
)

// A Pair is a generator that would feed a ups.
type Pair struct {
	Generator, UPS string
	Verdict        Verdict
	Checks         []Finding
	Sheet          *derive.Figures
}

// pairs holds every generator to every ups that it might feed: is the ups content with that wave and frequency, and is the
// generator large enough for the way a ups draws?
func (d *Duty) pairs(gear []home.Gear) (out []Pair) {
	for _, g := range gear {
		for _, u := range gear {
			if g.Kind == home.Generator && u.Kind == home.UPS {
				p := &pair{g: g, u: u, holding: holding{Duty: d, figures: derive.Over(d.written())}}
				p.checkDistortion()
				p.checkFrequency()
				p.checkSize()
				out = append(out, Pair{g.Name, u.Name, VerdictOf(p.findings), p.findings, p.figures})
			}
		}
	}
	return out
}

type pair struct {
	holding
	g, u home.Gear
}

// on puts down a figure of one of the two sheets.
func (p *pair) on(gear home.Gear, key string, value float64, unit string) derive.Term {
	return p.givenBy("spec sheet of "+gear.Name, string(gear.Kind), key, value, unit)
}

func (p *pair) askOf(id string, gear home.Gear, what string) {
	p.say(id, NotOnSheet, nil, "Not on the sheet of %s: ask the maker for %s.", gear.Name, what)
}

func (p *pair) checkDistortion() {
	g := holding{Sheet: Sheet{Gear: p.g}, figures: p.figures}
	share, known, id := g.distortion()
	switch {
	case !known:
		p.askOf("distortion", p.g, "its total harmonic distortion at full load")
	case !p.u.Has("accepts_distortion"):
		p.askOf("distortion", p.u, "the distortion that it accepts at its input")
	case share > p.u.Accepts*hair:
		p.say("distortion", Fails, append([]string{id}, derive.IDs(p.on(p.u, "accepts_distortion", p.u.Accepts, ""))...), "%s gives a wave distorted by %s; %s accepts %s and would stay on its battery.", p.g.Name, percent(share), p.u.Name, percent(p.u.Accepts))
	default:
		p.say("distortion", Holds, append([]string{id}, derive.IDs(p.on(p.u, "accepts_distortion", p.u.Accepts, ""))...), "A wave distorted by %s; %s is accepted.", percent(share), percent(p.u.Accepts))
	}
}

func (p *pair) checkFrequency() {
	switch {
	case !p.g.Has("hertz_swing"):
		p.askOf("hertz", p.g, "how far its frequency strays from no load to full load")
	case !p.u.Has("accepts_hertz"):
		p.askOf("hertz", p.u, "the frequencies that it accepts at its input")
	default:
		outcome, verb := Holds, "which is accepted"
		if p.g.HertzSwing > p.u.AcceptsHz {
			outcome, verb = Fails, "beyond what is accepted, so that the ups would go back and forth to its battery"
		}
		figures := derive.IDs(p.on(p.g, "hertz_swing", float64(p.g.HertzSwing), "Hz"), p.on(p.u, "accepts_hertz", float64(p.u.AcceptsHz), "Hz"))
		p.say("hertz", outcome, figures, "The frequency strays by %s Hz, %s (%s Hz).", number(float64(p.g.HertzSwing)), verb, number(float64(p.u.AcceptsHz)))
	}
}

func (p *pair) checkSize() {
	rule := profiles.Fit().BehindGenerator
	if !p.g.Has("va") || !p.u.Has("va") || p.u.VA == 0 {
		lacks := p.g
		if p.g.Has("va") {
			lacks = p.u
		}
		p.askOf("size", lacks, "its volt-amps")
		return
	}
	generator, ups := p.on(p.g, "va", float64(p.g.VA), "VA"), p.on(p.u, "va", float64(p.u.VA), "VA")
	size := p.figures.Put("pair.size_ratio", "", generator.As("generator VA", generator.Value).Times(p.figures.At("site.alternator_derate", p.Rating.Alternator)).Over(ups.As("ups VA", ups.Value)), rule.Source)
	ratio := size.Value
	outcome := Holds
	if ratio*hair < rule.Ratio {
		outcome = Fails
	}
	p.say("size", outcome, derive.IDs(size), "The generator is %s times the ups here; %s times or more are wanted.", number(ratio), number(rule.Ratio))
}
