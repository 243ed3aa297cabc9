package planner

import (
	"cmp"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"holdover/loads/home"
	"holdover/planner/install"
	"holdover/profiles"
)

const homes = "../testdata/homes/"

func scopeOfFile(t testing.TB, name string) *install.Scope {
	house, err := home.ReadFile(homes + name + ".yaml")
	require.NoError(t, err)
	return Scope(PlanAll(house))
}

func warns(s *install.Scope, id string) bool {
	return slices.ContainsFunc(s.Cautions, func(c profiles.Caution) bool { return c.ID == id })
}

// hazards has, for each warning of a transfer job, an invented home that raises it and one that does not.
var hazards = []struct{ id, raises, doesNot string }{
	{"backfeed", "scope-clean", "scope-nothing"},
	{"carbon-monoxide", "scope-engine", "scope-clean"},
	{"shared-neutral-120", "scope-shared-neutral", "scope-two-pole"},
	{"two-pole-on-120", "scope-two-pole", "scope-shared-neutral"},
	{"parallel-neutral", "scope-bonded", "scope-floating-burner"},
	{"flame-sensing-neutral", "scope-floating-burner", "scope-bonded"},
	{"generator-too-close", "scope-too-close", "scope-engine"},
	{"automatic-undersized", "scope-automatic", "scope-clean"},
	{"service-too-small", "scope-small-service", "scope-automatic"},
	{"storage-beyond-place", "scope-much-storage", "scope-clean"},
	{"fuel-store-limit", "scope-much-fuel", "scope-engine"},
	{"gas-starved", "scope-thin-pipe", "natural-gas"},
	{"propane-cold", "scope-cold-cylinder", "scope-thin-pipe"},
	{"long-wire", "scope-long-run", "scope-clean"},
	{"quiet-hours", "scope-quiet", "scope-engine"},
	{"code-edition", "scope-clean", "cottage-230v"},
	{"legs-unbalanced", "scope-one-sided", "scope-clean"},
	{"no-230-rules", "cottage-230v", "scope-clean"},
}

func TestHazards_EachHasAHomeThatRaisesItAndOneThatDoesNot(t *testing.T) {
	listed := map[string]bool{}
	for _, h := range hazards {
		listed[h.id] = true
		assert.True(t, warns(scopeOfFile(t, h.raises), h.id), "%s in %s", h.id, h.raises)
		assert.False(t, warns(scopeOfFile(t, h.doesNot), h.id), "%s in %s", h.id, h.doesNot)
	}
	for _, c := range profiles.Hazards() {
		assert.True(t, listed[c.ID], "%s has no home", c.ID)
	}
}

// Whatever a home raises, its word is one of ANSI Z535's, the gravest come first, it cites its rule, and the deferral to
// code, maker and electrician is there.
func TestScope_CautionsOfEveryHome(t *testing.T) {
	files, err := filepath.Glob(homes + "*.yaml")
	require.NoError(t, err)
	for _, file := range files {
		s := scopeOfFile(t, strings.TrimSuffix(filepath.Base(file), ".yaml"))
		last := 0
		for _, c := range s.Cautions {
			rank := slices.Index([]string{"DANGER", "WARNING", "CAUTION", "NOTICE"}, c.Word)
			assert.GreaterOrEqual(t, rank, last, file)
			last = rank
			assert.NotEmpty(t, c.Source, c.ID)
		}
		assert.True(t, warns(s, "code-and-licence"), file)
		for _, c := range s.Checks {
			assert.Contains(t, []string{install.Pass, install.Fail, install.Needs}, c.Result)
			assert.NotEmpty(t, c.Reason, "%s: %s", file, c.Name)
			assert.NotEmpty(t, c.Source, "%s: %s", file, c.Name)
		}
	}
}

