package risk

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/stat/distuv"
	"pgregory.net/rapid"

	"holdover/loads/units"
	"holdover/profiles"
)

// outside is the same lognormal by a library of its own.
func outside(l Lasting) distuv.LogNormal { return distuv.LogNormal{Mu: l.Mu, Sigma: l.Sigma} }

// drawn draws lo..hi in steps of a thousandth.
func drawn(t *rapid.T, lo, hi float64, name string) float64 {
	return lo + (hi-lo)*float64(rapid.IntRange(0, 1000).Draw(t, name))/1000
}

// anyLasting draws outages from minutes to days, narrow to wide.
func anyLasting(t *rapid.T) Lasting {
	half := drawn(t, 0.05, 48, "half")
	return Fit(units.Hours(half), units.Hours(half*drawn(t, 1.05, 30, "nine in ten over half")))
}

// Source of the other side: gonum/stat/distuv, LogNormal.
func TestLasting_EqualsTheLibrary(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := anyLasting(t)
		d := outside(l)
		hours := math.Exp(drawn(t, -8, 10, "ln hours"))
		assert.InDelta(t, d.CDF(hours), l.Within(hours), 1e-12)
		assert.InEpsilon(t, d.Mean(), l.Mean(), 1e-12)
	})
}

// Half of all outages end within the one figure and nine in ten within the other, by our share and by the library's quantile.
func TestFit_MeetsBothFigures(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		half := drawn(t, 0.05, 48, "half")
		nine := half * drawn(t, 1.05, 30, "nine in ten over half")
		l := Fit(units.Hours(half), units.Hours(nine))
		assert.InDelta(t, 0.5, l.Within(half), 1e-12)
		assert.InDelta(t, 0.9, l.Within(nine), 1e-12)
		assert.InEpsilon(t, half, outside(l).Quantile(0.5), 1e-9)
		assert.InEpsilon(t, nine, outside(l).Quantile(0.9), 1e-9)
	})
}

// Between is an integral of the library's survival function; here it is taken by Gauss-Legendre points of gonum's, over ln t,
// in which the integrand is smooth.
func TestBetween_EqualsTheIntegral(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := anyLasting(t)
		d := outside(l)
		a := math.Exp(l.Mu + l.Sigma*drawn(t, -4, 3, "from"))
		b := a * math.Exp(l.Sigma*drawn(t, 0.01, 2, "to"))
		want := quad.Fixed(func(x float64) float64 { return math.Exp(x) * d.Survival(math.Exp(x)) }, math.Log(a), math.Log(b), 60, nil, 0)
		assert.InDelta(t, want, l.Between(a, b), 1e-9*l.Mean())
	})
}

// The edges: nothing ends before it begins, everything ends, and the whole of all ages is the mean.
func TestLasting_Edges(t *testing.T) {
	l := Fit(2, 10)
	assert.Zero(t, l.Within(0))
	assert.Zero(t, l.Within(-1))
	assert.Equal(t, 1.0, l.Within(math.Inf(1)))
	assert.InEpsilon(t, l.Mean(), l.Between(0, math.Inf(1)), 1e-12)
	assert.InEpsilon(t, l.Mean(), l.Between(0, 3)+l.Between(3, math.Inf(1)), 1e-12)
	assert.Zero(t, l.Between(5, 5))
}

// stretches are the times in which an invented design is short, from three start hours: twice, never again after a while, and
// not at all.
var stretches = [][]Stretch{{{From: 3, To: 5}, {From: 8, To: 20}}, {{From: 12, To: math.Inf(1)}}, nil}

