package home_test

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/rivo/uniseg"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"holdover/loads"
	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/profiles"
)

const one = "circuits:\n  - {name: A, running: 100 W}\n"

func faultsOf(t *testing.T, text string) home.Faults {
	t.Helper()
	house, err := home.Read([]byte(text), "home.yaml")
	require.Error(t, err, text)
	assert.Nil(t, house)
	var faults home.Faults
	require.True(t, errors.As(err, &faults))
	return faults
}

// Each bad file gives the line and field at fault, and says what was found or is accepted.
func TestRead_BadFiles(t *testing.T) {
	for name, c := range map[string]struct {
		text, field, message string
		line                 int
	}{
		"empty":                {"", "", "the file is empty", 1},
		"only a comment":       {"# nothing\n", "", "empty", 1},
		"a list":               {"- a\n", "", "a list found", 1},
		"not YAML":             {"holdover: 1\nhome: [\n", "", "not well-formed", 0},
		"tab":                  {"holdover: 1\nhome:\n\tname: A\n", "", "a tab indents", 3},
		"two documents":        {"holdover: 1\n" + one + "---\nholdover: 1\n", "", "second document", 4},
		"anchor":               {"holdover: &v 1\n" + one, "", "anchor or alias", 1},
		"byte":                 {"holdover: 1\n# \xff\n" + one, "", "0xff is not UTF-8", 2},
		"control character":    {"holdover: 1\n# \x07\n" + one, "", "control character", 2},
		"version missing":      {one, "holdover", "version is missing", 1},
		"version of tomorrow":  {"holdover: 2\n" + one, "holdover", "", 1},
		"no circuits":          {"holdover: 1\nhome: {name: A}\n", "circuits", "no circuits", 1},
		"empty circuits":       {"holdover: 1\ncircuits: []\n", "circuits", "no circuits", 2},
		"unknown key":          {"holdover: 1\nhome:\n  nmae: A\n" + one, "home.nmae", "did you mean name", 3},
		"unknown section":      {"holdover: 1\nsiet: {}\n" + one, "siet", "did you mean site", 2},
		"repeated key":         {"holdover: 1\nsite:\n  humidity: 0.2\n  humidity: 0.3\n" + one, "site.humidity", "first on line 3", 4},
		"NaN":                  {"holdover: 1\nsite: {humidity: .nan}\n" + one, "site.humidity", "", 2},
		"infinity":             {"holdover: 1\nsite: {elevation: .inf}\n" + one, "site.elevation", "", 2},
		"overflow in its unit": {"holdover: 1\ncircuits:\n  - {name: A, running: 1e308 MW}\n", "circuits[0].running", "", 3},
		"out of range":         {"holdover: 1\nsite: {humidity: 1.5}\n" + one, "site.humidity", "1.5", 2},
		"percent beyond range": {"holdover: 1\nsite: {humidity: 130 %}\n" + one, "site.humidity", "130", 2},
		"wrong quantity":       {"holdover: 1\ncircuits:\n  - name: A\n    running: 1.5 kWh\n", "circuits[0].running", "is an energy; a power is wanted", 4},
		"unknown unit":         {"holdover: 1\nsite: {elevation: 3 miles}\n" + one, "site.elevation", "unknown unit", 2},
		"a list for a value":   {"holdover: 1\nsite: {elevation: [1]}\n" + one, "site.elevation", "a single value", 2},
		"a value for a list":   {"holdover: 1\ncircuits: 3\n", "circuits", "a list is wanted", 2},
		"null":                 {"holdover: 1\nsite: {elevation: }\n" + one, "site.elevation", "nothing found", 2},
		"a word for a choice":  {"holdover: 1\noutage: {season: autumn}\n" + one, "outage.season", "winter, summer or mild", 2},
		"clock":                {"holdover: 1\noutage: {start: \"25:00\"}\n" + one, "outage.start", "18:00", 2},
		"quiet hours":          {"holdover: 1\nlimits: {quiet: \"22:00\"}\n" + one, "limits.quiet", "22:00-07:00", 2},
		"service":              {"holdover: 1\nhome: {service: 400 V}\n" + one, "home.service", "120/240 V", 2},
		"length zero":          {"holdover: 1\noutage: {length: 0 h}\n" + one, "outage.length", "", 2},
		"engine":               {"holdover: 1\nassume: {engine: steam}\n" + one, "assume.engine", "spark-liquid-natural", 2},
		"derate":               {"holdover: 1\nassume: {engine_derate: 1.2}\n" + one, "assume.engine_derate", "rule-of-thumb", 2},
		"no fuel":              {"holdover: 1\nlimits: {fuels: []}\n" + one, "limits.fuels", "no fuel", 2},
		"cold above hot":       {"holdover: 1\nsite:\n  coldest: 40 C\n  hottest: 20 C\n" + one, "site.coldest", "above the high", 3},
		"name missing":         {"holdover: 1\ncircuits:\n  - {running: 5 W}\n", "circuits[0].name", "missing", 3},
		"name twice":           {"holdover: 1\n" + one + "  - {name: A, running: 1 W}\n", "circuits[1].name", "line 3", 4},
		"running missing":      {"holdover: 1\ncircuits:\n  - {name: A}\n", "circuits[0].running", "missing", 3},
		"running twice":        {"holdover: 1\ncircuits:\n  - {name: A, running: 5 W, running_amps: 1 A}\n", "circuits[0]", "keep one", 3},
		"profile":              {"holdover: 1\ncircuits:\n  - {name: A, like: refrigeratr}\n", "circuits[0].like", "did you mean refrigerator?", 3},
		"care":                 {"holdover: 1\ncircuits:\n  - {name: A, running: 1 W, care: maybe}\n", "circuits[0].care", "keep, rotate or shed", 3},
		"start of two kinds":   {"holdover: 1\ncircuits:\n  - {name: A, running: 1 W, start: {times: 3, amps: 5 A}}\n", "circuits[0].start", "exactly one", 3},
		"start word":           {"holdover: 1\ncircuits:\n  - {name: A, running: 1 W, start: hard}\n", "circuits[0].start", "none", 3},
		"letter":               {"holdover: 1\ncircuits:\n  - {name: A, running: 1 W, start: {code: I, hp: 1}}\n", "circuits[0].start.code", "no code letter of a motor", 3},
		"letter without bound": {"holdover: 1\ncircuits:\n  - {name: A, running: 1 W, start: {code: V, hp: 1}}\n", "circuits[0].start.code", "no upper bound", 3},
		"letter without hp":    {"holdover: 1\ncircuits:\n  - {name: A, running: 1 W, start: {code: G}}\n", "circuits[0].start.hp", "hp", 3},
		"23 hours":             {"holdover: 1\ncircuits:\n  - {name: A, running: 1 W, use: {hours: [0, 1]}}\n", "circuits[0].use.hours", "24", 3},
		"heating without output": {"holdover: 1\nhome: {heat_loss: 200}\ncircuits:\n  - {name: A, running: 1 W, use: heating}\n", "circuits[0].output",
			"output", 4},
		"240 V on 120 V":    {"holdover: 1\nhome: {service: 120 V}\ncircuits:\n  - {name: A, running: 1 W, volts: 240 V}\n", "circuits[0].volts", "120 V service", 4},
		"leg of a 240":      {"holdover: 1\ncircuits:\n  - {name: A, running: 1 W, volts: 240 V, leg: A}\n", "circuits[0].leg", "one leg", 3},
		"partner nowhere":   {"holdover: 1\ncircuits:\n  - {name: A, running: 1 W, shares_neutral_with: B}\n", "circuits[0].shares_neutral_with", "no circuit is called", 3},
		"partner itself":    {"holdover: 1\ncircuits:\n  - {name: A, running: 1 W, shares_neutral_with: A}\n", "circuits[0].shares_neutral_with", "itself", 3},
		"guard upside down": {"holdover: 1\ncircuits:\n  - {name: A, heater: {firing: 5, guard_from: 0 C, guard_full: 2 C}}\n", "circuits[0].heater.guard_full", "cut-in", 3},
		"runtime":           {"holdover: 1\n" + one + "gear:\n  - {name: U, kind: ups, runtimes: [[50%]]}\n", "gear[0].runtimes[0]", "a pair", 5},
	} {
		t.Run(name, func(t *testing.T) {
			faults := faultsOf(t, c.text)
			i := slices.IndexFunc(faults, func(f home.Fault) bool {
				return f.Field == c.field && strings.Contains(f.Message, c.message) && (c.line == 0 || f.Line == c.line)
			})
			assert.GreaterOrEqual(t, i, 0, "want line %d, %s: …%s… in\n%v", c.line, c.field, c.message, faults)
			for _, f := range faults {
				assert.NotEmpty(t, f.Message)
				assert.Equal(t, "home.yaml", f.File)
			}
		})
	}
}

