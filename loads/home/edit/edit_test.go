package edit

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

type editing struct {
	name, before, after string
	do                  func(src []byte) ([]byte, error)
}

func setTo(value string, path ...any) func([]byte) ([]byte, error) {
	return func(src []byte) ([]byte, error) { return Set(src, path, value) }
}

func deleted(path ...any) func([]byte) ([]byte, error) {
	return func(src []byte) ([]byte, error) { return Delete(src, path) }
}

func withNew(index int, path ...any) func([]byte) ([]byte, error) {
	item := []Entry{{"name", "New"}, {"like", "fan"}}
	return func(src []byte) ([]byte, error) { return Insert(src, path, index, item) }
}

func moved(from, to int, path ...any) func([]byte) ([]byte, error) {
	return func(src []byte) ([]byte, error) { return Move(src, path, from, to) }
}

func runEditings(t *testing.T, table []editing) {
	for _, c := range table {
		t.Run(c.name, func(t *testing.T) {
			src := []byte(c.before)
			out, err := c.do(src)
			require.NoError(t, err)
			assert.Equal(t, c.after, string(out))
			assert.Equal(t, c.before, string(src), "the input must not change")
		})
	}
}

func TestSet_ExistingValue(t *testing.T) {
	runEditings(t, []editing{
		{"comment keeps its column", "a: 150 W   # c\nb: 2\n", "a: 75 W    # c\nb: 2\n", setTo("75 W", "a")},
		{"long value pushes the comment", "a: 1 # c\n", "a: 150000 # c\n", setTo("150000", "a")},
		{"no text", "a:   # c\nb: 2\n", "a: 1 # c\nb: 2\n", setTo("1", "a")},
		{"no text in flow", "a: {b, c: , d: 1}\n", "a: {b, c: 1 , d: 1}\n", setTo("1", "a", "c")},
		{"key alone in flow", "a: {b, c: 2}\n", "a: {b: 1, c: 2}\n", setTo("1", "a", "b")},
		{"tight flow", `a: {"b":1}`, `a: {"b": x}`, setTo("x", "a", "b")},
		{"in broken flow", "a: {b: 1, # b\n    c: [1, 2]} # c\n", "a: {b: 1, # b\n    c: [1, 9]} # c\n", setTo("9", "a", "c", 1)},
		{"literal", "a: | # h\n  x\n\n  # y\n\nb: 1\n", "a: 9 # h\n\nb: 1\n", setTo("9", "a")},
		{"literal with indent digit", "a: |2-\n    x\n  y\nb: 1\n", "a: 9\nb: 1\n", setTo("9", "a")},
		{"indented literal with indent digit", "a:\n  b: |2\n      x\n  # c\n  d: 1\n", "a:\n  b: 9\n  # c\n  d: 1\n", setTo("9", "a", "b")},
		{"literal keeping blank lines", "a: |+\n  x\n\nb: 1\n", "a: |+\n  x\n\nb: 9\n", setTo("9", "b")},
		{"literal at the end", "a: >\n  x\n  y", "a: 9\n", setTo("9", "a")},
		{"plain over lines", "a: x\n  y\n\n  z # c\nb: 1\n", "a: 9 # c\nb: 1\n", setTo("9", "a")},
		{"double quotes over lines", "a: \"x\\\" # no\n\n  y\" # c\nb: 1\n", "a: 9 # c\nb: 1\n", setTo("9", "a")},
		{"single quotes", "a: 'it''s: # no' # c\n", "a: 9             # c\n", setTo("9", "a")},
		{"on the next line", "a: # h\n  x # c\nb: 1\n", "a: # h\n  9 # c\nb: 1\n", setTo("9", "a")},
		{"block mapping", "a: # h\n  # i\n  x: 1\n  y: 2 # t\n\n# for b\nb: 1\n", "a: {} # h\n\n# for b\nb: 1\n", setTo("{}", "a")},
		{"block sequence in its key's column", "a:\n- x\n- y\nb: 1\n", "a: [z]\nb: 1\n", setTo("[z]", "a")},
		{"mapping behind a dash", "- x: 1 # c1\n  y: 2 # c2\n- z\n", "- q\n- z\n", setTo("q", 0)},
		{"tagged", "a: !!str 5 # c\n", "a: 6       # c\n", setTo("6", "a")},
		{"tagged block", "a: !!map # c\n  b: 1\n", "a: 6     # c\n", setTo("6", "a")},
		{"quoted keys", "\"a b\": {'c': 1}\n", "\"a b\": {'c': 2}\n", setTo("2", "a b", "c")},
		{"wide letters before it", "é: {ö: 3, ä: 4} # ü\n", "é: {ö: 3, ä: 5} # ü\n", setTo("5", "é", "ä")},
		{"tabs", "a:\t1\t# c\n", "a:\t22\t# c\n", setTo("22", "a")},
		{"pair without braces", "a: [b: 1, c: 2]\n", "a: [b: 9, c: 2]\n", setTo("9", "a", 0, "b")},
		{"item below its dash", "-\n  # h\n  a: 1 # c\n-\n  2\n", "-\n  # h\n  a: 1 # c\n-\n  9\n", setTo("9", 1)},
		{"rare line ends", "a: 1\u0085b: 2\u2028c: 3\rd: 4", "a: 1\u0085b: 2\u2028c: 9\rd: 4", setTo("9", "c")},
		{"CRLF and byte order mark", "\ufeffa: 1\r\nb: 2", "\ufeffa: 9\r\nb: 2", setTo("9", "a")},
	})
}

