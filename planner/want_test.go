package planner

import (
	"context"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"holdover/loads/home"
	"holdover/planner/derive"
	"holdover/profiles"
)

func homesUnderTest(t *testing.T) map[string]*home.Home {
	t.Helper()
	paths, err := filepath.Glob("../testdata/homes/*.yaml")
	require.NoError(t, err)
	homes := map[string]*home.Home{}
	for _, path := range paths {
		house, err := home.ReadFile(path)
		require.NoError(t, err)
		homes[filepath.Base(path)] = house
	}
	return homes
}

func demoHome(t testing.TB) *home.Home {
	t.Helper()
	house, err := home.Read(profiles.Demo(), "demo")
	require.NoError(t, err)
	return house
}

// What is not wanted is not there, and what builds on the choice brings the choice.
func TestWant_LeavesTheRestOut(t *testing.T) {
	house := demoHome(t)
	plan := func(want Want) *Result {
		r, err := Plan(context.Background(), house, want)
		require.NoError(t, err)
		return r
	}
	bare := plan(Want{})
	assert.Equal(t, Want{}, bare.Has)
	assert.Empty(t, bare.Options)
	assert.Empty(t, bare.Cautions)
	assert.Empty(t, bare.Sheet.All())
	assert.NotZero(t, bare.Demand.Energy)

	choice := plan(Want{Choice: true})
	assert.NotEqual(t, None, choice.Choice)
	assert.Empty(t, choice.Sheet.All())
	assert.Empty(t, choice.Outlook)
	assert.Empty(t, choice.Chance)
	for _, o := range choice.Options {
		assert.Empty(t, o.Trace, o.Kind)
		assert.Empty(t, o.Sheet.All(), o.Kind)
	}
	assert.True(t, plan(Want{Outlook: true}).Has.Choice)
	assert.True(t, plan(Want{Chance: true}).Has.Choice)
	assert.True(t, plan(Want{Run: true}).Has.Choice)
	assert.False(t, plan(Want{Derivations: true}).Has.Choice)
	assert.NotEmpty(t, plan(Want{Run: true}).Options[0].Trace)
	assert.NotEmpty(t, plan(Want{Chance: true}).Chance.Exposure)
	assert.NotEmpty(t, plan(Want{Outlook: true}).Outlook.Front)
}

// In steps or at once, the plan is the same, and what is there already does not change when more is worked out.
func TestMore_ComesToTheSameAsAllAtOnce(t *testing.T) {
	for name, house := range homesUnderTest(t) {
		t.Run(name, func(t *testing.T) {
			at := PlanAll(house)
			r, err := Plan(context.Background(), house, Want{})
			require.NoError(t, err)
			for _, want := range []Want{{Derivations: true}, Verdict(), {Chance: true}, {Outlook: true}} {
				before, figures, reasons := *r, figuresOf(r), len(r.Reasons)
				more, err := r.More(context.Background(), want)
				require.NoError(t, err)
				assert.Equal(t, before.Has, r.Has)
				assert.Equal(t, figures, figuresOf(r))
				assert.Len(t, r.Reasons, reasons)
				r = more
			}
			assert.Equal(t, at.Has, r.Has)
			assert.Equal(t, at.Choice, r.Choice)
			assert.Equal(t, at.Reasons, r.Reasons)
			assert.Equal(t, at.Cautions, r.Cautions)
			assert.Equal(t, at.Outlook, r.Outlook)
			assert.Equal(t, at.Chance, r.Chance)
			assert.Equal(t, figuresOf(at), figuresOf(r))
			for i := range at.Options {
				assert.Equal(t, at.Options[i].Trace, r.Options[i].Trace)
				assert.Equal(t, at.Options[i].Sheet.All(), r.Options[i].Sheet.All())
			}
		})
	}
}

func figuresOf(r *Result) []derive.Figure { return append([]derive.Figure{}, r.Sheet.All()...) }

// A context that has ended ends the plan, whatever of it is wanted.
func TestPlan_EndsWithItsContext(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	for _, want := range []Want{{}, {Choice: true}, Verdict(), Everything()} {
		r, err := Plan(ctx, demoHome(t), want)
		assert.ErrorIs(t, err, context.Canceled)
		assert.Nil(t, r)
	}
}

// A countdown is a context that ends at the n-th time that somebody asks whether it has.
type countdown struct {
	context.Context
	left *int
}

func (c countdown) Err() error {
	if *c.left--; *c.left < 0 {
		return context.Canceled
	}
	return nil
}

// Whenever its context ends, a plan gives no half answer, and it asks often enough: between two times no more than some
// hundred runs are made.
func TestPlan_EndsInTheMiddle(t *testing.T) {
	house, err := home.ReadFile("../testdata/homes/worst-start.yaml")
	require.NoError(t, err)
	asked := 1 << 30
	_, err = Plan(countdown{context.Background(), &asked}, house, Everything())
	require.NoError(t, err)
	asked = 1<<30 - asked
	require.Greater(t, asked, 100, "it is asked while work goes on")
	for left := 1; left < asked; left += 1 + asked/50 {
		n := left
		r, err := Plan(countdown{context.Background(), &n}, house, Everything())
		require.ErrorIs(t, err, context.Canceled)
		require.Nil(t, r)
	}
}

// The same home has the same plan twice over, budgets and all.
func TestPlan_IsTheSameEveryTime(t *testing.T) {
	text, err := os.ReadFile("../testdata/hard/ninety-days.yaml")
	require.NoError(t, err)
	house, err := home.Read(text, "ninety-days.yaml")
	require.NoError(t, err)
	first, second := PlanAll(house), PlanAll(house)
	require.Equal(t, figuresOf(first), figuresOf(second))
	require.Equal(t, first.Reasons, second.Reasons)
	require.Equal(t, first.Outlook, second.Outlook)
}
