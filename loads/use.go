package loads

import (
	"gopkg.in/yaml.v3"

	"holdover/loads/units"
)

// UseKind says how the time a circuit is on is given.
type UseKind string

// The ways to give it.
const (
	UseAlways  UseKind = "" // not given: on all the time
	UseDuty    UseKind = "duty"
	UseHours   UseKind = "hours"
	UseHeating UseKind = "heating"
	UseCooling UseKind = "cooling"
)

// A Use says how much of the time a circuit is on. Hours and minutes a day are held as a duty, spread evenly.
type Use struct {
	Kind  UseKind
	Duty  float64     // 0..1
	Hours [24]float64 // share of each clock hour, 0..1
	Spell bool        // the duty was given as hours or minutes a day, which may be one spell; a plain duty comes and goes
}

// useKeys is the form a use mapping takes.
type useKeys struct {
	Duty    float64       `key:"duty" range:"0,1" doc:"share of the time it is on"`
	PerDay  units.Hours   `key:"hours_per_day" range:"0,24" doc:"hours on in a day"`
	Minutes units.Minutes `key:"minutes_per_day" range:"0,1440" doc:"minutes on in a day"`
	Hours   []float64     `key:"hours" range:"0,1" doc:"share of each clock hour, from midnight"`
}

func (u *Use) readNode(r *reader, n *yaml.Node, path string) {
	*u = Use{}
	if n.Kind == yaml.ScalarNode {
		if u.Kind = UseKind(n.Value); u.Kind != UseHeating && u.Kind != UseCooling {
			r.fault(n, path, "%q found; {duty: 0.35}, {hours_per_day: 3 h}, {minutes_per_day: 40 min}, {hours: [24 shares]}, heating or cooling is accepted", n.Value)
		}
		return
	}
	var k useKeys
	form, ok := r.oneForm(n, &k, path, "duty", "hours_per_day", "minutes_per_day", "hours")
	if !ok {
		return
	}
	u.Kind = UseDuty
	switch form {
	case "duty":
		u.Duty = k.Duty
	case "hours_per_day":
		u.Duty, u.Spell = float64(k.PerDay)/24, true
	case "minutes_per_day":
		u.Duty, u.Spell = float64(k.Minutes)/(24*60), true
	case "hours":
		u.Kind = UseHours
		if len(k.Hours) != 24 {
			r.fault(n, join(path, "hours"), "%d shares found; 24 are wanted, one for each clock hour from midnight", len(k.Hours))
			return
		}
		copy(u.Hours[:], k.Hours)
	}
}