// An independent route: a million outages of random length, from random starts, added up one by one.
func TestExpose_EqualsAMillionOutages(t *testing.T) {
	const outages, perYear = 1_000_000, 1.7
	l := Fit(2, 30)
	got := Expose(l, perYear, stretches)
	draws := distuv.LogNormal{Mu: l.Mu, Sigma: l.Sigma, Src: rand.NewPCG(3, 7)}
	starts := rand.New(rand.NewPCG(11, 13))
	carried, sum, squares := 0.0, 0.0, 0.0
	for range outages {
		length, run := draws.Rand(), stretches[starts.IntN(len(stretches))]
		short := 0.0
		for _, s := range run {
			short += max(0, min(length, s.To)-s.From)
		}
		if short == 0 {
			carried++
		}
		sum += short
		squares += short * short
	}
	share := carried / outages
	assert.InDelta(t, share, got.Carried, 4*math.Sqrt(share*(1-share)/outages), "share carried")
	mean := sum / outages
	deviation := math.Sqrt((squares/outages - mean*mean) / outages)
	assert.InDelta(t, mean*perYear, got.ShortPerYear, 4*deviation*perYear, "hours short a year")
	assert.Greater(t, got.ShortPerYear, 20*deviation*perYear, "the case says something")
}

// A design that is never short carries all; one that is short at once carries none, and is short for as long as outages last.
func TestExpose_Edges(t *testing.T) {
	l := Fit(2, 10)
	never := Expose(l, 3, make([][]Stretch, 24))
	assert.InDelta(t, 1, never.Carried, 1e-12)
	assert.Zero(t, never.ShortPerYear)
	dark := Expose(l, 3, [][]Stretch{{{From: 0, To: math.Inf(1)}}})
	assert.Zero(t, dark.Carried)
	assert.InEpsilon(t, 3*l.Mean(), dark.ShortPerYear, 1e-12)
}

// The published rows, typed again from their source: EIA, Electric Power Annual, Table 11.1, IEEE method, CAIDI in minutes
// with major event days and without, 2014 to 2023.
func TestNational_EIAElectricPowerAnnualTable11_1(t *testing.T) {
	with := []float64{188.0, 163.9, 202.2, 356.2, 260.5, 221.8, 329.3, 331.2, 233.5, 271.8}
	without := []float64{110.0, 109.1, 110.7, 114.3, 115.5, 117.5, 114.5, 120.9, 120.2, 121.3}
	mean := func(minutes []float64) (hours float64) {
		for _, m := range minutes {
			hours += m / 60 / float64(len(minutes))
		}
		return hours
	}
	l := National()
	assert.InEpsilon(t, mean(without), outside(l).Quantile(0.5), 1e-9, "median, h")
	assert.InEpsilon(t, mean(with), outside(l).Mean(), 1e-9, "mean, h")
	assert.InEpsilon(t, 4.264, l.Mean(), 1e-3, "255.84 min")
	assert.InEpsilon(t, 1.923, math.Exp(l.Mu), 1e-3, "115.40 min")
}

// The table is sound in itself: CAIDI = SAIDI/SAIFI (IEEE 1366), to the rounding of three digits of SAIFI and four of SAIDI.
func TestOutageTable_CAIDIIsSAIDIOverSAIFI(t *testing.T) {
	years := profiles.Outages().Years
	assert.Len(t, years, 10)
	for _, y := range years {
		assert.InEpsilon(t, y.SAIDI/y.SAIFI, y.CAIDI, 1e-3, y.Year)
		assert.InEpsilon(t, y.SAIDIWithout/y.SAIFIWithout, y.CAIDIWithout, 1e-3, y.Year)
	}
	assert.True(t, slices.IsSortedFunc(years, func(a, b profiles.OutageYear) int { return a.Year - b.Year }))
}

// Against the lognormal of gonum/stat/distuv.
func TestQuantile_IsThatOfTheLognormal(t *testing.T) {
	for _, l := range []Lasting{Fit(2, 10), National(), {Mu: 3, Sigma: 0.2}} {
		other := distuv.LogNormal{Mu: l.Mu, Sigma: l.Sigma}
		for _, share := range []float64{0.01, 0.5, 0.9, 0.999} {
			assert.InEpsilon(t, other.Quantile(share), l.Quantile(share), 1e-9)
		}
	}
}
