package home_test

import (
	"encoding/json"
	"fmt"
	"reflect"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/profiles"
)

// everydayValues are values as people type them, what they come to, and how that is said back; an empty answer is none.
var everydayValues = []struct {
	path, text string
	want       any
	says       string
}{
	{"outage.length", "24 hours", units.Hours(24), "24 h"}, {"outage.length", "2 weeks", units.Hours(336), "2 weeks"}, {"outage.length", "90 minutes", units.Hours(1.5), "90 min"},
	{"outage.length", "overnight", units.Hours(12), "12 h"}, {"outage.length", "24 h", units.Hours(24), ""}, {"outage.length", "24", units.Hours(24), "24 h"},
	{"outage.start", "6pm", home.StartHour{At: 18}, "18:00"}, {"outage.start", "6:00 pm", home.StartHour{At: 18}, "18:00"}, {"outage.start", "6:30 P.M.", home.StartHour{At: 18.5}, "18:30"},
	{"outage.start", "noon", home.StartHour{At: 12}, "12:00"}, {"outage.start", "Midnight", home.StartHour{At: 0}, "00:00"}, {"outage.start", "12am", home.StartHour{At: 0}, "00:00"},
	{"outage.start", "12 pm", home.StartHour{At: 12}, "12:00"}, {"outage.start", "18", home.StartHour{At: 18}, "18:00"}, {"outage.start", "6:00", home.StartHour{At: 6}, "06:00"}, {"outage.start", "18h30", home.StartHour{At: 18.5}, "18:30"},
	{"outage.start", "24:00", home.StartHour{At: 0}, "00:00"}, {"outage.start", "18:00", home.StartHour{At: 18}, ""},
	{"limits.quiet", "10pm-7am", home.QuietHours{From: 22, To: 7}, "22:00-07:00"}, {"limits.quiet", "10 pm to 7 am", home.QuietHours{From: 22, To: 7}, "22:00-07:00"},
	{"limits.quiet", "from 10:30pm until 7am", home.QuietHours{From: 22.5, To: 7}, "22:30-07:00"}, {"limits.quiet", "22:00–07:00", home.QuietHours{From: 22, To: 7}, "22:00-07:00"},
	{"limits.quiet", "midnight to noon", home.QuietHours{From: 0, To: 12}, "00:00-12:00"}, {"limits.quiet", "22:00-07:00", home.QuietHours{From: 22, To: 7}, ""},
	{"limits.budget", "$8000", 8000.0, "$8,000"}, {"limits.budget", "8,000", 8000.0, "$8,000"}, {"limits.budget", "8000 USD", 8000.0, ""}, {"limits.budget", "8k", 8000.0, "$8,000"}, {"limits.budget", "$8.5K", 8500.0, "$8,500"},
	{"prices.gasoline_per_l", "$3.785411784/gal", 1.0, "3.78541 USD/gal"},
	{"limits.fuel_store", "10 gallons", units.Litres(10 * 3.785411784), "10 gal (37.9 L)"}, {"limits.fuel_store", "10", units.Litres(10 * 3.785411784), "10 gal (37.9 L)"},
	{"limits.fuels", "[natural gas, LPG, petrol]", []string{"natural-gas", "propane", "gasoline"}, ""}, {"limits.fuels", "natural gas, diesel", []string{"natural-gas", "diesel"}, ""}, {"limits.fuels", "propane", []string{"propane"}, ""}, {"site.gas.kind", "natural gas", "natural-gas", "natural-gas"},
	{"site.elevation", "5000 feet", units.Metres(1524), "5,000 ft (1,524 m)"}, {"site.daily_range", "18", units.Kelvins(10), "18 °F (10 K)"},
	{"home.floor_area", "2000 sqft", units.SquareMetres(2000 * 0.09290304), "2,000 ft² (186 m²)"}, {"home.floor_area", "2000 sq ft", units.SquareMetres(2000 * 0.09290304), "2,000 ft² (186 m²)"},
	{"home.service_amps", "200 amp", units.Amps(200), "200 A"}, {"home.units", "metric", "si", "si"}, {"assume.years", "20 years", 20.0, ""},
	{"circuits[0].running", "1500 watts", units.Watts(1500), "1,500 W"},
	{"circuits[0].use", "3 h", home.Use{Kind: home.UseDuty, Duty: 0.125, Spell: true}, "3 h a day"}, {"circuits[0].use", "3 hours a day", home.Use{Kind: home.UseDuty, Duty: 0.125, Spell: true}, "3 h a day"},
	{"circuits[0].use", "3 h/day", home.Use{Kind: home.UseDuty, Duty: 0.125, Spell: true}, "3 h a day"}, {"circuits[0].use", "45 minutes daily", home.Use{Kind: home.UseDuty, Duty: 0.03125, Spell: true}, "45 min a day"},
	{"circuits[0].use", "always", home.Use{Kind: home.UseDuty, Duty: 1}, "100 % of the time"}, {"circuits[0].use", "25% of the time", home.Use{Kind: home.UseDuty, Duty: 0.25}, "25 % of the time"},
	{"circuits[0].use", "half an hour each day", home.Use{Kind: home.UseDuty, Duty: 0.5 / 24, Spell: true}, "0.5 h a day"}, {"circuits[0].use", "cooling", home.Use{Kind: home.UseCooling}, ""},
	{"circuits[0].needs.gap", "20 milliseconds", units.Seconds(0.02), "20 ms"}, {"circuits[0].needs.gap", "0", units.Seconds(0), "0 s"}, {"gear[0].gap", "8", units.Seconds(8), "8 s"}, {"gear[0].price", "$189.99", 189.99, "$189.99"},
}

