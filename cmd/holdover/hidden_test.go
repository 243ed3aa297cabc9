package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"holdover/loads/visible"
)

// trick draws a name that holds a hidden character: among letters, at an edge, beside another.
func trick(t *rapid.T, label string) string {
	hidden := rapid.SampledFrom([]rune("\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069\u200e\u200f\u061c\u200b\u200c\u200d" +
		"\u2060\ufeff\u00ad\ufe0e\ufe0f\U000e0001\U000e0041\U000e007f\u2028\u2029\u3164\u034f\u180e\ufff9\ue000"))
	letter := rapid.SampledFrom([]rune("abé冷 👨❄"))
	return label + string(rapid.SliceOfN(rapid.OneOf(hidden, letter), 0, 6).Draw(t, label)) + string(hidden.Draw(t, label)) +
		string(rapid.SliceOfN(letter, 0, 2).Draw(t, label))
}

// trickHome is a home every name of which holds hidden characters: as escapes of YAML, as all of them can be written.
func trickHome(t *rapid.T) string {
	quoted := func(label string) string { return strconv.QuoteToASCII(trick(t, label)) }
	pump := quoted("Pump")
	return fmt.Sprintf(`holdover: 1
home: {name: %s}
site: {runs: [{name: %s, length: 20 m}]}
outage: {length: 24 h}
circuits:
  - {name: %s, like: well-pump-half-hp, care: rotate, volts: 120 V}
  - {name: %s, like: refrigerator, care: keep, shares_neutral_with: %s}
  - {name: %s, like: gas-instant-heater, care: %s}
gear:
  - {name: %s, kind: ups, watts: 900 W}
  - {name: %s, kind: generator, watts: 5 kW, fuel: gasoline}
`, quoted("House"), quoted("Run"), pump, quoted("Cold"), pump, quoted("Heater"), rapid.SampledFrom([]string{"keep", "rotate", "shed"}).Draw(t, "care"),
		quoted("Unit"), quoted("Engine"))
}

// showsAll fails on a hidden character that is not written as its code point.
func showsAll(t require.TestingT, call, text string) {
	require.Equal(t, visible.Lines(text), text, call)
}

// call runs one call and gives what it printed on both streams.
func call(args ...string) (out, errs string, status int) {
	var o, e bytes.Buffer
	status = run(args, terminal{strings.NewReader(""), &o, &e})
	return o.String(), e.String(), status
}

// No verb prints a character that turns text around or that cannot be seen, in text or in JSON, whatever the home file holds
// and is called.
func TestNothingHiddenIsPrinted(t *testing.T) {
	folder := t.TempDir()
	rapid.Check(t, func(t *rapid.T) {
		path := filepath.Join(folder, "home\u202e\u200b.yaml")
		require.NoError(t, os.WriteFile(path, []byte(trickHome(t)), 0o644))
		args := rapid.SampledFrom([][]string{
			{"plan", path}, {"plan", "--json", path}, {"plan", path, "--against", path}, {"plan", path, "--against", path, "--json"},
			{"fit", path}, {"fit", path, "--json"}, {"scope", path}, {"scope", "--json", path}, {"why", path}, {"why", "load.running_w", "--all", path},
			{path},
		}).Draw(t, "args")
		out, errs, status := call(args...)
		require.Less(t, status, exitWrong, errs)
		showsAll(t, strings.Join(args, " "), out+errs)
		if slices.Contains(args, "--json") {
			require.True(t, json.Valid([]byte(out)))
			require.Contains(t, out, "<U+", "no name is shown")
		}
	})
}

// Nor does a message about a file or a call that is wrong.
func TestNothingHiddenIsInAFault(t *testing.T) {
	folder := t.TempDir()
	rapid.Check(t, func(t *rapid.T) {
		path := filepath.Join(folder, trick(t, "home")+".yaml")
		word := trick(t, "word")
		text := rapid.SampledFrom([]string{"%s: 1", "site: {%s: 1}", "site: {elevation: %s}", "outage: {start: %s}", "home: {service: %s}", "home: %s",
			"circuits: [{name: A, like: %s}]", "limits: {fuels: [%s]}"}).Draw(t, "text")
		text = strings.ReplaceAll(text, "%s", strconv.QuoteToASCII(word))
		require.NoError(t, os.WriteFile(path, []byte("holdover: 1\n"+text+"\n"), 0o644))
		args := rapid.SampledFrom([][]string{{"plan", path}, {"plan", path + word}, {word}, {"why", word}, {"profiles", word}, {"fit", "--circuit", word},
			{"plan", "--against", word}, {"plan", "--" + word}, {"plan", "--width", word}, {"completion", word}, {"fit", "--length", word}}).Draw(t, "args")
		out, errs, status := call(args...)
		assert.Equal(t, exitWrong, status)
		showsAll(t, strings.Join(args, " "), out+errs)
	})
}