func TestSet_MissingKey(t *testing.T) {
	runEditings(t, []editing{
		{"behind a continued comment", "home:\n  name: x   # t\n             # u\n\nsite:\n  z: 1\n",
			"home:\n  name: x   # t\n             # u\n  units: si\n\nsite:\n  z: 1\n", setTo("si", "home", "units")},
		{"section, no final line end", "# c\n\nhome:\n    name: x", "# c\n\nhome:\n    name: x\nassume:\n    chemistry: lfp",
			setTo("lfp", "assume", "chemistry")},
		{"sections parted by blank lines", "a:\n  x: 1\n\nb:\n  x: 1\n", "a:\n  x: 1\n\nb:\n  x: 1\n\nc:\n  x: 2\n", setTo("2", "c", "x")},
		{"empty file", "", "a:\n  b: 1\n", setTo("1", "a", "b")},
		{"only comments", "# c", "# c\n\na:\n  b: 1", setTo("1", "a", "b")},
		{"only markers", "--- # c\n...\n", "--- # c\na:\n  b: 1\n...\n", setTo("1", "a", "b")},
		{"only a byte order mark, CRLF", "\ufeff# c\r\n", "\ufeff# c\r\n\r\na: 1\r\n", setTo("1", "a")},
		{"whole document {}", "# c\n{}\n", "# c\na:\n  b: 1\n", setTo("1", "a", "b")},
		{"flow", "a: {b: 1}  # x\n", "a: {b: 1, d: {e: 9}}  # x\n", setTo("9", "a", "d", "e")},
		{"empty flow", "a: { } # x\n", "a: {b: 1} # x\n", setTo("1", "a", "b")},
		{"flow in lines", "a: {\n  b: 1, # b\n  c: 2  # c\n}\n", "a: {\n  b: 1, # b\n  c: 2,  # c\n  d: 9\n}\n", setTo("9", "a", "d")},
		{"flow in lines, last comma", "a: {\n  b: 1,\n  c: 2,  # c\n}\n", "a: {\n  b: 1,\n  c: 2,  # c\n  d: 9,\n}\n", setTo("9", "a", "d")},
		{"flow behind an empty value", "a: {b: }\n", "a: {b: , d: 9 }\n", setTo("9", "a", "d")},
		{"section without entries", "a:\n  # x\nb: 1\n", "a:\n  # x\n  k: 9\nb: 1\n", setTo("9", "a", "k")},
		{"null", "a: ~  # x\nb: 1\n", "a:    # x\n  k: 9\nb: 1\n", setTo("9", "a", "k")},
		{"item without entries", "-\n- b\n", "-\n  k: 9\n- b\n", setTo("9", 0, "k")},
		{"nothing in flow", "a: {b: , c: 1}\n", "a: {b: {d: {e: 9}} , c: 1}\n", setTo("9", "a", "b", "d", "e")},
		{"document {} behind its marker", "--- {} # c\n", "--- \na: 9 # c\n", setTo("9", "a")},
		{"null document", "~\n", "a: 9\n", setTo("9", "a")},
		{"behind a literal that keeps blank lines", "a: |+\n  x\n\n", "a: |+\n  x\n\nb: 9\n", setTo("9", "b")},
		{"behind a literal", "a:\n  b: |\n    x\nc: 1\n", "a:\n  b: |\n    x\n  d: 9\nc: 1\n", setTo("9", "a", "d")},
		{"key that must be quoted", "a: 1\n", "a: 1\n\"yes\": 2\n", setTo("2", "yes")},
	})
}