// homeWith is a home file with one value at a path.
func homeWith(path, text string) string {
	section, key, _ := strings.Cut(path, ".")
	if first, inner, nested := strings.Cut(key, "."); nested {
		key, text = first, "{"+inner+": "+quoted(text)+"}"
	} else {
		text = quoted(text)
	}
	circuit, gear, rest := "name: A", "name: G, kind: ups", ""
	switch section {
	case "circuits[0]":
		circuit += ", " + key + ": " + text
	case "gear[0]":
		gear += ", " + key + ": " + text
	default:
		rest = section + ": {" + key + ": " + text + "}\n"
	}
	if key != "running" {
		circuit += ", running: 100 W"
	}
	return "holdover: 1\ncircuits: [{" + circuit + "}]\ngear: [{" + gear + "}]\n" + rest
}

func quoted(text string) string {
	if strings.HasPrefix(text, "[") || strings.HasPrefix(text, "{") {
		return text
	}
	return fmt.Sprintf("%q", text)
}

// at is the value at a path of a home, by the keys of its tags.
func at(v reflect.Value, path string) reflect.Value {
	for _, step := range strings.FieldsFunc(path, func(r rune) bool { return r == '.' || r == '[' || r == ']' }) {
		if step == "0" {
			v = v.Index(0)
			continue
		}
		for _, f := range profiles.Fuels() {
			if f.PriceKey() == step {
				return v.FieldByName("Fuels").MapIndex(reflect.ValueOf(f.Name)).Elem()
			}
		}
		for i := range v.NumField() {
			if v.Type().Field(i).Tag.Get("key") == step {
				v = v.Field(i)
				break
			}
		}
	}
	return v
}

// plain is a value with a word, or a list of words, of any type as one of texts.
func plain(v reflect.Value) any {
	switch {
	case v.Kind() == reflect.String:
		return v.String()
	case v.Kind() == reflect.Slice && v.Type().Elem().Kind() == reflect.String:
		var words []string
		for i := range v.Len() {
			words = append(words, v.Index(i).String())
		}
		return words
	}
	return v.Interface()
}

func TestRead_EverydayInput(t *testing.T) {
	for _, c := range everydayValues {
		house, err := home.Read([]byte(homeWith(c.path, c.text)), "home.yaml")
		if !assert.NoError(t, err, "%s: %s", c.path, c.text) {
			continue
		}
		got := at(reflect.ValueOf(house).Elem(), c.path)
		if limit, ok := got.Interface().(units.Limit); ok {
			got = reflect.ValueOf(limit.Most())
		}
		if got.Kind() == reflect.Float64 {
			assert.InDelta(t, reflect.ValueOf(c.want).Float(), got.Float(), 1e-9, "%s: %s", c.path, c.text)
		} else {
			assert.EqualValues(t, c.want, plain(got), "%s: %s", c.path, c.text)
		}
		assert.Equal(t, c.says, house.Understood(c.path), "%s: %s", c.path, c.text)
	}
	house, err := home.Read([]byte("holdover: 1\nsite: {sun: {kwh_per_day: 12 kWh}}\ncircuits: [{name: A, running: 1 W, start: {code: G, hp: 1/2 hp}}]\n"), "home.yaml")
	require.NoError(t, err)
	assert.EqualValues(t, 12000, house.Site.Sun.PerDay)
	assert.Equal(t, 0.5, house.Circuits[0].Start.HP)
}

