package transfer

import (
	"math"

	"holdover/profiles"
)

// This file sizes wire: NEC Table 310.16 at the terminals' temperature, with the ambient correction, the protection of
// 240.4, and the voltage drop of Chapter 9 Table 8.

// A wanted is what a wire has to do.
type wanted struct {
	amps        float64 // least ampacity
	protectA    float64 // overcurrent device it must be protected by, 0 for no such rule
	aluminium   bool
	terminalC   float64 // 60, 75 or 90
	insulationC float64 // 60, 75 or 90
	ambientC    float64
}

// ampacity is what a size carries between terminals of a temperature: its insulation's column corrected for the ambient,
// but never more than the terminals' column (110.14(C)). 0 where the table has no value.
func (w wanted) ampacity(c profiles.Conductor) float64 {
	return math.Min(w.column(c, w.terminalC), w.column(c, w.insulationC)*w.correction())
}

func (w wanted) column(c profiles.Conductor, celsius float64) float64 {
	columns := map[float64]float64{60: c.Copper60A, 75: c.Copper75A, 90: c.Copper90A}
	if w.aluminium {
		columns = map[float64]float64{60: c.Aluminium60A, 75: c.Aluminium75A, 90: c.Aluminium90A}
	}
	return columns[celsius]
}

// correction is the factor for surroundings that are not at 30 °C; 0 where the insulation may not be used there at all.
func (w wanted) correction() float64 {
	for _, row := range profiles.AmbientCorrections() {
		if w.ambientC <= row.ToC {
			return map[float64]float64{60: row.Factor60, 75: row.Factor75, 90: row.Factor90}[w.insulationC]
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
	limit := c.CopperLimitA
	if w.aluminium {
		limit = c.AluminiumLimitA
	}
	if limit > 0 && w.protectA > limit { // 240.4(D)
		return false
	}
	// 240.4(B): the next standard rating above the ampacity may protect it, up to 800 A.
	return w.protectA <= ampacity || (w.protectA <= 800 && w.protectA <= nextStandard(ampacity))
}

// size is the smallest that serves, from a size on (its index in the table). ok is false when a single wire is not enough.
func (w wanted) size(from int) (c profiles.Conductor, index int, ok bool) {
	all := profiles.Conductors()
	for i := from; i < len(all); i++ {
		if w.serves(all[i]) {
			return all[i], i, true
		}
	}
	return profiles.Conductor{}, 0, false
}

// ohmKft is the wire's resistance, Ω per 1000 ft.
func ohmKft(c profiles.Conductor, aluminium bool) float64 {
	if aluminium {
		return c.AluminiumOhmKft
	}
	return c.CopperOhmKft
}

// dropVolts is the voltage lost over a run of two conductors: there and back.
func dropVolts(amps, ohmKft, lengthFt float64) float64 { return 2 * amps * ohmKft * lengthFt / 1000 }

// groundFor is the equipment grounding wire behind an overcurrent device (250.122), made larger in proportion where the
// phase wires are larger than they need be (250.122(B)). Empty beyond the table.
func groundFor(deviceA float64, aluminium bool, leastMils, mils float64) string {
	for _, g := range profiles.Grounds() {
		if g.DeviceA < deviceA {
			continue
		}
		size := g.Copper
		if aluminium {
			size = g.Aluminium
		}
		c, _ := profiles.FindConductor(size)
		if mils <= leastMils || leastMils == 0 {
			return size
		}
		// The table's circular mils are rounded: a step of as many sizes must not miss its own row by two mils in ten thousand.
		return atLeastMils(math.Max(c.CircularMils*mils/leastMils*0.999, c.CircularMils))
	}
	return ""
}

func atLeastMils(mils float64) string {
	for _, c := range profiles.Conductors() {
		if c.CircularMils >= mils-1e-6 {
			return c.Size
		}
	}
	return ""
}
