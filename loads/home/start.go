package home

import (
	"gopkg.in/yaml.v3"

	"holdover/loads/units"
	"holdover/profiles"
)

// StartKind says how a start is given.
type StartKind string

// The ways to give one.
const (
	NoStart     StartKind = "none"
	StartTimes  StartKind = "times"
	StartAmps   StartKind = "amps"
	StartLetter StartKind = "code"
	StartWatts  StartKind = "watts"
)

// A Start is the draw of the first moments of one unit.
type Start struct {
	Kind        StartKind
	Times       float64     // × running VA
	Amps        units.Amps  // locked rotor
	Volts       units.Volts // at which Amps holds; 0 for the circuit's own
	Letter      string      // code letter of the motor's plate
	HP          float64     // motor's horsepower, with Letter
	Watts       units.Watts
	PowerFactor float64 // while starting; 0 for the assumed one
}

// startKeys is the form a start mapping takes.
type startKeys struct {
	Times       float64     `key:"times" range:"1,20" doc:"times the running VA"`
	Amps        units.Amps  `key:"amps" range:"0.1,2000" doc:"locked-rotor current"`
	Letter      string      `key:"code" doc:"code letter of the motor's plate"`
	HP          float64     `key:"hp" unit:"hp" range:"0.01,200" doc:"motor size, with code"`
	Watts       units.Watts `key:"watts" range:"1,500000" doc:"starting watts"`
	PowerFactor float64     `key:"power_factor" range:"0.05,1" doc:"while starting"`
}

func (s *Start) readNode(r *reader, n *yaml.Node, path string) {
	*s = Start{Kind: NoStart}
	if n.Kind == yaml.ScalarNode {
		if n.Value != string(NoStart) {
			r.fault(n, path, "%q found; none, {times: 4}, {amps: 60 A}, {code: G, hp: 0.5} or {watts: 800 W} is accepted", n.Value)
		}
		return
	}
	var k startKeys
	form, ok := r.oneForm(n, &k, path, "times", "amps", "code", "watts")
	if !ok {
		return
	}
	*s = Start{Kind: StartKind(form), Times: k.Times, Amps: k.Amps, Letter: k.Letter, HP: k.HP, Watts: k.Watts, PowerFactor: k.PowerFactor}
	if s.Kind == StartLetter {
		s.checkLetter(r, n, path)
	}
}

// checkLetter holds a code letter to the table of them, which has no upper bound for V.
func (s *Start) checkLetter(r *reader, n *yaml.Node, path string) {
	if _, high, ok := profiles.CodeLetterKVAPerHP(s.Letter); !ok {
		r.fault(n, join(path, "code"), "%q is no code letter of a motor; A to V without I, O and Q is accepted", s.Letter)
	} else if high > 1e3 {
		r.fault(n, join(path, "code"), "letter %s has no upper bound in the table of code letters; give amps from the nameplate instead", s.Letter)
	}
	if s.HP == 0 {
		r.fault(n, join(path, "hp"), "a code letter needs the motor's hp beside it, like {code: G, hp: 0.5}")
	}
}
