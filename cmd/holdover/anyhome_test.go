package main

import (
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"regexp"
	"regexp/syntax"
	"slices"
	"strconv"
	"strings"
	"sync"

	"holdover/loads/home"
)

// This file draws random homes from the JSON Schema of the home file and from nothing else, so that a new key is drawn on
// the day it is added: absent often, else typical, extreme, just inside the range or just outside it.

// A form is one node of the schema.
type form struct {
	Type        string           `json:"type"`
	Description string           `json:"description"`
	Properties  map[string]*form `json:"properties"`
	Required    []string         `json:"required"`
	Items       *form            `json:"items"`
	Any         []*form          `json:"anyOf"`
	Words       []string         `json:"enum"`
	Pattern     string           `json:"pattern"`
	Low         *float64         `json:"minimum"`
	High        *float64         `json:"maximum"`
	Default     *string          `json:"default"`
	Examples    []string         `json:"examples"`
}

// homeForm is the form of a whole home file.
var homeForm = sync.OnceValue(func() *form {
	var f form
	if err := json.Unmarshal(home.Schema(), &f); err != nil {
		panic(err)
	}
	return &f
})

// A draw is one home in the making.
type draw struct {
	*rand.Rand
	seed     uint64
	presence float64 // how likely a key is there that need not be
	extreme  float64 // how likely a value is drawn from all of its range and not from what is usual
	slip     float64 // how likely a number lies just outside its range
	circuits int
}

// newDraw makes the home of a seed: the same for the same seed and schema.
func newDraw(seed uint64) *draw {
	d := &draw{Rand: rand.New(rand.NewPCG(seed, 8)), seed: seed}
	d.presence = pick(d, 0.08, 0.2, 0.4, 0.8)
	d.extreme = pick(d, 0.02, 0.2, 0.5, 0.9)
	if d.chance(0.03) {
		d.slip = 0.02
	}
	switch {
	case d.chance(0.003):
		d.circuits = 1000
	case d.chance(0.005):
		d.circuits = 300
	case d.chance(0.04):
		d.circuits = 13 + d.IntN(110)
	default:
		d.circuits = 1 + d.IntN(12)
	}
	return d
}

func (d *draw) chance(p float64) bool { return d.Float64() < p }

func pick[T any](d *draw, of ...T) T { return of[d.IntN(len(of))] }

// value draws a value of a form; path is where it stands, such as "circuits[3].needs".
func (d *draw) value(f *form, path string) any {
	switch {
	case len(f.Any) > 0:
		return d.any(f, path)
	case f.Words != nil:
		return pick(d, f.Words...)
	case f.Properties != nil:
		return d.mapping(f, path)
	}
	switch f.Type {
	case "array":
		return d.list(f, path)
	case "boolean":
		return d.chance(0.5)
	case "integer":
		return int(math.Round(d.number(*f.Low, *f.High, f)))
	case "number":
		low := 0.0
		if f.Low != nil {
			low = *f.Low
		}
		return d.number(low, *f.High, f)
	}
	return d.text(f, path)
}

// mapping draws the keys of a mapping. The sections of a home are there more often than other keys.
func (d *draw) mapping(f *form, path string) map[string]any {
	out := map[string]any{}
	for _, key := range sortedKeys(f.Properties) {
		present := d.presence
		if path == "" {
			present = max(0.6, present)
		}
		if slices.Contains(f.Required, key) || d.chance(present) {
			out[key] = d.value(f.Properties[key], below(path, key))
		}
	}
	return out
}

func below(path, key string) string { return strings.TrimPrefix(path+"."+key, ".") }

// any draws one of several forms. Of a mapping that stands beside a word, only one key is wanted as a rule.
func (d *draw) any(f *form, path string) any {
	if low, high, unit, ok := rangeOf(f.Description); ok && unit != "" {
		return d.quantity(low, high, unit, f)
	}
	chosen := pick(d, f.Any...)
	if chosen.Properties != nil {
		keys := sortedKeys(chosen.Properties)
		out := map[string]any{}
		for _, key := range keys {
			if d.chance(0.1) {
				out[key] = d.value(chosen.Properties[key], below(path, key))
			}
		}
		key := pick(d, keys...)
		out[key] = d.value(chosen.Properties[key], below(path, key))
		return out
	}
	if chosen.Pattern != "" && f.Any[0].High != nil { // a share as a percentage
		return text(d.number(*f.Any[0].Low, *f.Any[0].High, f)*100) + "%"
	}
	if f.Default != nil && !d.chance(d.extreme) {
		return *f.Default
	}
	return d.value(chosen, path)
}

// list draws a list: of circuits as many as the home has, of numbers one for each hour of a day.
func (d *draw) list(f *form, path string) any {
	n := d.IntN(5)
	switch {
	case path == "circuits":
		n = d.circuits
	case path[strings.LastIndex(path, ".")+1:] == "runtimes":
		return d.runtimes()
	case f.Items == nil: // one point of them
		return []any{text(d.number(0.1, 100, nil)) + "%", text(d.number(0.01, 100000, nil)) + " min"}
	case f.Items.Words != nil:
		n = 1 + d.IntN(len(f.Items.Words))
	case f.Items.Properties == nil:
		n = 24
	}
	out := make([]any, n)
	for i := range out {
		out[i] = d.value(f.Items, fmt.Sprintf("%s[%d]", path, i))
	}
	return out
}

