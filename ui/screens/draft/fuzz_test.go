package draft

import (
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
	"gopkg.in/yaml.v3"

	"holdover/loads/home/edit"
)

// FuzzTyped looks for a text that, typed into a field of a form, panics or does not come out in the file as it was typed.
func FuzzTyped(f *testing.F) {
	f.Add("running", "1.5 kW")                            // a plain value
	f.Add("name", "- #: [\"'é\\\u202e")                   // what YAML would take for its own
	f.Add("start", "code G, hp 0.5")                      // a mapping as people type it
	f.Add("start", "worst")                               // a word where a mapping may stand
	f.Add("use", "hours: [0, 1, {a: b}, 'x''y']")         // deeper than any field
	f.Add("runtimes", "50% 11 min, 100% 2.5 min")         // pairs
	f.Add("fuels", "propane, *x, &y z # c")               // anchors and a comment
	f.Add("runs", "{name: A, length: 60 ft}, {\"b\": |}") // a literal where none may stand
	f.Add("gas", "a: 1\n---\nb: 2")                       // more than one line and one document
	f.Fuzz(func(t *testing.T, key, text string) {
		if !utf8.ValidString(text) {
			t.Skip("a terminal and a file that was read give characters only")
		}
		value, err := fragment(key, text)
		if err != nil {
			require.NotEmpty(t, err.Error())
			return
		}
		out, err := edit.Set([]byte("before: 1\nfield: old\nafter: 2\n"), edit.Path{"field"}, value)
		if err != nil {
			return // a form shows this error
		}
		require.True(t, utf8.Valid(out))
		var read struct {
			Before, After int
			Field         yaml.Node
		}
		require.NoError(t, yaml.Unmarshal(out, &read), "%q", out)
		require.Equal(t, 1, read.Before)
		require.Equal(t, 2, read.After)
		if read.Field.Kind == yaml.ScalarNode {
			require.Equal(t, text, read.Field.Value, "%q", out)
		}
	})
}
