package home

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"gopkg.in/yaml.v3"

	"holdover/loads/units"
	"holdover/profiles"
)

// This file finds what a maker's runtimes cannot be, so that it is a fault of the sheet where it stands and not a riddle for
// whoever works with them. Delivering more at a heavier load is no fault: what the unit draws for itself does that.

// checkRuntimes holds the published runtimes of a unit to one another and to its stated energy. Each fault names the point that
// does not go with the rest.
func (r *reader) checkRuntimes(n *yaml.Node, g *Gear, path string) {
	for _, p := range g.Runtimes {
		if p.Load <= 0 || p.Time <= 0 {
			return // a part of it was faulted
		}
	}
	order := make([]int, len(g.Runtimes))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, j int) int { return cmp.Compare(g.Runtimes[i].Load, g.Runtimes[j].Load) })
	fault := func(i int, message string) {
		at := n
		if n.Kind == yaml.SequenceNode && i < len(n.Content) {
			at = n.Content[i]
		}
		r.fault(at, fmt.Sprintf("%s[%d]", path, i), "%s", message)
	}
	for k := 1; k < len(order); k++ {
		if message := beside(g.Runtimes[order[k-1]], g.Runtimes[order[k]]); message != "" {
			fault(order[k], message)
			return
		}
	}
	if last := len(order) - 1; last > 0 {
		if message := steep(g.Runtimes[order[0]], g.Runtimes[order[last]], profiles.Fit().Runtimes.Steepest); message != "" {
			fault(order[last], message)
			return
		}
	}
	for i, p := range g.Runtimes {
		if message := g.beyondEnergy(p); message != "" {
			fault(i, message)
		}
	}
}

// beside says what is wrong with a point and the next heavier one.
func beside(lighter, heavier Runtime) string {
	switch {
	case lighter.Load == heavier.Load:
		return fmt.Sprintf("the load %s stands twice, for %s and for %s; one load has one runtime", share(lighter.Load), minutes(lighter.Time), minutes(heavier.Time))
	case heavier.Time >= lighter.Time:
		return fmt.Sprintf("%s at a load of %s, and %s at %s; a higher load must last less long", minutes(heavier.Time), share(heavier.Load), minutes(lighter.Time), share(lighter.Load))
	}
	return steep(lighter, heavier, profiles.Fit().Runtimes.SteepestStep)
}

// steep says that two points lie on a power law, time as load to the power −b, that falls faster than any battery's does.
func steep(lighter, heavier Runtime, most float64) string {
	b := math.Log(float64(lighter.Time/heavier.Time)) / math.Log(heavier.Load/lighter.Load)
	if b <= most {
		return ""
	}
	return fmt.Sprintf("%s at a load of %s, but %s at %s: %s times the load lasts a %sth as long, and no battery falls off so fast; look at both points again",
		minutes(heavier.Time), share(heavier.Load), minutes(lighter.Time), share(lighter.Load), units.Format(heavier.Load/lighter.Load), units.Format(float64(lighter.Time/heavier.Time)))
}

// beyondEnergy says that a point gives more energy than the sheet says is stored, the makers' rounding allowed for.
func (g *Gear) beyondEnergy(p Runtime) string {
	given := p.Load * float64(g.Watts) * float64(p.Time) / 60
	if !g.Has("energy") || g.Watts <= 0 || given <= float64(g.Energy)*(1+profiles.Fit().Runtimes.Rounding) {
		return ""
	}
	return fmt.Sprintf("%s of %s W for %s is %s Wh; the sheet says that %s Wh are stored (energy)", share(p.Load), units.Format(float64(g.Watts)), minutes(p.Time),
		units.Format(given), units.Format(float64(g.Energy)))
}

func share(load float64) string { return units.Format(load*100) + " %" }

func minutes(t units.Minutes) string { return units.Format(float64(t)) + " min" }