func TestDelete(t *testing.T) {
	runEditings(t, []editing{
		{"with its comments", "a: 1\n# h\nb: 2 # t\n     # u\nc: 3\n", "a: 1\nc: 3\n", deleted("b")},
		{"not a lone comment", "a: 1\n# lone\n\nb: 2\nc: 3\n", "a: 1\n# lone\n\nc: 3\n", deleted("b")},
		{"not the comment of the key above", "a:\n  x: 1  # t\n        # u\n  # y\n  y: 2\n", "a:\n  x: 1  # t\n        # u\n", deleted("a", "y")},
		{"not the comment below", "a: 1\nb: 2\n# c\nc: 3\n", "a: 1\n# c\nc: 3\n", deleted("b")},
		{"not the end of the literal above", "a: |\n  # x\n# b\nb: 2\nc: 1\n", "a: |\n  # x\nc: 1\n", deleted("b")},
		{"not the end of the quotes above", "a: \"x\n# y\"\nb: 2\nc: 1\n", "a: \"x\n# y\"\nc: 1\n", deleted("b")},
		{"only key", "a:  # x\n  # h\n  b: 2 # t\nc: 3\n", "a: {} # x\nc: 3\n", deleted("a", "b")},
		{"only item", "a: # x\n- b # t\nc: 3\n", "a: [] # x\nc: 3\n", deleted("a", 0)},
		{"only key of the document", "# f\n\n# h\nb: 2 # t\n", "# f\n\n{}\n", deleted("b")},
		{"only key behind a dash", "- a: 1 # q\n- c: 3\n", "- {}\n- c: 3\n", deleted(0, "a")},
		{"first key behind a dash", "- a: 1\n  b: 2\n", "- b: 2\n", deleted(0, "a")},
		{"first key behind a dash, comment below", "- a: 1 # q\n  # h\n  b: 2\n", "-\n  # h\n  b: 2\n", deleted(0, "a")},
		{"item, no final line end", "x:\n- a: 1\n# h\n- c: 3\n# y\ny: 1", "x:\n- a: 1\n# y\ny: 1", deleted("x", 1)},
		{"flow, first", "a: { b: 1, c: 2, d: 3 }\n", "a: { c: 2, d: 3 }\n", deleted("a", "b")},
		{"flow, last", "a: { b: 1, c: 2, d: 3 }\n", "a: { b: 1, c: 2 }\n", deleted("a", "d")},
		{"flow, at a line's end", "a: {b: 1, c: 2, # x\n    d: 3}\n", "a: {b: 1, # x\n    d: 3}\n", deleted("a", "c")},
		{"tagged, only key", "a: !!map # c\n  b: 1\nd: 2\n", "a: !!map {} # c\nd: 2\n", deleted("a", "b")},
		{"item below its dash", "- 1\n# h\n-\n  # i\n  a: 1\n- 3\n", "- 1\n- 3\n", deleted(1)},
		{"flow, only", "a: [ 1, ] # c\n", "a: [] # c\n", deleted("a", 0)},
		{"broken flow, first", "a: {b: 1, # b\n    # h\n    c: 2} # d\n", "a: {\n    # h\n    c: 2} # d\n", deleted("a", "b")},
		{"broken flow, middle", "a: {b: 1, # b\n    # h\n    c: 2, # c\n    d: 3} # d\n", "a: {b: 1, # b\n    d: 3} # d\n", deleted("a", "c")},
		{"broken flow, last", "a: {b: 1, # b\n    # h\n    c: 2} # d\n", "a: {b: 1 # b\n    } # d\n", deleted("a", "c")},
		{"broken flow, last comma", "a: {\n  b: 1, # b\n  # h\n  c: 2, # c\n}\n", "a: {\n  b: 1, # b\n}\n", deleted("a", "c")},
		{"CRLF", "a: 1\r\n# h\r\nb: 2\r\nc: 3\r\n", "a: 1\r\nc: 3\r\n", deleted("b")},
	})
}

