// Package outage answers: what happens when one design is carried through one outage, and when does it fall short?
//
// [Outage.Run] is event-driven and exact. Between two events every flow is constant, so the state of charge is a straight
// line and the next event is found by division: an hour edge, quiet hours beginning or ending, battery empty or full, a
// start or stop threshold met, fuel gone. There is no time step and no drift.
//
// The model, with all power in kW and energy in kWh:
//
//   - The battery gives draw/efficiency plus the inverter's idle draw. It begins full.
//   - The generator, when on, carries the draw up to its site rating and charges the battery in the same breath with what
//     is left, within the charger's limit. What it cannot carry the battery adds through the inverter.
//   - It starts when the charge falls to the start threshold (another one in the lead hours before quiet hours; at a
//     threshold of 1 it is on whatever the charge), or the draw is beyond the inverter; it stops at the stop threshold. It
//     never runs in quiet hours or without fuel, and starts no more than four times for each hour of the outage.
//   - Sun comes before the battery; what is over charges it.
//   - What nothing can carry is short. An empty battery's inverter drops out and draws no idle power.
package outage

import (
	"math"
	"slices"

	"holdover/loads/home"
	"holdover/loads/units"
)

// A Span is a stretch of an outage in which draw, sun and what is permitted do not change.
type Span struct {
	From, To float64 // hours after the start of the outage
	DrawKW   float64 // AC
	SunKW    float64 // AC
	Quiet    bool    // no engine may run
	Lead     bool    // quiet hours are near: fill up
}

// leadHours is how long before quiet hours the generator fills the battery. At the usual charge rate of a third to a
// half of the capacity an hour, three hours fill it from near empty (common practice, no source).
const leadHours = 3

// An Outage is one outage of one house, cut into spans. It is made once and shared by every design tried on it.
type Outage struct {
	Spans   []Span
	Length  units.Hours
	Start   units.Hours // clock time
	LoadKWh float64     // AC energy wanted over the outage
	days    []int       // index of the span with which each day after the first begins
}

// New cuts an outage into spans: at hour edges, at the edges of quiet hours and of the lead before them. Neighbours alike
// in everything are one span, but for the turn of each 24 h after the start.
func New(hourlyDraw, hourlySun [24]units.Watts, start, length units.Hours, quiet home.QuietHours) Outage {
	day := daySpans(hourlyDraw, hourlySun, float64(start), quiet)
	o := Outage{Length: length, Start: start, Spans: make([]Span, 0, (int(length/24)+1)*len(day))}
	for offset := 0.0; offset < float64(length)-sameMoment; offset += 24 {
		if offset > 0 {
			o.days = append(o.days, len(o.Spans))
		}
		for _, s := range day {
			s.From, s.To = s.From+offset, min(s.To+offset, float64(length))
			if s.To-s.From < sameMoment {
				break
			}
			o.LoadKWh += s.DrawKW * (s.To - s.From)
			o.Spans = append(o.Spans, s)
		}
	}
	return o
}

// daySpans cuts the first 24 h.
func daySpans(hourlyDraw, hourlySun [24]units.Watts, start float64, quiet home.QuietHours) (day []Span) {
	edges := edgesOf(start, quiet)
	for i := 1; i < len(edges); i++ {
		clock := math.Mod(start+(edges[i-1]+edges[i])/2, 24)
		s := Span{From: edges[i-1], To: edges[i], Quiet: quiet.Covers(units.Hours(clock)),
			DrawKW: float64(hourlyDraw[int(clock)]) / 1000, SunKW: float64(hourlySun[int(clock)]) / 1000}
		s.Lead = quiet.Any() && !s.Quiet && math.Mod(float64(quiet.From)-clock+24, 24) < leadHours
		if n := len(day); n > 0 {
			longer := s
			longer.From = day[n-1].From
			day[n-1].To = s.To
			if day[n-1] == longer {
				continue
			}
			day[n-1].To = s.From
		}
		day = append(day, s)
	}
	return day
}

// sameMoment is how near two moments are to be one, h: a few microseconds.
const sameMoment = 1e-9

// LeastShortKW is the least shortfall that is more than rounding: a microwatt.
const LeastShortKW = 1e-9

// edgesOf lists the moments of the first 24 h at which something may change, both ends included, rising.
func edgesOf(start float64, quiet home.QuietHours) []float64 {
	edges := []float64{0, 24}
	clocks := make([]float64, 24, 27)
	for h := range 24 {
		clocks[h] = float64(h)
	}
	if quiet.Any() {
		clocks = append(clocks, float64(quiet.From), float64(quiet.To), math.Mod(float64(quiet.From)-leadHours+24, 24))
	}
	for _, clock := range clocks {
		edges = append(edges, math.Mod(clock-start+48, 24))
	}
	slices.Sort(edges)
	return slices.CompactFunc(edges, func(a, b float64) bool { return math.Abs(b-a) < sameMoment })
}
