package draft_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"holdover/loads/home"
	"holdover/ui/screens/draft"
)

// A field that is a mapping or a list is typed without its outer brackets.
func TestForm_MappingsAndListsOfTheSite(t *testing.T) {
	d := open(t, homeText)
	for _, c := range []struct{ key, typed string }{
		{"gas", "pipe: 3/4 in, length: 40 ft"},
		{"runs", "{name: Generator to inlet, length: 60 ft}, {name: Inlet to panel, length: 9 ft}"},
		{"sun", "kwh_per_day: 12"},
	} {
		for _, f := range home.FieldsOf("site") {
			if f.Key != c.key {
				continue
			}
			form := draft.NewForm(d, []draft.FormField{{Path: draft.Path{"site", c.key}, Field: f}})
			form.Type(0, c.typed)
			require.Empty(t, form.Fields[0].Fault, c.key)
			require.True(t, form.Commit(), c.key)
			assert.Equal(t, c.typed, form.Text(0))
		}
	}
	assert.Len(t, d.Home().Site.Runs, 2)
	assert.Equal(t, home.Pipe("3/4"), d.Home().Site.Gas.Pipe)
}