// What may mean two things is asked about, never guessed.
func TestRead_AsksAboutEverydayInput(t *testing.T) {
	for _, c := range [][3]string{
		{"outage.length", "30m", "30min?"}, {"outage.length", "a month", "how many days?"}, {"outage.start", "6", "6am or 6pm?"}, {"outage.start", "13pm", "hours go from 1 to 12"},
		{"outage.start", "25:00", "no clock time"}, {"limits.quiet", "10-7", "10am or 10pm?"}, {"limits.quiet", "10pm", "two different clock times"}, {"limits.quiet", "noon to 12:00", "two different"},
		{"limits.fuels", "[gas]", "gasoline or natural-gas?"}, {"limits.fuels", "gas", "gasoline or natural-gas?"}, {"limits.fuels", "propane,", "\"\" found"}, {"gear[0].fuel", "Gas", "gasoline or natural-gas?"}, {"site.gas.kind", "gas", "propane or natural-gas is accepted"},
		{"limits.budget", "1,5", "1.5, or a thousand, like 1,500?"}, {"limits.budget", "80 €", "US dollars; how many?"}, {"circuits[0].needs.gap", "0.02", "0.02 s, or 20 ms?"}, {"gear[0].gap", ".5", "500 ms?"},
		{"circuits[0].use", "3", "3 h a day, 3 min a day, or a share of the time like 35 %?"}, {"circuits[0].use", "25 h", "0 to 24 h a day"}, {"circuits[0].use", "30m a day", "30min?"}, {"circuits[0].use", "120 %", "0 to 100 %"},
		{"circuits[0].standby", "1/2 hp", "how many watts does it draw?"}, {"circuits[0].running", "20 hp", "goes from a fraction to 10 hp"}, {"circuits[0].running", "-1 hp", "goes from a fraction to 10 hp"},
		{"site.elevation", "20000 ft", "-1,411 to 18,045 ft is accepted"}, {"site.elevation", "6 km", "-0.43 to 5.5 km is accepted"}, {"site.elevation", "20000", "18,045 ft is accepted"},
	} {
		_, err := home.Read([]byte(homeWith(c[0], c[1])), "home.yaml")
		if assert.Error(t, err, "%s: %s", c[0], c[1]) {
			assert.Contains(t, err.Error(), c[2], "%s: %s", c[0], c[1])
			assert.Contains(t, err.Error(), c[0], "and its field is named")
		}
	}
	_, err := home.Read([]byte("holdover: 1\nlimits: {budget: 8,000}\n"+one), "home.yaml")
	assert.ErrorContains(t, err, "inside braces a comma ends a value")
}

// A motor's horsepower is what it gives at its shaft. What it draws is the full-load current of NEC Table 430.248: 9.8 A at 115 V
// and 4.9 A at 230 V for 1/2 hp, 20 A for 1 1/2 hp.
func TestRead_HorsepowerIsNotWhatAMotorDraws(t *testing.T) {
	for fields, want := range map[string]units.Watts{
		"running: 1/2 hp":                                            9.8 * 120 * 0.8,
		"running: ½ hp, volts: 240 V":                                4.9 * 240 * 0.8,
		"running: 1 1/2 hp, power_factor: 0.9":                       20 * 120 * 0.9,
		"like: sump-pump-third-hp, running: 0.33 hp":                 7.2 * 120 * 0.75,
		"running: 0.6 horsepower":                                    13.8 * 120 * 0.8, // the next size up
		"running: 1/2 hp, start: none, power_factor: 0.75, count: 2": 9.8 * 120 * 0.75,
	} {
		c := circuit(t, fields)
		assert.InDelta(t, float64(want), float64(c.Running), 1e-6, fields)
	}
	plain := circuit(t, "running: 1/2 hp")
	assert.Equal(t, home.Start{Kind: home.StartLetter, Letter: "L", HP: 0.5}, plain.Start, "a motor starts with a surge")
	assert.EqualValues(t, 1, plain.StartTime)
	assert.Equal(t, home.NoStart, circuit(t, "running: 1/2 hp, start: none").Start.Kind)
	assert.Equal(t, "M", circuit(t, "like: sump-pump-third-hp, running: 1/2 hp").Start.Letter, "the profile's start stays")
	house, err := home.Read([]byte("holdover: 1\ncircuits: [{name: A, running: 1/2 hp}]\n"), "home.yaml")
	require.NoError(t, err)
	assert.Equal(t, "9.8 A · 120 V · power factor 0.8 = 941 W (NEC Table 430.248 for 0.5 hp)", house.Understood("circuits[0].running"))
}

