package splice

import (
	"strconv"
	"strings"
	"testing"

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
	}
	for _, s := range seeds {
		f.Add(s[0], s[1], s[2])
	}
	f.Fuzz(func(t *testing.T, src, steps, value string) {
		var path Path
		for _, step := range strings.Split(steps, ".") {
			if n, err := strconv.Atoi(step); err == nil {
				path = append(path, n)
			} else {
				path = append(path, step)
			}
		}
		out, err := Set([]byte(src), path, value)
		if err != nil {
			require.Nil(t, out)
			return
		}
		after, err := read(out)
		require.NoError(t, err)
		p, err := after.find(path)
		require.NoError(t, err)
		require.Empty(t, p.rest)
		want, err := fragment(value)
		require.NoError(t, err)
		require.True(t, equal(want, p.node), "%q", out)
	})
}
