package splice

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gopkg.in/yaml.v3"
	"pgregory.net/rapid"
)

// inFull is the plain way: it parses the whole text.
func inFull(src []byte, e edit) ([]byte, error) {
	patches, err := patchesFor(src, e, nil)
	if err != nil {
		return nil, err
	}
	return apply(src, patches), nil
}

// drawLong makes two sequences of ten items each in mixed styles.
func drawLong(t *rapid.T) (string, *writer) {
	w := &writer{t: t}
	w.lines = []string{"home:", "  name: it's \"here\" [", "  # note"}
	for _, key := range []string{"circuits", "gear"} {
		w.put("%s:%s", key, w.tail())
		column := 2 * w.pick(2)
		for i := range 10 {
			head := w.heads(column)
			w.value(Path{key, i}, column, 1, spaces(column)+"-", 's', false, head)
		}
	}
	w.put("assume: {chemistry: lfp}")
	return strings.Join(w.lines, "\n") + "\n", w
}

// What the short way gives must be what the plain way gives, byte for byte.
func TestThin_AgreesWithFullParse_Property(t *testing.T) {
	shortened := 0
	rapid.Check(t, func(t *rapid.T) {
		text, w := drawLong(t)
		src := []byte(text)
		item := rapid.IntRange(0, 10).Draw(t, "item")
		spot := w.spots[w.pick(len(w.spots))].path
		e := rapid.SampledFrom([]edit{
			{verb: set, path: spot, value: "7 kW"},
			{verb: set, path: Path{"home", "name"}, value: "7 kW"},
			{verb: set, path: Path{"site", "name"}, value: "7 kW"},
			{verb: remove, path: spot},
			{verb: insert, path: Path{"circuits"}, from: item, item: []Entry{{"name", "New"}}},
			{verb: insert, path: Path{"gear"}, from: item, item: []Entry{{"name", "New"}}},
			{verb: move, path: Path{"circuits"}, from: item, to: w.pick(10)},
			{verb: set, path: Path{"circuits"}, value: "[]"},
			{verb: remove, path: Path{"gear"}},
		}).Draw(t, "edit")
		want, err := inFull(src, e)
		got, ok := runThin(src, e)
		if !ok {
			return
		}
		shortened++
		require.NoError(t, err)
		require.Equal(t, string(want), string(got), "%s\n%s", e.path, text)
	})
	assert.Positive(t, shortened)
}

// Closed are lines that surely leave nothing open; open those that do, or that are doubtful.
func TestCloses(t *testing.T) {
	closed := []string{"", "   ", "# it's \"", "  - name: Kid's lamp   # the maker's", "a: {b: [1, 2], c: \"}\"} # {", "- {name: 'x, y'}",
		"a: 'q'", "running: 150 W", "\"k\": 1", "note: |"}
	open := []string{"a: \"x", "a: 'x", "a: [1,", "a: {b: 1", "- 'it''s", `a: "x\"`, "a: [1, # ]", "a: b [", "}", "a: &x 1", "a: *x", "a: !!str \"x",
		"a: b\t# \"", "? \"x", "a: 'x' y '", "a: ({'", "a: b#'c"}
	for _, line := range closed {
		assert.True(t, closes([]byte(line)), "%q", line)
	}
	for _, line := range open {
		assert.False(t, closes([]byte(line)), "%q", line)
	}
}

// longHome is a home file of 1,000 circuits, about 300 kB.
func longHome() []byte {
	var b strings.Builder
	b.WriteString("holdover: 1\nhome:\n  name: Alder Row 12\ncircuits:\n")
	for i := range 1000 {
		fmt.Fprintf(&b, "  # circuit %d, the owner's wish\n  - name: Circuit %d\n    like: refrigerator          # a profile\n    care: keep\n", i, i)
		b.WriteString("    volts: 120 V\n    running: 150 W\n    start: {times: 4}\n    use: {duty: 0.35}\n    breaker: 15 A\n    leg: \"auto\"\n")
		b.WriteString("    needs: {wave: sine, gap: 20 ms, earthed_neutral: false, can_wait: 4 h}\n\n")
	}
	b.WriteString("assume: {chemistry: lfp}\n")
	return []byte(b.String())
}

func longEdits() map[string]edit {
	return map[string]edit{
		"set":    {verb: set, path: Path{"circuits", 500, "running"}, value: "90 W"},
		"add":    {verb: set, path: Path{"circuits", 999, "count"}, value: "2"},
		"home":   {verb: set, path: Path{"home", "units"}, value: "si"},
		"delete": {verb: remove, path: Path{"circuits", 10}},
		"insert": {verb: insert, path: Path{"circuits"}, from: 700, item: []Entry{{"name", "New"}, {"like", "fan"}}},
		"move":   {verb: move, path: Path{"circuits"}, from: 3, to: 990},
	}
}

func TestThin_LongHome(t *testing.T) {
	src := longHome()
	for name, e := range longEdits() {
		t.Run(name, func(t *testing.T) {
			short, ok := thin(src, e)
			require.True(t, ok)
			assert.Less(t, len(short.text), 6000, "bytes left to parse")
			got, ok := runThin(src, e)
			require.True(t, ok)
			want, err := inFull(src, e)
			require.NoError(t, err)
			assert.True(t, string(want) == string(got))
			var doc yaml.Node
			require.NoError(t, yaml.Unmarshal(got, &doc))
		})
	}
}

// A quote that stays open over items must not be taken for items.
func TestThin_ItemsInsideQuotes(t *testing.T) {
	var b strings.Builder
	b.WriteString("a: \"\n\ncircuits:\n")
	for i := range 50 {
		fmt.Fprintf(&b, "  - x%d\n", i)
	}
	b.WriteString("\"\nb: 1\n")
	src := []byte(b.String())
	_, ok := runThin(src, edit{verb: set, path: Path{"b"}, value: "2"})
	assert.False(t, ok)
	out, err := Set(src, Path{"b"}, "2")
	require.NoError(t, err)
	assert.Equal(t, strings.Replace(b.String(), "b: 1", "b: 2", 1), string(out))
}

func BenchmarkLongHome(b *testing.B) {
	src := longHome()
	b.Logf("%d bytes", len(src))
	for name, e := range longEdits() {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				if _, err := run(src, e); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