// runtimes draws published points: more load, less time. It is the one list whose schema does not say what is in it.
func (d *draw) runtimes() any {
	out := []any{}
	load, minutes := d.number(0.001, 0.5, nil), d.number(0.01, 100000, nil)
	for range 1 + d.IntN(4) {
		out = append(out, []any{text(load*100) + "%", text(minutes) + " min"})
		load, minutes = load+d.Float64()*0.4+1e-6, 0.01+(minutes-0.01)*d.Float64()
	}
	return out
}

// text draws a word without a list of words.
func (d *draw) text(f *form, path string) any {
	key, number := path[strings.LastIndex(path, ".")+1:], regexp.MustCompile(`\d+`).FindString(path)
	switch {
	case f.Pattern != "":
		return d.matching(f.Pattern)
	case key == "code":
		return string(pick(d, []rune("ABCDEFGHJKLMNPRSTUV")...))
	case key == "shares_neutral_with":
		return "c" + strconv.Itoa(d.IntN(d.circuits))
	}
	name := path[:1] + number
	if d.chance(0.02) {
		name += pick(d, " \u202e\u2066א", strings.Repeat(" é宽", 60), "\"'#: {[", "\u200b", " %s%d \\n", "<b>&amp;")
	}
	return name
}

// escaped is a character as the dialect of a schema writes it, which Go's has another way for.
var escaped = regexp.MustCompile(`\\u([0-9a-f]{4})`)

// matching draws a text that matches a pattern.
func (d *draw) matching(pattern string) string {
	tree, err := syntax.Parse(escaped.ReplaceAllString(pattern, `\x{$1}`), syntax.Perl)
	if err != nil {
		panic(err)
	}
	var b strings.Builder
	d.match(&b, tree)
	return b.String()
}

func (d *draw) match(b *strings.Builder, re *syntax.Regexp) {
	times := 1
	switch re.Op {
	case syntax.OpLiteral:
		b.WriteString(string(re.Rune))
		return
	case syntax.OpCharClass:
		at := 2 * d.IntN(len(re.Rune)/2)
		b.WriteRune(re.Rune[at] + d.Int32N(re.Rune[at+1]-re.Rune[at]+1))
		return
	case syntax.OpAlternate:
		d.match(b, pick(d, re.Sub...))
		return
	case syntax.OpQuest:
		times = d.IntN(2)
	case syntax.OpStar:
		times = d.IntN(3)
	case syntax.OpPlus:
		times = 1 + d.IntN(2)
	}
	for range times {
		for _, sub := range re.Sub {
			d.match(b, sub)
		}
	}
}

// described is the range at the end of a key's description: "steady draw when on (0 to 200,000 W)".
var described = regexp.MustCompile(`\((-?[0-9.,]+) to (-?[0-9.,]+) ?(\S*)\)$`)

func rangeOf(description string) (low, high float64, unit string, ok bool) {
	m := described.FindStringSubmatch(description)
	if m == nil {
		return 0, 0, "", false
	}
	low, err1 := strconv.ParseFloat(strings.ReplaceAll(m[1], ",", ""), 64)
	high, err2 := strconv.ParseFloat(strings.ReplaceAll(m[2], ",", ""), 64)
	return low, high, m[3], err1 == nil && err2 == nil
}

// quantity draws a number with its unit; now and then without, which means the unit that is usual.
func (d *draw) quantity(low, high float64, unit string, f *form) any {
	if f.Default != nil && !d.chance(d.extreme) {
		return *f.Default
	}
	value := d.number(low, high, f)
	if d.chance(0.05) {
		return value
	}
	return text(value) + " " + unit
}

func text(value float64) string { return strconv.FormatFloat(value, 'g', -1, 64) }

// number draws a number of a range: usual, an end, zero, evenly, evenly by magnitude, or by a hair in or out.
func (d *draw) number(low, high float64, f *form) float64 {
	if d.chance(d.slip) {
		return pick(d, low-1e-6-math.Abs(low)*1e-9, high+high*1e-9, -high, 1e300)
	}
	if !d.chance(d.extreme) {
		if f != nil && f.Default != nil {
			if usual, err := strconv.ParseFloat(*f.Default, 64); err == nil {
				return usual
			}
		}
		return min(high, max(low, high*math.Pow(10, -3*d.Float64()))) // what is usual lies far below the high end
	}
	switch d.IntN(8) {
	case 0:
		return low
	case 1:
		return high
	case 2:
		return max(low, min(high, 0))
	case 3:
		return pick(d, low+(high-low)*1e-9, high-(high-low)*1e-9)
	case 4, 5:
		return low + (high-low)*d.Float64()
	}
	return low + (high-low)*math.Pow(10, -9*d.Float64())
}

func sortedKeys[V any](m map[string]V) []string {
	keys := make([]string, 0, len(m))
	for key := range m {
		keys = append(keys, key)
	}
	slices.Sort(keys)
	return keys
}
