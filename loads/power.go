package loads

import (
	"math"
	"math/cmplx"

	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/profiles"
)

// Power is complex power in VA: the real part is W, the imaginary part is var. Loads of different power factor add as
// complex numbers, S = √((ΣP)² + (ΣQ)²), never as bare VA.
type Power complex128

// W is the real part.
func (p Power) W() units.Watts { return units.Watts(real(p)) }

// VA is the magnitude.
func (p Power) VA() units.VoltAmps { return units.VoltAmps(cmplx.Abs(complex128(p))) }

// fromWatts makes the complex power of a real power at a power factor 0 < pf ≤ 1, lagging: Q = P·tan(arccos pf).
func fromWatts(w, pf float64) Power {
	return Power(complex(w, w*math.Sqrt(1-pf*pf)/pf))
}

// fromVA makes the complex power of an apparent power at a power factor.
func fromVA(va, pf float64) Power { return fromWatts(va*pf, pf) }

// RunningPower is what one unit of the circuit draws when on. A heater's frost heaters do not count here; see [Load].
func RunningPower(c *home.Circuit) Power { return fromWatts(float64(runningWatts(c)), c.PowerFactor) }

// runningWatts is the steady draw of one unit: a heater's draw is that of firing.
func runningWatts(c *home.Circuit) units.Watts {
	if c.Heater != nil && c.Heater.Firing > 0 {
		return c.Heater.Firing
	}
	return c.Running
}

func standbyWatts(c *home.Circuit) units.Watts {
	if c.Heater != nil && c.Heater.Standby > 0 {
		return c.Heater.Standby
	}
	return c.Standby
}

// StartingPower is what one unit draws in its first moments; ok is false when it starts without a surge.
// motorPF is the starting power factor where the circuit gives none.
//
//   - times: × running VA
//   - amps: locked-rotor amps × volts
//   - code: the upper bound of the code letter, kVA per hp, × hp
//   - watts: starting W / starting power factor
func StartingPower(c *home.Circuit, motorPF float64) (p Power, ok bool) {
	pf := c.Start.PowerFactor
	if pf == 0 {
		pf = motorPF
	}
	switch c.Start.Kind {
	case home.StartTimes:
		return fromVA(c.Start.Times*float64(RunningPower(c).VA()), pf), true
	case home.StartAmps:
		volts := c.Start.Volts
		if volts == 0 {
			volts = c.Volts
		}
		return fromVA(float64(c.Start.Amps)*float64(volts), pf), true
	case home.StartLetter:
		_, high, _ := profiles.CodeLetterKVAPerHP(c.Start.Letter)
		return fromVA(high*1000*c.Start.HP, pf), true
	case home.StartWatts:
		return fromWatts(float64(c.Start.Watts), pf), true
	}
	return 0, false
}