func TestInsert(t *testing.T) {
	const added = "name: New\n    like: fan\n"
	runEditings(t, []editing{
		{"before an item with a comment", "c:\n  - a\n  # h\n  - b\n", "c:\n  - a\n  - " + added + "  # h\n  - b\n", withNew(1, "c")},
		{"items parted by blank lines", "c:\n  - a\n\n  - b\n", "c:\n  - a\n\n  - b\n\n  - " + added, withNew(2, "c")},
		{"between such", "c:\n  - a\n\n  - b\n", "c:\n  - a\n\n  - " + added + "\n  - b\n", withNew(1, "c")},
		{"in the key's column", "c:\n- a\n# z\nz: 1\n", "c:\n- a\n- name: New\n  like: fan\n# z\nz: 1\n", withNew(1, "c")},
		{"no final line end, CRLF", "c:\r\n- a", "c:\r\n- a\r\n- name: New\r\n  like: fan", withNew(1, "c")},
		{"empty", "c: []  # none\nb: 1\n", "c:     # none\n  - " + added + "b: 1\n", withNew(0, "c")},
		{"empty with a comment inside", "c: [ # x\n  ]\n", "c: [{name: New, like: fan} # x\n  ]\n", withNew(0, "c")},
		{"null", "c:\nb: 1\n", "c:\n  - " + added + "b: 1\n", withNew(0, "c")},
		{"missing, habit of the file", "b:\n- 1\n", "b:\n- 1\nc:\n- name: New\n  like: fan\n", withNew(0, "c")},
		{"missing with its mapping", "b: 1\n", "b: 1\nx:\n  c:\n    - name: New\n      like: fan\n", withNew(0, "x", "c")},
		{"missing in flow", "b: {x: 1}\n", "b: {x: 1, c: [{name: New, like: fan}]}\n", withNew(0, "b", "c")},
		{"flow", "b: [{a: 1}, {b: 2}]\n", "b: [{a: 1}, {name: New, like: fan}, {b: 2}]\n", withNew(1, "b")},
		{"flow, end", "b: [{a: 1}]\n", "b: [{a: 1}, {name: New, like: fan}]\n", withNew(1, "b")},
		{"nothing in flow", "b: {c: , d: 1}\n", "b: {c: [{name: New, like: fan}] , d: 1}\n", withNew(0, "b", "c")},
		{"empty document", "# c\n[]\n", "# c\n- name: New\n  like: fan\n", withNew(0)},
		{"empty file", "", "- name: New\n  like: fan\n", withNew(0)},
		{"behind a dash", "- - a\n  - b\n", "- - " + added + "  - a\n  - b\n", withNew(0, 0)},
	})
}

func TestMove(t *testing.T) {
	const list = "c:\n  # a\n  - a\n\n  # b\n  - b\n\n  # c\n  - c # t\nz: 1\n"
	const lone = "c:\n  - a\n\n  # lone\n\n  - b\n\n  - c"
	runEditings(t, []editing{
		{"down", list, "c:\n  # b\n  - b\n\n  # c\n  - c # t\n\n  # a\n  - a\nz: 1\n", moved(0, 2, "c")},
		{"up", list, "c:\n  # c\n  - c # t\n\n  # a\n  - a\n\n  # b\n  - b\nz: 1\n", moved(2, 0, "c")},
		{"nowhere", list, list, moved(1, 1, "c")},
		{"a lone comment stays", lone, "c:\n\n  # lone\n\n  - b\n\n  - c\n\n  - a", moved(0, 2, "c")},
		{"from behind a dash", "- - a\n  - b\n  - c\n", "- - b\n  - c\n  - a\n", moved(0, 2, 0)},
		{"to behind a dash", "- - a\n  - b\n  - c\n", "- - c\n  - a\n  - b\n", moved(2, 0, 0)},
		{"to behind a dash with a comment", "- - a\n  # b\n  - b\n", "-\n  # b\n  - b\n  - a\n", moved(1, 0, 0)},
		{"flow", "c: [a,  [b, 1], {c: 1}] # x\n", "c: [[b, 1],  {c: 1}, a] # x\n", moved(0, 2, "c")},
	})
}