// A caution that cites the wiring code cites the one in force: no id of a rule is left in braces, and no other edition is named.
func TestCautions_CiteTheCodeInForce(t *testing.T) {
	files, err := filepath.Glob(homes + "*.yaml")
	require.NoError(t, err)
	for _, file := range files {
		house, err := home.ReadFile(file)
		require.NoError(t, err)
		for _, edition := range []string{"", "nec-2026"} {
			if edition != "" && house.House.Service == home.Only230 {
				continue
			}
			house.House.Code = cmp.Or(edition, house.House.Code)
			r := PlanAll(house)
			for _, c := range append(r.Cautions, asPlans(Scope(r).Cautions)...) {
				assert.NotRegexp(t, `\{[a-z-]+\}`, c.Text+c.Source, "%s: %s", file, c.ID)
				if strings.HasPrefix(c.Source, "NEC") {
					assert.Contains(t, c.Source, house.Code().Edition, c.ID)
				}
			}
		}
	}
}

func asPlans(all []profiles.Caution) (out []Caution) {
	for _, c := range all {
		out = append(out, Caution(c))
	}
	return out
}

// Every figure of the scope comes from figures that the plan or the scope has, and says how.
func TestScope_FiguresHaveAncestors(t *testing.T) {
	for _, house := range []string{"natural-gas", "scope-thin-pipe", "scope-cold-cylinder", "scope-automatic", "scope-long-run", "cottage-230v", "flat-120v"} {
		read, err := home.ReadFile(homes + house + ".yaml")
		require.NoError(t, err)
		r := PlanAll(read)
		s := Scope(r)
		for _, f := range s.Sheet.All() {
			assert.NotEmpty(t, f.How, "%s: %s", house, f.ID)
			assert.NotEmpty(t, f.Source, "%s: %s", house, f.ID)
			for _, id := range f.From {
				_, inPlan := r.Sheet.Get(id)
				_, inScope := s.Sheet.Get(id)
				assert.True(t, inPlan || inScope, "%s: %s from %s", house, f.ID, id)
			}
		}
	}
}

// A plan that carries the house is never too small for the circuits that it chose itself.
func TestScope_AgreesWithThePlan(t *testing.T) {
	files, err := filepath.Glob(homes + "*.yaml")
	require.NoError(t, err)
	for _, file := range files {
		s := scopeOfFile(t, strings.TrimSuffix(filepath.Base(file), ".yaml"))
		for _, r := range s.Rules {
			if s.Source != nil && r.Source == s.Source.Name && r.Mode == home.Manual {
				assert.True(t, r.OK, "%s: %+v", file, r)
			}
		}
	}
}

// The rating that the scope names for a machine of power factor 0.8 is enough in kW too: 8000 + 40 % of (9000 + 5714 −
// 8000) = 10 686 VA by NEC 220.83 ask for 10.7 kW, so 13.4 kVA, where nothing is lost to the site.
func TestScope_TheRatingNamedIsEnough(t *testing.T) {
	text, err := home.TextOf(homes + "scope-power-factor.yaml")
	require.NoError(t, err)
	house, err := home.Read([]byte(strings.Replace(string(text), "transfer: managed", "transfer: manual", 1)), "scope-power-factor.yaml")
	require.NoError(t, err)
	s := Scope(PlanAll(house))
	for _, r := range s.Rules {
		if r.Mode == home.Automatic {
			assert.False(t, r.OK)
			assert.GreaterOrEqual(t, r.MadeKVA*0.8, r.NeededVA/1000, "%+v", r)
			return
		}
	}
	t.Error("no automatic transfer is held to the machine")
}

// The source of the job is the plan's choice, with the legs that its house needs; what is on offer is never the job's.
func TestScope_SourceIsTheChoice(t *testing.T) {
	s := scopeOfFile(t, "scope-two-pole")
	require.NotNil(t, s.Source)
	assert.Equal(t, "battery", s.Source.Name)
	assert.Equal(t, 2, s.Source.Legs)
	require.Len(t, s.Refusals, 1)
	assert.Equal(t, "Single box", s.Refusals[0].Source)
	assert.Contains(t, s.Refusals[0].Reason, "Pump")
	assert.Nil(t, scopeOfFile(t, "scope-nothing").Source)
	assert.Equal(t, 1, scopeOfFile(t, "flat-120v").Source.Legs)
}

func BenchmarkScopeOfThousandCircuits(b *testing.B) {
	house, err := home.ReadFile(homes + "thousand-circuits.yaml")
	require.NoError(b, err)
	r := PlanAll(house)
	for b.Loop() {
		Scope(r)
	}
}
