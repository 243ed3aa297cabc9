package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"runtime/debug"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"holdover/loads/home"
)

// An extreme is one key of the home file at one end of what it accepts.
type extreme struct {
	section, key, text string
}

// free are prices at which a search looks at very many designs: how long it may take is not the matter here.
const free = "battery_per_kwh"

// extremesOf lists the ends of what the keys of a section or of an entry accept: both ends of a range, the least above a low end of
// nothing, and each word of a choice.
func extremesOf(section string) []extreme {
	var out []extreme
	for _, f := range home.FieldsOf(section) {
		texts := append([]string{}, f.Words...)
		switch {
		case f.Whole() && f.Bounded:
			texts = append(texts, amountOf(f, f.Low), amountOf(f, f.High))
		case f.Key == free:
			texts = append(texts, amountOf(f, f.High))
		case f.Bounded:
			texts = append(texts, amountOf(f, f.Low), amountOf(f, f.High))
			if f.Low == 0 {
				texts = append(texts, amountOf(f, min(1, f.High)), amountOf(f, min(1e-12, f.High)))
			}
		}
		for _, text := range texts {
			if f.Key == "fuels" {
				text = "[" + text + "]"
			}
			out = append(out, extreme{section, f.Key, text})
		}
	}
	return out
}

func amountOf(f home.Field, value float64) string {
	text := strconv.FormatFloat(value, 'g', -1, 64)
	if f.Dimension != nil {
		text += " " + f.Dimension.Base
	}
	return text
}

// forms are the extremes of the keys that have a form of their own.
var forms = map[string][]string{
	"start":           {"none", "{times: 1}", "{times: 20, power_factor: 0.05}", "{amps: 0.1 A}", "{amps: 2000 A}", "{code: A, hp: 0.01}", "{code: U, hp: 200}", "{watts: 1 W, power_factor: 1}", "{watts: 500 kW, power_factor: 0.05}"},
	"use":             {"heating", "cooling", "never", "always", "24 h", "{duty: 0}", "{duty: 1}", "{duty: 1e-12}", "{minutes_per_day: 0.00001}", "{hours: [" + strings.Repeat("0, ", 23) + "1]}", "{hours: [" + strings.Repeat("0, ", 23) + "0]}"},
	"sun":             {"{kwh_per_day: 1000}", "{kwh_per_day: 1e-12}", "{kwh_per_day: 1, hours: [" + strings.Repeat("0, ", 23) + "1e-12]}", "{kwh_per_day: 1000, hours: [" + strings.Repeat("1000, ", 23) + "0]}"},
	"lasts":           {"{half: 0.01 h, nine_in_ten: 8760 h}", "{half: 8759 h, nine_in_ten: 8760 h}", "{half: 0.01 h, nine_in_ten: 0.0101 h}"},
	"runs":            {"[{name: A, length: 3000 m, amps: 1200 A}]", "[{name: A, length: 0.3 m, amps: 0.5 A, ambient: 85 C, terminals: 60 C}]", "[{name: A, length: 3000 m, ambient: -60 C, metal: aluminium, serves: service}]"},
	"gas":             {"{pipe: 1/2 in, length: 1000 m, appliances: 1 MW, meter: 0.5 m3/h}", "{kind: propane, cylinders: 50, left: 0.1}", "{kind: propane, cylinders: 0}", "{pipe: 1-1/4 in, length: 0.3 m, pressure: 700 kPa}", "{pipe: 1 in, length: 1 m, pressure: 0.5 kPa}"},
	"tank":            {"{holds: 1 L, set_to: 20 C, inlet: 40 C}", "{holds: 5000 L, set_to: 95 C, inlet: 0 C}", "{set_to: 40 C, inlet: 40 C}"},
	"pit":             {"{room: 0.1 L, inflow: 1000000 L/h}", "{room: 100000 L, inflow: 0 L/h}", "{room: 100000 L, inflow: 1e-12 L/h}"},
	"runtimes":        {"[[0.001, 100000 min], [200%, 0.01 min]]", "[[100%, 0.01 min]]", "[[0.1%, 0.01 min]]", "[[200%, 100000 min]]", "[[50%, 60 min], [51%, 58 min]]"},
	"quiet":           {"00:00-23:59", "12:00-12:01"},
	"start_of_outage": {"worst", "23:59", "00:00"},
	"engine_derate":   {"0.05", "1", "rule-of-thumb"},
	"service":         {"120 V", "230 V", "120/240 V"},
}

