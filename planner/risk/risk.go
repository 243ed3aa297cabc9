// Package risk answers: of all the outages to come, how many does a design carry, and how many hours a year is it short?
//
// How long outages last is taken as a lognormal, fitted to two figures: a household's own, or national ones. A design's run
// through a very long outage gives the stretches in which it is short; both answers then have a closed form, averaged over
// the 24 clock hours at which an outage may begin. Nothing is sampled.
package risk

import (
	"fmt"
	"math"

	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/planner/derive"
	"holdover/profiles"
)

// A Lasting is the lognormal of how long outages last: ln(hours) is normal with mean Mu and standard deviation Sigma.
type Lasting struct {
	Mu, Sigma float64
	Source    string
}

// ninetieth is the standard normal's 90 % point.
var ninetieth = math.Sqrt2 * math.Erfinv(0.8)

// Fit makes the lognormal of which half lies below half and nine in ten below nineInTen, 0 < half < nineInTen.
func Fit(half, nineInTen units.Hours) Lasting {
	mu := math.Log(float64(half))
	return Lasting{mu, (math.Log(float64(nineInTen)) - mu) / ninetieth, "outage.lasts in the home file"}
}

// National is the lognormal of the published figures: its median the mean interruption of the years without major event
// days, which is the common case, its mean that with them.
func National() Lasting {
	statistics := profiles.Outages()
	median, mean := 0.0, 0.0
	for _, y := range statistics.Years {
		median += y.CAIDIWithout / 60 / float64(len(statistics.Years))
		mean += y.CAIDI / 60 / float64(len(statistics.Years))
	}
	return Lasting{math.Log(median), math.Sqrt(2 * math.Log(mean/median)),
		fmt.Sprintf("%s: median %.3g h (CAIDI without major event days), mean %.3g h (with them)", statistics.Source, median, mean)}
}

// Of is the lognormal a home asks for.
func Of(house *home.Home) Lasting {
	if l := house.Outage.Lasts; l.Half > 0 {
		return Fit(l.Half, l.NineInTen)
	}
	return National()
}

// Within is the share of outages that end within so many hours.
func (l Lasting) Within(hours float64) float64 {
	switch {
	case hours <= 0:
		return 0
	case math.IsInf(hours, 1):
		return 1
	}
	return normal((math.Log(hours) - l.Mu) / l.Sigma)
}

// Quantile is the length within which a share of outages end, h; 0 < share < 1.
func (l Lasting) Quantile(share float64) float64 {
	return math.Exp(l.Mu + l.Sigma*math.Sqrt2*math.Erfinv(2*share-1))
}

// Mean is the mean length, h.
func (l Lasting) Mean() float64 { return math.Exp(l.Mu + l.Sigma*l.Sigma/2) }

// Between is the mean time that an outage spends between two ages, ∫ from a to b of the share that last longer, h:
//
//	b·S(b) − a·S(a) + mean·(Φ(z(b) − σ) − Φ(z(a) − σ)) with z(t) = (ln t − μ)/σ
func (l Lasting) Between(a, b float64) float64 { return l.upTo(b) - l.upTo(a) }

func (l Lasting) upTo(t float64) float64 {
	switch {
	case t <= 0:
		return 0
	case math.IsInf(t, 1):
		return l.Mean()
	}
	z := (math.Log(t) - l.Mu) / l.Sigma
	return t*normal(-z) + l.Mean()*normal(z-l.Sigma)
}

// normal is the standard normal distribution function.
func normal(z float64) float64 { return math.Erfc(-z/math.Sqrt2) / 2 }

// A Stretch is one time in which a design is short, in hours after the start of the outage.
type Stretch struct{ From, To float64 }

// Exposure is what a design leaves open.
type Exposure struct {
	Carried      float64 // share of outages carried throughout
	ShortPerYear float64 // hours a year in which something is short
}

// Expose averages over start hours: runs has, for each of them, the stretches in which the design is short, rising.
func Expose(l Lasting, outagesPerYear float64, runs [][]Stretch) Exposure {
	var e Exposure
	for _, stretches := range runs {
		first := math.Inf(1)
		if len(stretches) > 0 {
			first = stretches[0].From
		}
		e.Carried += l.Within(first)
		for _, s := range stretches {
			e.ShortPerYear += outagesPerYear * l.Between(s.From, s.To)
		}
	}
	e.Carried /= float64(len(runs))
	e.ShortPerYear /= float64(len(runs))
	return e
}

// Derive puts down how long outages last, and from what where the home file says it.
func (l Lasting) Derive(f *derive.Figures, from ...string) {
	f.Note("risk.mean_outage_h", l.Mean(), "h", fmt.Sprintf("mean of the lognormal with μ = %.3f and σ = %.3f", l.Mu, l.Sigma), l.Source, from...)
	f.Note("risk.half_within_h", l.Quantile(0.5), "h", "50 % of outages end within, by the same lognormal", l.Source, from...)
	f.Note("risk.nine_in_ten_within_h", l.Quantile(0.9), "h", "90 % of outages end within, by the same lognormal", l.Source, from...)
}

// Derive puts down what a design of a kind leaves open.
func (e Exposure) Derive(f *derive.Figures, kind string) {
	const source = "closed form of the lognormal; the event-driven run of this design through the outage"
	f.Note(kind+".carried_share", e.Carried, "", "share of outages carried throughout, averaged over the 24 start hours", source, "risk.mean_outage_h")
	f.Note(kind+".short_h_per_year", e.ShortPerYear, "h", "hours a year in which something kept is without supply, averaged over the 24 start hours", source, "risk.mean_outage_h", "outage.per_year")
}