// One slip is one fault: what was faulted where it was read is not faulted again for what follows from it.
func TestRead_OneSlipIsOneFault(t *testing.T) {
	for text, message := range map[string]string{
		"{name: A, running: 5 W, running: 6 W}":       "the key stands twice",
		"{name: A, running_amps: 5, running_amps: 6}": "the key stands twice",
		`{name: "A\u001b[31m", running: 5 W}`:         "control character",
		`{name: "", running: 5 W}`:                    "empty text found",
		"{name: [A], running: 5 W}":                   "a single value",
		"{running: 5 W}":                              "the name is missing",
	} {
		faults := faultsOf(t, "holdover: 1\ncircuits:\n  - "+text+"\n")
		require.Len(t, faults, 1, "%s: %v", text, faults)
		assert.Contains(t, faults[0].Message, message, text)
	}
	assert.Contains(t, faultsOf(t, "\n---\n...\n")[0].Message, "nothing found")
}

// All faults come at once, in the order of their lines, each on a line of its own.
func TestRead_AllFaultsAtOnce(t *testing.T) {
	faults := faultsOf(t, `holdover: 1
site: {humidity: 3, elevation: high}
outage: {season: autumn}
circuits:
  - {name: A, running: 1 kWh}
  - {name: A, running: 5 W, leg: C}
assume: {chemistry: zinc}
`)
	var fields []string
	for i, f := range faults {
		fields = append(fields, f.Field)
		if i > 0 {
			assert.GreaterOrEqual(t, f.Line, faults[i-1].Line)
		}
	}
	assert.Subset(t, fields, []string{"site.humidity", "site.elevation", "outage.season", "circuits[0].running", "circuits[1].name", "circuits[1].leg", "assume.chemistry"})
	assert.Len(t, strings.Split(faults.Error(), "\n"), len(faults))
	assert.True(t, strings.HasPrefix(faults.Error(), "home.yaml:2: site.humidity: "), faults.Error())
}

