package sheet

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A generator behind a ups: the wave, the frequency and the size each have their reason; a missing figure is asked for.
func TestPairs_EachReason(t *testing.T) {
	for _, c := range []struct {
		generator, ups string
		verdict        Verdict
		failed, asked  []string
	}{
		{"no-legs", "tower-long", Fits, nil, nil},
		{"small-halves", "tower-long", DoesNotFit, []string{"distortion", "hertz"}, nil},
		{"no-legs", "quick-to-empty", FitsIf, nil, []string{"distortion", "hertz"}},
	} {
		report, err := Of(house(t, burner, c.generator, c.ups), Request{})
		require.NoError(t, err)
		require.Len(t, report.Pairs, 1)
		p := report.Pairs[0]
		assert.Equal(t, c.verdict, p.Verdict, p.Checks)
		assert.Equal(t, c.failed, ids(p.Checks, Fails))
		assert.Equal(t, c.asked, ids(p.Checks, NotOnSheet))
		for _, check := range p.Checks {
			for _, id := range check.Figures {
				_, ok := p.Sheet.Get(id)
				assert.True(t, ok, id)
			}
		}
	}
	house := house(t, burner, "no-legs", "tower-long")
	house.Gear[0].VA = 1500
	report, err := Of(house, Request{})
	require.NoError(t, err)
	assert.Equal(t, []string{"size"}, ids(report.Pairs[0].Checks, Fails), "1.5 times the ups; 2 are wanted")
}