// The schema takes what the reader takes.
func TestSchema_TakesEverydayInput(t *testing.T) {
	var schema map[string]any
	require.NoError(t, json.Unmarshal(home.Schema(), &schema))
	inlined(schema["properties"], schema["definitions"].(map[string]any))
	for _, c := range everydayValues {
		if strings.HasPrefix(c.text, "[") {
			continue
		}
		assert.True(t, accepts(schemaAt(t, schema, c.path), c.text), "%s: %s", c.path, c.text)
	}
	assert.True(t, accepts(schemaAt(t, schema, "circuits[0].running"), "1 1/2 horsepower"))
	assert.False(t, accepts(schemaAt(t, schema, "circuits[0].standby"), "1/2 hp"))
	for _, word := range []string{"natural gas", "LPG", "Petrol", "propane"} {
		fuels := schemaAt(t, schema, "limits.fuels")
		items := fuels["anyOf"].([]any)[0].(map[string]any)["items"].(map[string]any)
		assert.True(t, accepts(fuels, word+", diesel"), word)
		assert.True(t, accepts(items, word), word)
		assert.False(t, accepts(items, "gas"))
	}
	for path, text := range map[string]string{"outage.length": "30m", "circuits[0].running": "1.5 kWh", "outage.start": "6 o'clock", "limits.budget": "8 kW", "site.elevation": "3 miles"} {
		assert.False(t, accepts(schemaAt(t, schema, path), text), "%s: %s", path, text)
	}
}

// schemaAt is the schema of the value at a path.
func schemaAt(t *testing.T, schema map[string]any, path string) map[string]any {
	for _, step := range strings.Split(path, ".") {
		key, list := strings.CutSuffix(step, "[0]")
		properties, ok := schema["properties"].(map[string]any)
		require.True(t, ok, path)
		schema = properties[key].(map[string]any)
		if list {
			schema = schema["items"].(map[string]any)
		}
	}
	return schema
}

// inlined puts the definitions where they are referred to.
func inlined(part any, definitions map[string]any) any {
	switch part := part.(type) {
	case map[string]any:
		if ref, ok := part["$ref"].(string); ok {
			return definitions[strings.TrimPrefix(ref, "#/definitions/")]
		}
		for key, inner := range part {
			part[key] = inlined(inner, definitions)
		}
	case []any:
		for i := range part {
			part[i] = inlined(part[i], definitions)
		}
	}
	return part
}

// accepts says whether a schema takes a text, as far as the forms that ours has go.
func accepts(schema map[string]any, text string) bool {
	if forms, ok := schema["anyOf"].([]any); ok {
		for _, one := range forms {
			if accepts(one.(map[string]any), text) {
				return true
			}
		}
		return false
	}
	if words, ok := schema["enum"].([]any); ok {
		for _, word := range words {
			if word == text {
				return true
			}
		}
		return false
	}
	switch schema["type"] {
	case "number", "integer":
		return regexp.MustCompile(`^[0-9]+(\.[0-9]+)?$`).MatchString(text) // YAML makes it a number
	case "string":
		pattern, _ := schema["pattern"].(string)
		pattern = strings.NewReplacer(`\u00a0`, "\u00a0", `\u202f`, "\u202f", `\u2009`, "\u2009").Replace(pattern)
		return regexp.MustCompile(pattern).MatchString(text)
	}
	return false
}
