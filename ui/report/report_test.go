package report

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"holdover/loads/home"
	"holdover/planner"
	"holdover/profiles"
)

var update = flag.Bool("update", false, "write the golden files anew")

func planned(t testing.TB, text string) *planner.Result {
	house, err := home.Read([]byte(text), "home.yaml")
	require.NoError(t, err)
	return planAll(t, house)
}

// The page as it is shown, for a reader of a change to judge. Renew it with -update.
func TestTextOfTheDemoHome(t *testing.T) {
	golden(t, "demo.golden", Text(planned(t, string(profiles.Demo())), 80, Blocks))
}

func TestTextOfASmallHome(t *testing.T) {
	golden(t, "small.golden", Text(planned(t, small), 80, Blocks))
}

const small = `
holdover: 1
home: {name: Hut, service: 230 V, units: si}
outage: {length: 10 h, season: mild}
circuits:
  - {name: A refrigerator whose name is so long that it cannot stand beside its own figures, care: keep, running: 150 W, power_factor: 0.8, start: {times: 4}, use: {duty: 0.5}}
  - {name: Lamps, count: 3, care: rotate, running: 60 W, start: none, use: {duty: 0.1}}
  - {name: Oven, care: shed, running: 2 kW}
`

func golden(t *testing.T, name, got string) {
	path := filepath.Join("testdata", name)
	if *update {
		require.NoError(t, os.MkdirAll("testdata", 0o755))
		require.NoError(t, os.WriteFile(path, []byte(got), 0o644))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err)
	wanted, lines := strings.Split(string(want), "\n"), strings.Split(got, "\n")
	for i := range min(len(wanted), len(lines)) {
		require.Equal(t, wanted[i], lines[i], "line %d of %s", i+1, path)
	}
	require.Len(t, lines, len(wanted), path)
}

// Cautions are never cut: each stands in the text whole, with its source, and in the order of the result.
func TestEveryCautionIsThere(t *testing.T) {
	r := planned(t, string(profiles.Demo()))
	text := strings.Join(strings.Fields(Text(r, 60, Blocks)), " ")
	last := 0
	for _, c := range r.Cautions {
		said := strings.Join(strings.Fields("- "+c.Word+": "+c.Text+" ("+c.Source+")"), " ")
		at := strings.Index(text, said)
		require.Greater(t, at, last, c.ID)
		last = at
	}
	assert.True(t, strings.HasSuffix(text, ")"), "nothing follows the cautions")
}

// What rules an option out is said once: among the reasons, or else beneath the options.
func TestEveryWhyNotIsSaidOnce(t *testing.T) {
	r := planned(t, string(profiles.Demo()))
	r.Options[1].WhyNot = append(r.Options[1].WhyNot, "It hums.")
	text := strings.Join(strings.Fields(Text(r, 100, Blocks)), " ")
	for _, o := range r.Options {
		for _, why := range o.WhyNot {
			assert.Equal(t, 1, strings.Count(text, strings.Join(strings.Fields(why), " ")), why)
		}
	}
	assert.Contains(t, text, "generator: It hums.")
}

func TestTextKeepsItsWidth(t *testing.T) {
	for _, width := range []int{80, 100} {
		for _, line := range strings.Split(Text(planned(t, string(profiles.Demo())), width, Blocks), "\n") {
			assert.LessOrEqual(t, cells(line), width, line)
		}
	}
}
