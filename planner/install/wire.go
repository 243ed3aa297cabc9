package install

import (
	"math"

	"holdover/profiles"
)

// This file sizes wire by the tables of a code: ampacity at the terminals' temperature, with the ambient correction, protection, and
// voltage drop.

// A wanted is what a wire has to do.
type wanted struct {
	code        *profiles.Code
	amps        float64 // least ampacity
	protectA    float64 // overcurrent device it must be protected by, 0 for no such rule
	aluminium   bool
	terminalC   float64 // 60, 75 or 90
	insulationC float64 // 60, 75 or 90
	ambientC    float64
}

// ampacity is what a size carries between terminals of a temperature: its insulation's column corrected for the ambient,
// but never more than the terminals' column. 0 where the table has no value.
func (w wanted) ampacity(c profiles.Conductor) float64 {
	amps := c.Of(w.aluminium).Amps
	return math.Min(amps[w.terminalC], amps[w.insulationC]*w.correction())
}

// correction is the factor for surroundings that are not at the base of the table; 0 where the insulation may not be used there at all.
func (w wanted) correction() float64 {
	for _, row := range w.code.Wire().Ambient {
		if w.ambientC <= row.ToC {
			return row.Factors[w.insulationC]
		}
	}
	return 0
}

// serves says whether a size carries the current and is protected.
func (w wanted) serves(c profiles.Conductor) bool {
	ampacity := w.ampacity(c)
	if ampacity == 0 || ampacity < w.amps-1e-9 {
		return false
	}
	if w.protectA == 0 {
		return true
	}
	if limit := c.Of(w.aluminium).LimitA; limit > 0 && w.protectA > limit { // of small wire
		return false
	}
	// The next standard rating above the ampacity may protect it, up to a limit.
	return w.protectA <= ampacity || (w.protectA <= w.code.Rule("wire-size").Value("next_up_to_a") && w.protectA <= w.code.NextRating(ampacity))
}

// size is the smallest that serves, and its index in the table. ok is false when a single wire is not enough.
func (w wanted) size() (c profiles.Conductor, index int, ok bool) {
	for i, c := range w.code.Wire().Conductors {
		if w.serves(c) {
			return c, i, true
		}
	}
	return profiles.Conductor{}, 0, false
}

// dropVolts is the voltage lost over a run of two conductors: there and back.
func dropVolts(amps, ohmKft, lengthFt float64) float64 { return 2 * amps * ohmKft * lengthFt / 1000 }

// groundFor is the equipment grounding wire behind an overcurrent device, made larger in proportion where the phase wires are
// larger than they need be. Empty beyond the table.
func groundFor(wire profiles.Wire, deviceA float64, aluminium bool, leastMils, mils float64) string {
	for _, g := range wire.Grounds {
		if g.DeviceA < deviceA {
			continue
		}
		size := g.Copper
		if aluminium {
			size = g.Aluminium
		}
		c, _ := wire.Find(size)
		if mils <= leastMils || leastMils == 0 {
			return size
		}
		// The table's circular mils are rounded: a step of as many sizes must not miss its own row by two mils in ten thousand.
		return atLeastMils(wire, math.Max(c.CircularMils*mils/leastMils*0.999, c.CircularMils))
	}
	return ""
}

func atLeastMils(wire profiles.Wire, mils float64) string {
	for _, c := range wire.Conductors {
		if c.CircularMils >= mils-1e-6 {
			return c.Size
		}
	}
	return ""
}
