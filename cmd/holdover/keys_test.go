package main

import (
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/profiles"
)

const (
	keysBegin = "<!-- the keys, written by go test ./cmd/holdover -update -->\n"
	keysEnd   = "<!-- end of the keys -->\n"
)

// within are the entries inside a section that have keys of their own.
var within = map[string][]string{"circuits": {"needs", "heater", "tank", "pit"}, "site": {"runs", "gas"}}

// TestREADMEListsEveryKey keeps the README's list of keys what the reader of home files accepts. Renew it with -update.
func TestREADMEListsEveryKey(t *testing.T) {
	text := readme(t)
	before, rest, ok := strings.Cut(text, keysBegin)
	require.True(t, ok)
	_, after, ok := strings.Cut(rest, keysEnd)
	require.True(t, ok)
	want := before + keysBegin + "\n" + keyTables() + "\n" + keysEnd + after
	if *update {
		require.NoError(t, os.WriteFile("../../README.md", []byte(want), 0o644))
		return
	}
	assert.True(t, want == text, "the README's keys are out of date; renew them with -update")
}

func keyTables() string {
	defaults := map[string]string{}
	for _, d := range profiles.Defaults() {
		defaults[d.Key] = d.Value.Value
		for _, item := range d.Value.Content {
			defaults[d.Key] = strings.TrimPrefix(defaults[d.Key]+", "+item.Value, ", ")
		}
	}
	var b strings.Builder
	b.WriteString("| key | unit | meaning | unless given |\n| --- | --- | --- | --- |\n")
	for _, section := range home.FieldsOf("") {
		if section.Key == "holdover" {
			continue
		}
		writeKeys(&b, section.Key, "**"+section.Key+"**", section.Doc, defaults)
		for _, entry := range within[section.Key] {
			writeKeys(&b, entry, "**"+entry+"** of "+section.Key, "", nil)
		}
	}
	return b.String()
}

func writeKeys(b *strings.Builder, section, title, doc string, defaults map[string]string) {
	fmt.Fprintf(b, "| %s | | %s | |\n", title, doc)
	for _, f := range home.FieldsOf(section) {
		unit := ""
		if f.Dimension != nil {
			unit = f.Dimension.Base
			if f.Dimension.BySystem() {
				unit = f.Dimension.BareUnit(units.US) + " or " + unit
			}
		}
		fmt.Fprintf(b, "| `%s` | %s | %s%s | %s |\n", f.Key, unit, f.Doc, words(f), defaults[section+"."+f.Key])
	}
}

// words lists what a key accepts where its meaning does not say so.
func words(f home.Field) string {
	for _, word := range f.Words {
		if !strings.Contains(f.Doc, word) {
			return ": " + strings.Join(f.Words, ", ")
		}
	}
	return ""
}

// TestEveryAssumeHomeOverrulesEachKey keeps that home true to its name.
func TestEveryAssumeHomeOverrulesEachKey(t *testing.T) {
	house, err := home.ReadFile("../../testdata/homes/every-assume.yaml")
	require.NoError(t, err)
	for _, f := range home.FieldsOf("assume") {
		assert.True(t, house.Given("assume."+f.Key), f.Key)
	}
}