// A file wrong from end to end is told so in a hundred lines and a count, whatever its size: what is not shown is not kept.
func TestFaults_AreBounded(t *testing.T) {
	for text, more := range map[string]string{
		"holdover: 1\ncircuits:\n" + strings.Repeat("  - {name: A}\n", 400):                "and 699 more faults",
		"holdover: 1\nsite:\n" + strings.Repeat("  a: 1\n", 100) + "circuits: [{name: A}]": "and 1 more fault",
		"holdover: 1\n" + strings.Repeat("a: 1\n", 100_000):                                "and 99,901 more faults",
	} {
		faults := faultsOf(t, text)
		require.Len(t, faults, 101)
		assert.Equal(t, home.Fault{File: "home.yaml", Message: more}, faults[100])
		lines := strings.Split(faults.Error(), "\n")
		assert.Len(t, lines, 101)
		assert.Equal(t, "home.yaml: "+more, lines[100])
	}
	assert.Len(t, faultsOf(t, "holdover: 1\nsite:\n"+strings.Repeat("  a: 1\n", 99)+"circuits: [{name: A}]"), 100, "a hundred are shown whole")
}

// What a message quotes of a file is a screen wide at most, and what it says about it is still there.
func TestFaults_QuoteNoMoreThanAScreen(t *testing.T) {
	digits, letters := strings.Repeat("7", 5000), strings.Repeat("k", 100_000)
	for text, says := range map[string]string{
		"site: {elevation: " + digits + "}":                                         "is too large a number",
		"site: {elevation: " + digits + " kWh}":                                     "is too large a number",
		"site: {elevation: 3 " + letters + "}":                                      "has the unknown unit",
		"site: {humidity: " + digits + "}":                                          "is too large a number",
		"site: {coldest: 0" + strings.Repeat("0", 5000) + "40 C, hottest: 10 C}":    "is above the high, 10 C",
		"site:\n  ? " + letters + "\n  : 1":                                         "unknown key",
		"site:\n  ? \"" + strings.Repeat(`\u202e`, 5000) + "\"\n  : 1":              "unknown key",
		"outage: {start: " + digits + "}":                                           "is no clock time, like",
		"outage: {season: " + letters + "}":                                         "winter, summer or mild is accepted",
		"home: {service: " + letters + "}":                                          "120/240 V",
		"assume: {engine: " + letters + "}":                                         "spark-gas-natural",
		"home: " + letters:                                                          "a mapping of keys is wanted",
		"circuits: [{name: A, like: " + letters + "}]":                              "no profile is called",
		"circuits: [{name: A, running: 1 W, use: " + letters + "}]":                 "is accepted",
		"circuits: [{name: A, running: 1 W, count: " + digits + "}]":                "is not a whole number",
		"circuits: [{name: A, running: 1 W, shares_neutral_with: " + letters + "}]": "at most are accepted",
		"site: *" + letters:                                                         "unknown anchor",
	} {
		faults := faultsOf(t, "holdover: 1\n"+text+"\n")
		assert.Contains(t, faults.Error(), says)
		for _, f := range faults {
			assert.Less(t, uniseg.StringWidth(f.Message), 480, "%.300s", f.Message)
			assert.LessOrEqual(t, uniseg.StringWidth(f.Field), 80, "%.300s", f.Field)
		}
	}
}