func TestErrors(t *testing.T) {
	table := []struct {
		name, src, want string
		do              func([]byte) ([]byte, error)
	}{
		{"anchor", "a: &x 1\n", "line 1: anchors and aliases are not accepted", setTo("1", "b")},
		{"two documents", "a: 1\n---\nb: 1\n", "more than one YAML document", setTo("1", "b")},
		{"not YAML", "a: [1\n", "not valid YAML", setTo("1", "b")},
		{"not UTF-8", "a: \xff\n", "not UTF-8", setTo("1", "b")},
		{"long keys", "? a\n: 1\n", "cannot be edited in place", setTo("1", "a")},
		{"key twice", "a: 1\na: 2\n", `"a" stands twice in one mapping, on lines 1 and 2`, setTo("1", "a")},
		{"into a scalar", "a: 1\n", "a single value has no keys", setTo("1", "a", "b")},
		{"key into a sequence", "a: [1]\n", "a sequence has no keys", setTo("1", "a", "b")},
		{"index into a mapping", "a: {b: 1}\n", "a mapping has no items", setTo("1", "a", 0)},
		{"index too high", "a: [1]\n", "index 1 is outside the sequence, which has 1 items", setTo("1", "a", 1)},
		{"index into nothing", "a:\n", "new items are inserted", setTo("1", "a", 0)},
		{"step of another type", "a: 1\n", "a path step is a string or an int, not float64", setTo("1", 1.5)},
		{"key not UTF-8", "a: 1\n", `the key "\xff" is not UTF-8`, setTo("1", "\xff")},
		{"no path", "a: 1\n", "the path is empty", setTo("1")},
		{"unknown key", "a: 1\n", `there is no key "b"`, deleted("b")},
		{"unknown parent", "a: 1\n", "nothing here to delete", deleted("b", "c")},
		{"insert too far", "a: [1]\n", "index 2 is outside 0 to 1", withNew(2, "a")},
		{"insert into a mapping", "a: {b: 1}\n", "a mapping cannot take items", withNew(0, "a")},
		{"move too far", "a: [1, 2]\n", "index 2 is outside", moved(0, 2, "a")},
		{"move in nothing", "a:\n", "no sequence here", moved(0, 0, "a")},
		{"move among comments in flow", "a: [1, # x\n  2]\n", "comments between the items", moved(0, 1, "a")},
		{"value of two lines", "a: 1\n", "not a scalar or a flow collection on one line", setTo("x\n  y", "a")},
		{"value is a block", "a: 1\n", "not a scalar or a flow collection on one line", setTo("b: c", "a")},
		{"value with a comment", "a: 1\n", "has spaces, a comment or a marker", setTo("1 # c", "a")},
		{"value is empty", "a: 1\n", "the value is empty", setTo(" ", "a")},
		{"value with an anchor", "a: 1\n", "anchors and aliases", setTo("&x 1", "a")},
		{"value that flow would cut", "a: {b: 1}\n", "without changing something else", setTo("x, y", "a", "b")},
		{"literal that would gain a line end", "a: |\n  x", "without changing something else", setTo("1", "b")},
	}
	for _, c := range table {
		t.Run(c.name, func(t *testing.T) {
			out, err := c.do([]byte(c.src))
			assert.Nil(t, out)
			assert.ErrorContains(t, err, c.want)
		})
	}
	_, err := Insert(nil, nil, 0, []Entry{{"a", "1"}, {"a", "2"}})
	assert.ErrorContains(t, err, `the key "a" twice`)
}

func TestInsert_EmptyItem(t *testing.T) {
	out, err := Insert([]byte("c:\n  - a\n"), Path{"c"}, 1, nil)
	require.NoError(t, err)
	assert.Equal(t, "c:\n  - a\n  - {}\n", string(out))
}

// A path in an error reads as in the home file's own errors.
func TestPath_String(t *testing.T) {
	assert.Equal(t, "circuits[3].start.amps", Path{"circuits", 3, "start", "amps"}.String())
	_, err := Delete([]byte("a: 1\n"), Path{"b"})
	assert.True(t, strings.HasPrefix(err.Error(), "b: "), err)
}
