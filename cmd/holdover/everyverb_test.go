package main

import (
	"bytes"
	"encoding/json"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"runtime/debug"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var (
	homes     = flag.Int("homes", 150, "how many random homes go through the verbs")
	firstHome = flag.Uint64("home", 1, "the seed of the first random home; the next homes have the next seeds")
)

// keptHomes is where a home that failed is written; whatever lies there goes through the verbs first, every time.
const keptHomes = "testdata/random"

// Random homes through the verbs: no panic, an exit status that fits, whole JSON, no NaN, energies that balance.
func TestRandomHomesGoThroughEveryVerb(t *testing.T) {
	kept, err := filepath.Glob(keptHomes + "/*")
	require.NoError(t, err)
	for _, path := range kept {
		text, err := os.ReadFile(path)
		require.NoError(t, err)
		t.Run(filepath.Base(path), func(t *testing.T) { throughTheVerbs(t, drawnFrom(text), len(verbs)) })
	}
	few := 3
	if *homes > 150 {
		few = len(verbs)
	}
	for seed := *firstHome; seed < *firstHome+uint64(*homes); seed++ {
		h := anyHome(seed)
		if !t.Run(fmt.Sprintf("seed=%d", seed), func(t *testing.T) { throughTheVerbs(t, h, few) }) {
			t.Errorf("kept as %s; again: go test ./cmd/holdover -run EveryVerb -home %d -homes 1", keep(t, keptHomes, fmt.Sprintf("seed-%d.yaml", seed), h), seed)
		}
	}
}

// keep writes a home where it is found again.
func keep(t *testing.T, folder, name string, h drawn) string {
	var out bytes.Buffer
	require.NoError(t, json.Indent(&out, h.text, "", "  "))
	require.NoError(t, os.MkdirAll(folder, 0o755))
	path := filepath.Join(folder, name)
	require.NoError(t, os.WriteFile(path, out.Bytes(), 0o644))
	return path
}

// verbs are the calls beside plan --json; FIGURE stands for a figure's id, OTHER for a kind that was not chosen or another home.
var verbs = []string{"plan -", "scope -", "scope --json -", "why -", "why FIGURE -", "why --all FIGURE -", "plan --ascii --width 120 -",
	"plan --against OTHER -", "plan --json --against OTHER -", "fit -", "fit --json -"}

// throughTheVerbs plans a home and then makes some of the other calls, another few for each home.
func throughTheVerbs(t *testing.T, h drawn, few int) {
	code, out, errs := callOn(t, h, "plan --json -")
	if !h.reads {
		assert.Equal(t, exitWrong, code)
		assert.Empty(t, out)
		assert.NotEmpty(t, errs)
		return
	}
	require.Less(t, code, exitWrong, errs)
	assert.Empty(t, errs)
	checkNulls(t, []byte(out))
	var p plan
	require.NoError(t, json.Unmarshal([]byte(out), &p))
	assert.Equal(t, code == exitDone, *p.Carried)
	for _, o := range p.Options {
		checkRun(t, *o.Run, *o.Trace, o.ShortAt)
		assert.False(t, *o.Carried && *o.Run.Short > 0, "%s: carried and short", o.Kind)
		assert.False(t, p.Choice == o.Kind && (!*o.Carried || len(*o.WhyNot) > 0), "the choice is open to choose")
	}
	ids := sortedKeys(p.Figures)
	for i := range few {
		at := int(h.seed) + i
		other := "../../testdata/homes/heaters.yaml"
		if p.Choice != "none" && p.Choice != kinds[at%len(kinds)] {
			other = kinds[at%len(kinds)]
		}
		line := strings.NewReplacer("FIGURE", ids[at*31%len(ids)], "OTHER", other).Replace(verbs[at%len(verbs)])
		checkCall(t, h, line)
	}
}

func checkCall(t *testing.T, h drawn, line string) {
	code, out, errs := callOn(t, h, line)
	if strings.HasPrefix(line, "fit") && !h.canFit() {
		assert.Equal(t, exitWrong, code, line)
		return
	}
	assert.Less(t, code, exitWrong, "%s: %s", line, errs)
	assert.NotEmpty(t, out, line)
	if strings.Contains(line, "--json") {
		assert.True(t, json.Valid([]byte(out)), line)
	}
}

// canFit says whether the home has a unit and a kept circuit to hold it to.
func (h drawn) canFit() bool {
	gear, _ := h.tree["gear"].([]any)
	return len(gear) > 0 && slices.ContainsFunc(h.tree["circuits"].([]any), func(c any) bool {
		care, given := c.(map[string]any)["care"]
		return !given || care == "keep"
	})
}

// noFigure is what a division by nothing or a slip of a format leaves in a text.
var noFigure = regexp.MustCompile(`[+-]?\b(NaN|Inf)\b|%!`)

// callOn makes one call with the home on standard input. A panic fails the test with its stack.
func callOn(t *testing.T, h drawn, line string) (code int, out, errs string) {
	defer func() {
		if p := recover(); p != nil {
			t.Fatalf("holdover %s panics: %v\n%s", line, p, debug.Stack())
		}
	}()
	var outText, errText bytes.Buffer
	code = run(strings.Fields(line), terminal{bytes.NewReader(h.text), &outText, &errText})
	if found := noFigure.FindString(outText.String()); found != "" {
		t.Errorf("holdover %s writes %q", line, found)
	}
	return code, outText.String(), errText.String()
}
