package loads

import (
	"math"

	"holdover/loads/home"
	"holdover/loads/units"
)

// LegLimits is what one leg of a source may give: running, and for the seconds of a start. +Inf is no limit; a limit of nothing
// counts as a billionth, so that a stress is always finite.
type LegLimits struct {
	Running    units.Watts
	RunningVA  units.VoltAmps
	Starting   units.Watts
	StartingVA units.VoltAmps
	Seconds    units.Seconds // a start that lasts longer is held to Long and LongVA; 0: none is, however long
	Long       units.Watts
	LongVA     units.VoltAmps
}

// isLong says whether a load's start lasts longer than a leg's short-time rating.
func (l LegLimits) isLong(of *Load) bool { return l.Seconds > 0 && of.StartTime > l.Seconds }

// start is what a leg may give while a load starts.
func (l LegLimits) start(of *Load) (units.Watts, units.VoltAmps) {
	if l.isLong(of) {
		return l.Long, l.LongVA
	}
	return l.Starting, l.StartingVA
}

// heavierLeg limits nothing but what runs, to 1 VA: the stress under it is the heavier leg in VA.
func heavierLeg() LegLimits {
	none := math.Inf(1)
	return LegLimits{Running: units.Watts(none), RunningVA: 1, Starting: units.Watts(none), StartingVA: units.VoltAmps(none)}
}

// leastLimit is what a limit of nothing counts as, W or VA.
const leastLimit = 1e-9

// legNames are the legs.
var legNames = [2]string{"A", "B"}

// A LegMoment is one moment on one leg, held to the limit that it comes nearest to.
type LegMoment struct {
	Leg     string  // "A" or "B"
	Turn    string  // the rotated circuit that is on, on this leg at least in part; empty for none
	Starter string  // the circuit of which one unit starts; empty when everything merely runs
	Long    bool    // that start outlasts the short-time rating
	Draw    Power   // on this leg
	Real    bool    // the limit in W is the nearer one, not that in VA
	Stress  float64 // share of that limit
}

// String says when and where it is, like "leg A while Well pump starts and it is the turn of Dryer".
func (m LegMoment) String() string {
	text := "leg " + m.Leg
	if m.Starter != "" {
		text += " while " + m.Starter + " starts"
	}
	switch {
	case m.Turn == "" || m.Turn == m.Starter:
		return text
	case m.Starter == "":
		return text + " while it is the turn of " + m.Turn
	}
	return text + " and it is the turn of " + m.Turn
}

// Hardest is the moment with the largest share of a limit, the circuits lying on legs as of says, in the order of d.Loads: "A",
// "B", or "both" for half on each. Of equal ones it is the first with nothing but what is kept.
func (d *Demand) Hardest(of []string, limits LegLimits) LegMoment {
	worst := LegMoment{Leg: "A"}
	starts := limits.limitsStarts()
	for _, leg := range legNames {
		var kept Power
		for i := range d.Loads {
			if d.Loads[i].Care == home.Keep {
				kept += partOn(of[i], leg) * d.Loads[i].Running
			}
		}
		for t := -1; t < len(d.Loads); t++ {
			at := LegMoment{Leg: leg, Draw: kept}
			if t >= 0 {
				if d.Loads[t].Care != home.Rotate || partOn(of[t], leg) == 0 {
					continue // nothing of it is on this leg
				}
				at.Turn, at.Draw = d.Loads[t].Name, kept+partOn(of[t], leg)*d.Loads[t].Running
			}
			worst.raise(at, limits.Running, limits.RunningVA)
			for i := 0; starts && i < len(d.Loads); i++ {
				l, part := &d.Loads[i], partOn(of[i], leg)
				if l.Starts && part != 0 && (l.Care == home.Keep || i == t) {
					start := at
					start.Starter, start.Long, start.Draw = l.Name, limits.isLong(l), at.Draw+part*(l.Starting-l.unit())
					w, va := limits.start(l)
					worst.raise(start, w, va)
				}
			}
		}
	}
	return worst
}

// partOn is the part of a circuit that lies on a leg: 0, a half or 1.
func partOn(of, leg string) Power {
	switch of {
	case leg:
		return 1
	case "both":
		return 0.5
	}
	return 0
}

// raise puts a moment in the place of a lesser one.
func (m *LegMoment) raise(at LegMoment, w units.Watts, va units.VoltAmps) {
	share := float64(at.Draw.VA() / max(va, leastLimit))
	if inW := float64(at.Draw.W() / max(w, leastLimit)); inW > share {
		share, at.Real = inW, true
	}
	if share > m.Stress {
		at.Stress = share
		*m = at
	}
}

// limitsStarts says whether a start is limited at all.
func (l LegLimits) limitsStarts() bool {
	return float64(l.Starting) < unlimited || float64(l.StartingVA) < unlimited || l.Seconds > 0
}
