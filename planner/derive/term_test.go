package derive_test

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"holdover/planner/derive"
)

func TestTerm_TheFormulaIsTheExpression(t *testing.T) {
	var f derive.Figures
	running := f.Add(derive.Figure{ID: "load.running_va", Value: 2000, Unit: "VA"})
	margin := f.Add(derive.Figure{ID: "assume.power_margin", Value: 0.15})
	derate := f.Add(derive.Figure{ID: "site.inverter_derate", Value: 0.9})
	f.Put("inverter.continuous_va", "VA", running.Times(derive.One.Plus(margin)).Over(derate), "by hand")
	got, ok := f.Get("inverter.continuous_va")
	require.True(t, ok)
	assert.Equal(t, derive.Figure{ID: "inverter.continuous_va", Value: 2000 * 1.15 / 0.9, Unit: "VA", How: "running VA · (1 + power margin) / inverter derate",
		From: []string{"load.running_va", "assume.power_margin", "site.inverter_derate"}, Source: "by hand"}, got)

	k, dip := derive.Called("k", 0.8, "site.air_c"), derive.Called("d", 0.25)
	for how, term := range map[string]derive.Term{
		"1 − (running VA − k)":           derive.One.Minus(running.Minus(k)),
		"running VA / (k · d)":           running.Over(k.Times(dip)),
		"k · (1 − d) / d":                k.Times(derive.One.Minus(dip)).Over(dip),
		"(running VA)^(k − 1)":           running.To(k.Minus(derive.One)),
		"max(k · d, running VA)":         derive.Max(k.Times(dip), running),
		"(1 − 0.0065 · k / 288.15)^5.25": derive.One.Minus(derive.Number(0.0065).Times(k).Over(derive.Number(288.15))).To(derive.Number(5.25)),
		"k · d, held for 3 s":            k.Times(dip).With("held for 3 s"),
	} {
		f.Put("x", "", term, "")
		x, _ := f.Get("x")
		assert.Equal(t, how, x.How)
		assert.Equal(t, term.Value, x.Value)
	}
	assert.InDelta(t, 2, running.Kilo().Value, 1e-12)
}

// What nobody reads has the same value and writes nothing.
func TestTerm_QuietWithoutFigures(t *testing.T) {
	var none *derive.Figures
	a := none.At("load.running_va", 2000)
	made := none.Put("x", "VA", a.Times(derive.Called("k", 2)).With("so"), "")
	assert.Equal(t, 4000.0, made.Value)
	var f derive.Figures
	assert.Panics(t, func() { f.Put("y", "", made, "") }, "a figure without a formula")
	assert.Empty(t, none.All())
}

// The text of any expression, read and worked out again by the rules of arithmetic alone, comes to its value.
func TestTerm_TextComesToTheValue(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		term := drawTerm(r, 4)
		var f derive.Figures
		f.Put("x", "", term, "")
		x, _ := f.Get("x")
		p := &reading{text: []rune(strings.ReplaceAll(x.How, " ", ""))}
		got := p.sum()
		assert.Empty(r, string(p.text), x.How)
		if math.Abs(got-term.Value) > 1e-9*math.Abs(term.Value)+1e-12 {
			r.Fatalf("%s is read as %v and was worked out as %v", x.How, got, term.Value)
		}
	})
}

// drawTerm draws an expression over a few numbers and names; n12 stands for 12.
func drawTerm(r *rapid.T, depth int) derive.Term {
	kinds := []string{"number", "name", "plus", "minus", "times", "over", "max", "min", "to"}
	if depth == 0 {
		kinds = kinds[:2]
	}
	kind := rapid.SampledFrom(kinds).Draw(r, "kind")
	n := float64(rapid.IntRange(1, 9).Draw(r, "n"))
	switch kind {
	case "number":
		return derive.Number(n)
	case "name":
		return derive.Called(fmt.Sprintf("n%v", n), n)
	}
	a, b := drawTerm(r, depth-1), drawTerm(r, depth-1)
	switch kind {
	case "plus":
		return a.Plus(b)
	case "minus":
		return a.Minus(b)
	case "times":
		return a.Times(b)
	case "max":
		return derive.Max(a, b)
	case "min":
		return derive.Min(a, b)
	case "over":
		if math.Abs(b.Value) < 1e-6 {
			return a
		}
		return a.Over(b)
	}
	if a.Value <= 0 || a.Value > 1e3 || math.Abs(b.Value) > 4 {
		return a
	}
	return a.To(b)
}

// A reading reads a formula from left to right, by the usual rules: ^ before · and /, those before + and −.
type reading struct{ text []rune }

func (p *reading) take(s string) bool {
	if strings.HasPrefix(string(p.text), s) {
		p.text = p.text[len([]rune(s)):]
		return true
	}
	return false
}

func (p *reading) sum() float64 {
	v := p.product()
	for {
		switch {
		case p.take("+"):
			v += p.product()
		case p.take("−"):
			v -= p.product()
		default:
			return v
		}
	}
}

func (p *reading) product() float64 {
	v := p.power()
	for {
		switch {
		case p.take("·"):
			v *= p.power()
		case p.take("/"):
			v /= p.power()
		default:
			return v
		}
	}
}

func (p *reading) power() float64 {
	v := p.atom()
	if p.take("^") {
		v = math.Pow(v, p.power())
	}
	return v
}

func (p *reading) atom() float64 {
	switch {
	case p.take("max("):
		return p.two(math.Max)
	case p.take("min("):
		return p.two(math.Min)
	case p.take("("):
		v := p.sum()
		p.take(")")
		return v
	}
	p.take("n")
	end := 0
	for end < len(p.text) && strings.ContainsRune("0123456789.", p.text[end]) {
		end++
	}
	v, err := strconv.ParseFloat(string(p.text[:end]), 64)
	if err != nil {
		return math.NaN()
	}
	p.text = p.text[end:]
	return v
}

func (p *reading) two(f func(a, b float64) float64) float64 {
	a := p.sum()
	p.take(",")
	v := f(a, p.sum())
	p.take(")")
	return v
}