// wildHome draws a home some of whose keys are at an end of what they accept. What does not go together is a fault of the file,
// which is an answer too.
func wildHome(t *rapid.T) string {
	section := func(name, form string, keys ...string) string {
		all := extremesOf(name)
		for _, key := range keys {
			at := key
			if key == "start" && name == "outage" {
				at = "start_of_outage"
			}
			for _, text := range forms[at] {
				all = append(all, extreme{name, key, text})
			}
		}
		seen := map[string]bool{"running": strings.Contains(form, "running:")}
		var parts []string
		if form != "" {
			parts = append(parts, form)
		}
		for range rapid.IntRange(0, 10).Draw(t, "keys of "+name) {
			x := rapid.SampledFrom(all).Draw(t, name)
			if seen["running"] && x.key == "running_amps" || seen["running_amps"] && x.key == "running" {
				continue
			}
			if !seen[x.key] && !strings.HasPrefix(form, x.key+":") && !strings.Contains(form, ", "+x.key+":") {
				parts = append(parts, x.key+": "+x.text)
			}
			seen[x.key] = true
		}
		return "{" + strings.Join(parts, ", ") + "}"
	}
	var b strings.Builder
	fmt.Fprintf(&b, "holdover: 1\nhome: %s\nsite: %s\noutage: %s\nassume: %s\nlimits: %s\nprices: %s\ncircuits:\n", section("home", "", "service"), section("site", "", "sun", "runs", "gas"),
		section("outage", "", "start", "lasts"), section("assume", "", "engine_derate"), section("limits", "", "quiet"), section("prices", ""))
	for i := range rapid.IntRange(1, 3).Draw(t, "circuits") {
		form := fmt.Sprintf("name: C%d", i)
		switch rapid.IntRange(0, 5).Draw(t, "like") {
		case 0:
			form += ", like: " + rapid.SampledFrom(circuitProfiles()).Draw(t, "profile")
		case 1:
			form += ", running: " + rapid.SampledFrom([]string{"0 W", "1e-12 W", "200 kW", "1/6 hp", "10 hp"}).Draw(t, "running")
		case 2:
			form += ", heater: " + section("heater", "")
		default:
			form += ", running: 100 W"
		}
		fmt.Fprintf(&b, "  - %s\n", section("circuits", form, "start", "use", "tank", "pit"))
	}
	fmt.Fprintf(&b, "gear:\n  - %s\n", section("gear", "name: G, kind: "+rapid.SampledFrom([]string{"ups", "power-station", "inverter", "battery", "generator"}).Draw(t, "kind"), "runtimes"))
	return b.String()
}

// calls are the verbs that work on a home.
var calls = []string{"plan -", "plan --json -", "fit -", "fit --json -", "scope -", "scope --json -", "why -"}

// Whatever keys of a home stand at their ends, every verb ends with an answer: no panic, no figure that is not finite.
func TestExtremes_EveryVerbAnswers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		answers(t, wildHome(t), rapid.SampledFrom(calls).Draw(t, "call"))
	})
}

func answers(t rapid.TB, home, call string) {
	defer func() {
		if p := recover(); p != nil {
			t.Fatalf("%v\n%s\n%s", p, home, debug.Stack())
		}
	}()
	var out, errs bytes.Buffer
	code := run(strings.Fields(call), terminal{strings.NewReader(home), &out, &errs})
	assert.LessOrEqual(t, code, exitWrong, call)
	if code == exitWrong {
		said := strings.HasPrefix(errs.String(), stdinName+":") || strings.Contains(errs.String(), "no circuit is kept")
		assert.True(t, said && !strings.Contains(errs.String(), "json"), "%s: %s\n%s", call, errs.String(), home)
		return
	}
	for _, bad := range []string{"NaN", "Inf"} {
		assert.NotContains(t, out.String(), bad, "%s\n%s", call, home)
	}
	if strings.Contains(call, "json") {
		assert.True(t, json.Valid(out.Bytes()), "%s\n%s", call, home)
	}
}
