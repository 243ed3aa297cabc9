package main

import (
	"bytes"
	"os"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func readme(t *testing.T) string {
	text, err := os.ReadFile("../../README.md")
	require.NoError(t, err)
	return string(text)
}

// TestREADMEHomeIsGood plans the home file that the README shows.
func TestREADMEHomeIsGood(t *testing.T) {
	home := regexp.MustCompile("(?s)```yaml\n(.*?)```").FindStringSubmatch(readme(t))
	require.NotNil(t, home)
	var out, errs bytes.Buffer
	require.Equal(t, exitDone, run([]string{"plan", "-"}, terminal{strings.NewReader(home[1]), &out, &errs}), errs.String())
	assert.Contains(t, out.String(), "Mill Lane 3: ")
}

// TestREADMENamesEveryVerb goes both ways: each verb is described, and each call shown is one that works.
func TestREADMENamesEveryVerb(t *testing.T) {
	text := readme(t)
	for _, c := range newRoot(terminal{}).Commands() {
		if c.Name() != "help" {
			assert.Contains(t, text, "`holdover "+c.Name())
		}
	}
	for _, call := range regexp.MustCompile("(?m)(?:`|^    )holdover ([a-z]+)(?: |`|$)").FindAllStringSubmatch(text, -1) {
		c, _, err := newRoot(terminal{}).Find(call[1:])
		require.NoError(t, err)
		assert.Equal(t, call[1], c.Name())
	}
}
