package edit

import (
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
)

// FuzzSet looks for texts that make an edit panic, or come out other than asked.
func FuzzSet(f *testing.F) {
	seeds := [][3]string{
		{"home:\n  name: x # c\n", "home.name", "y"},                            // plain block
		{"a: {b: 1,\r\n  c: [1, 2]}\r\n", "a.c.1", "{x: 1}"},                    // broken flow, CRLF
		{"a: |+\n  x\n\n", "b.c", "1"},                                          // literal that keeps blank lines
		{"- - a\n  - ? b\n    : c\n", "0.1.b", "1"},                             // long key
		{"\ufeff--- # c\n...\n", "a", "1"},                                      // markers only
		{"a: !!map\n  b: 'x''y\n\n    z'\n", "a.b", "\"q\""},                    // tag, quotes over lines
		{"a: \"x\\\n  y\"\u0085b: 1\u2028c: 2\r", "c", "3"},                     // rare line ends
		{"[a: b, {c, d: }, [ ]]", "1.d", "1"},                                   // flow document
		{"a: >2-\n    x\n# c\n\tb: 1", "a", "1"},                                // tab
		{"a: &x 1\nb: *x\n<<: {c: 1}\n", "b", "1"},                              // anchors
		{"circuits:\n" + strings.Repeat("- a: 1\n", 2500), "circuits.9.a", "2"}, // long enough to be shortened
		{longWith("- a: \xff\n"), "circuits.9.a", "2"},                          // not UTF-8 in what is left out
		{longWith("- a: \x00\n"), "circuits.9.a", "2"},                          // a control character there
		{longWith("- a: b: c\n"), "circuits.9.a", "2"},                          // no YAML there
	}
	for _, s := range seeds {
		f.Add(s[0], s[1], s[2])
	}
	f.Fuzz(func(t *testing.T, src, steps, value string) {
		path := pathFrom(steps)
		out, err := Set([]byte(src), path, value)
		if err != nil {
			require.Nil(t, out)
			return
		}
		after, err := read(out)
		if _, broken := read([]byte(src)); broken != nil {
			requireLeftOut(t, src, string(out), err)
			return
		}
		require.NoError(t, err)
		p, err := after.find(path)
		require.NoError(t, err)
		require.Empty(t, p.rest)
		want, err := fragment(value)
		require.NoError(t, err)
		require.True(t, equal(want, p.node), "%q", out)
	})
}

// longWith is a text long enough to be shortened, with an item far from both ends.
func longWith(item string) string {
	const half = "- a: 1\n- a: 1\n- a: 1\n- a: 1\n"
	return "circuits:\n" + strings.Repeat(half, 300) + item + strings.Repeat(half, 300)
}

// requireLeftOut holds the edit of a text that is no YAML to what the package promises: it is UTF-8, long enough to be
// shortened, and as broken after the edit as before.
func requireLeftOut(t *testing.T, src, out string, afterwards error) {
	require.True(t, utf8.ValidString(src), "%q", src)
	require.GreaterOrEqual(t, len(src), longTextBytes)
	require.Error(t, afterwards, "%q", out)
}

func pathFrom(steps string) (path Path) {
	for _, step := range strings.Split(steps, ".") {
		if n, err := strconv.Atoi(step); err == nil {
			path = append(path, n)
		} else {
			path = append(path, step)
		}
	}
	return path
}

// FuzzOthers does the same for the edits that Set is not.
func FuzzOthers(f *testing.F) {
	f.Add("a: {b: 1, # b\n  c: 2}\n", "a.b", uint8(remove), 0, 0)               // comment in flow
	f.Add("- a: 1 # c\n  # h\n  b: 2\n", "0.a", uint8(remove), 0, 0)            // behind a dash
	f.Add("a:\n- b: |+\n    x\n\n- c\n", "a.1", uint8(remove), 0, 0)            // behind a literal that keeps blank lines
	f.Add("a: [1, [2, ], {c: 3}]", "a", uint8(insert), 1, 0)                    // flow
	f.Add("a:\r\n# h\r\n- 1\r\n\r\n- 2", "a", uint8(insert), 1, 0)              // CRLF
	f.Add("a:\n- - 1\n  # h\n  - 2\n\n  - 3", "a.0", uint8(move), 2, 0)         // dash behind a dash
	f.Add("a:\n- !!map\n  b: 1\n- \"x\n\n  # y\"\n- 3", "a", uint8(move), 0, 2) // tag, quotes over lines
	f.Fuzz(func(t *testing.T, src, steps string, v uint8, from, to int) {
		e := edit{verb: verb(v%3) + remove, path: pathFrom(steps), from: from, to: to, item: []Entry{{"new", "{x: 1}"}}}
		out, err := run([]byte(src), e)
		if err != nil {
			require.Nil(t, out)
			return
		}
		before, err := read([]byte(src))
		require.NoError(t, err)
		after, err := read(out)
		require.NoError(t, err)
		if e.verb == move {
			require.True(t, from != to || src == string(out), "%q", out)
			return
		}
		require.False(t, equal(before.root, after.root), "%q", out)
	})
}