func TestNames_HaveTwoHundredLetters(t *testing.T) {
	whole, more := strings.Repeat("ü", 200), strings.Repeat("ü", 201)
	text := "holdover: 1\nhome: {name: %[1]s}\nsite: {runs: [{name: %[1]s, length: 3 m}]}\ngear: [{name: %[1]s, kind: ups}]\n" +
		"circuits:\n  - {name: %[1]s, running: 1 W}\n  - {name: B, running: 1 W, shares_neutral_with: %[1]s}\n"
	_, err := home.Read(fmt.Appendf(nil, text, whole), "home.yaml")
	require.NoError(t, err)
	var fields []string
	for _, f := range faultsOf(t, fmt.Sprintf(text, more)) {
		fields = append(fields, f.Field)
		assert.Contains(t, f.Message, "is 201 characters long; 200 at most are accepted")
	}
	assert.Equal(t, []string{"home.name", "site.runs[0].name", "gear[0].name", "circuits[0].name", "circuits[1].shares_neutral_with"}, fields)
	_, err = home.ReadGear(fmt.Appendf(nil, "[{name: %s, kind: ups}]", more), "sheet.yaml", units.US)
	assert.ErrorContains(t, err, "201 characters")
	assert.Contains(t, string(home.Schema()), `"maxLength": 200`)
}

// A name that is refused is one fault: whoever shares a neutral with that circuit is not told of a third that cannot join.
func TestNames_RefusedOnesMakeNoPairs(t *testing.T) {
	for name, says := range map[string]string{strings.Repeat("k", 201): "is 201 characters long", `" "`: "empty text found", `"a\tb"`: "control character"} {
		faults := faultsOf(t, fmt.Sprintf("holdover: 1\ncircuits:\n  - {name: %[1]s, running: 1 W, shares_neutral_with: B}\n  - {name: B, running: 1 W}\n"+
			"  - {name: %[1]s, running: 1 W, shares_neutral_with: C}\n  - {name: C, running: 1 W}\n", name))
		require.Len(t, faults, 2, "%v", faults)
		assert.Equal(t, "circuits[0].name", faults[0].Field)
		assert.Equal(t, "circuits[2].name", faults[1].Field)
		assert.Contains(t, faults[0].Message, says)
	}
	twice := faultsOf(t, "holdover: 1\ncircuits:\n  - {name: A, running: 1 W, shares_neutral_with: B}\n  - {name: B, running: 1 W}\n"+
		"  - {name: A, running: 1 W, shares_neutral_with: C}\n  - {name: C, running: 1 W}\n")
	require.Len(t, twice, 1, "%v", twice)
	assert.Equal(t, "circuits[2].name", twice[0].Field)
	third := faultsOf(t, "holdover: 1\ncircuits:\n  - {name: \" \", running: 1 W, shares_neutral_with: B}\n  - {name: B, running: 1 W}\n"+
		"  - {name: C, running: 1 W, shares_neutral_with: B}\n")
	require.Len(t, third, 2, "%v", third)
	assert.Equal(t, `"B" shares its neutral with circuits[0] already; a third cannot join`, third[1].Message)
}

// A list is held to a length before room is made for it: 2 bytes of the file would else take hundreds.
func TestLists_AreBounded(t *testing.T) {
	faults := faultsOf(t, "holdover: 1\ncircuits: ["+strings.Repeat("1,", 10_001)+"]\n")
	assert.Equal(t, "home.yaml:2: circuits: 10,001 entries found; 10,000 at most are accepted", faults.Error())
}

func TestRead_DemoIsSound(t *testing.T) {
	house, err := home.Read(profiles.Demo(), "demo.yaml")
	require.NoError(t, err)
	assert.Equal(t, "demo.yaml", house.FileName())
	assert.NotEmpty(t, house.Circuits)
}

func FuzzRead(f *testing.F) {
	f.Add(string(profiles.Demo()))                                                                    // a whole home
	f.Add("holdover: 1\n" + one)                                                                      // the least there is
	f.Add("holdover: 1\ncircuits:\n  - {name: A, like: refrigerator, start: none, use: {duty: 1}}\n") // a profile
	f.Add("holdover: 1\ncircuits:\n  - [A]\n  - \n  - 3\n")                                           // entries of the wrong shape
	f.Add("circuits: {name: A}\ncircuits: [{name: B, heater: }]\n")                                   // keys twice
	f.Add("? [a]\n: {b: !!binary x}\n<<: 3\n")                                                        // YAML that people never write
	f.Fuzz(func(t *testing.T, text string) {
		house, err := home.Read([]byte(text), "f")
		if (house == nil) == (err == nil) {
			t.Fatalf("home %v, error %v", house, err)
		}
		if err == nil {
			loads.Work(house)
			return
		}
		var faults home.Faults
		if !errors.As(err, &faults) || len(faults) == 0 {
			t.Fatalf("no faults: %v", err)
		}
		for i, fault := range faults {
			if fault.Message == "" || fault.File != "f" || (i > 0 && fault.Line < faults[i-1].Line) {
				t.Errorf("%+v", fault)
			}
		}
	})
}
