package edit

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

// longList writes n lines of items.
func longList(n int) string {
	var b strings.Builder
	for i := range n {
		fmt.Fprintf(&b, "  - x%d\n", i)
	}
	return b.String()
}

// What looks like items inside a quote must not be taken for items.
func TestThin_ItemsInsideQuotes(t *testing.T) {
	texts := map[string]string{
		"a key that is none":      "a: \"\n\ncircuits:\n" + longList(50) + "\"\nb: 1\n",
		"a key that is elsewhere": "circuits:\n" + longList(4) + "a: \"\n\ncircuits:\n" + longList(50) + "\"\nb: 1\n",
	}
	for name, text := range texts {
		t.Run(name, func(t *testing.T) {
			_, ok := runThin([]byte(text), edit{verb: set, path: Path{"b"}, value: "2"})
			assert.False(t, ok)
			out, err := Set([]byte(text), Path{"b"}, "2")
			require.NoError(t, err)
			assert.Equal(t, strings.Replace(text, "b: 1", "b: 2", 1), string(out))
		})
	}
}

// Lines with a dash inside one item's quotes must not shift the count of items.
func TestThin_DashesInsideAnItem(t *testing.T) {
	for _, inner := range []string{"  - \"q\n  - r\"\n", "  - \"q\n  - r\n  - s\n  - t\n  - \"\n"} {
		src := []byte("circuits:\n" + longList(10) + inner + longList(30))
		e := edit{verb: set, path: Path{"circuits", 25}, value: "found"}
		want, err := inFull(src, e)
		require.NoError(t, err)
		if got, ok := runThin(src, e); ok {
			assert.Equal(t, string(want), string(got))
		}
	}
}

// Lines start at bytes 3, 9 and 15.
func TestSeams_ProvedByTheParser(t *testing.T) {
	d, err := read([]byte("c:\n  - a\n  - b\n  - c\n"))
	require.NoError(t, err)
	a, b, c := seam{"c", 3, 2, 0}, seam{"c", 9, 2, 0}, seam{"c", 15, 2, 7}
	assert.NoError(t, d.checkItems([]seam{a, b, c}))
	assert.ErrorIs(t, d.checkItems([]seam{a, b}), errSeam, "an item that was not kept")
	assert.ErrorIs(t, d.checkItems([]seam{a, b, {"c", 14, 2, 7}}), errSeam, "no item begins there")
	assert.NoError(t, d.checkSeams([]seam{a, b, c}, nil))
	assert.NoError(t, d.checkSeams([]seam{{"c", 10, 2, 7}}, []patch{{4, 5, ""}}), "one byte less before it")
	assert.ErrorIs(t, d.checkSeams([]seam{c}, []patch{{4, 5, ""}}), errSeam, "no item begins there now")
	assert.ErrorIs(t, d.checkSeams([]seam{c}, []patch{{15, 15, ""}}), errSeam, "a paste at the seam itself")
	assert.ErrorIs(t, d.checkSeams([]seam{c}, []patch{{14, 16, "xx"}}), errSeam, "a cut across the seam")
}

// A cut that ends where text was left out must not take that text with it.
func TestThin_CutBesideSeam(t *testing.T) {
	short := thinned{seams: []seam{{at: 5, gone: 10}}}
	assert.Equal(t, patch{2, 5, ""}, short.inFull(patch{2, 5, ""}))
	assert.Equal(t, patch{15, 17, ""}, short.inFull(patch{5, 7, ""}))
	assert.Equal(t, patch{2, 16, ""}, short.inFull(patch{2, 6, ""}))
}

func TestEqual_TellsTextFromNumber(t *testing.T) {
	number, err := fragment("5")
	require.NoError(t, err)
	text, err := fragment(`"5"`)
	require.NoError(t, err)
	assert.False(t, equal(number, text))
	assert.True(t, equal(number, number))
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
