package home

import (
	"fmt"
	"regexp"
	"strings"

	"gopkg.in/yaml.v3"

	"holdover/loads/units"
	"holdover/profiles"
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
		use, says, err := parseUse(n.Value)
		if err != nil {
			r.fault(n, path, "%v", err)
			return
		}
		*u = use
		r.echoWord(path, n.Value, says)
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

// aDay is what makes a time one of each day; a use needs no such word.
var aDay = regexp.MustCompile(`(?i)^(.*[^ ]) *(?:(?:/ *| per +| an? +| each +| every +)(?:day|d)| daily)$`)

var ofTheTime = regexp.MustCompile(`(?i)^(.*%)(?: +of the (?:time|day))?$`)

// parseUse reads a use as people say it: 3 h, 3 hours a day, 40 min/day, 35 %, always, heating. says is what was understood.
func parseUse(text string) (u Use, says string, err error) {
	plain := strings.Join(strings.Fields(text), " ")
	if kind := UseKind(plain); kind == UseHeating || kind == UseCooling {
		return Use{Kind: kind}, plain, nil
	}
	if share, ok := profiles.EverydayInput().Uses[profiles.Tidy(plain)]; ok {
		return Use{Kind: UseDuty, Duty: share}, units.Format(share*100) + " % of the time", nil
	}
	if m := ofTheTime.FindStringSubmatch(plain); m != nil {
		share, err := units.ParseShare(m[1])
		if err == nil && !(share >= 0 && share <= 1) {
			err = fmt.Errorf("%q is out of range; 0 to 100 %% is accepted", text)
		}
		return Use{Kind: UseDuty, Duty: share}, units.Format(share*100) + " % of the time", err
	}
	if m := aDay.FindStringSubmatch(plain); m != nil {
		plain = m[1]
	}
	got, err := units.Read(plain, units.LongTime, units.SI)
	switch {
	case err != nil && !strings.ContainsAny(plain, "0123456789½¼¾"):
		return Use{}, "", fmt.Errorf("%q found; {duty: 0.35}, {hours_per_day: 3 h}, {minutes_per_day: 40 min}, {hours: [24 shares]}, 3 h, 35 %%, always, heating or cooling is accepted", text)
	case err != nil:
		return Use{}, "", err
	case got.Bare:
		return Use{}, "", fmt.Errorf("%q has no unit: %s h a day, %s min a day, or a share of the time like 35 %%?", text, plain, plain)
	case !(got.Value >= 0 && got.Value <= 24):
		return Use{}, "", fmt.Errorf("%q is out of range; 0 to 24 h a day is accepted", text)
	}
	return Use{Kind: UseDuty, Duty: got.Value / 24, Spell: true}, units.LongTime.Says(got) + " a day", nil
}

// IsUse says whether a text is a use as people say it, and no mapping: "3 hours a day", "always".
func IsUse(text string) bool {
	_, _, err := parseUse(text)
	return err == nil
}
