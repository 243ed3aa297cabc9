package waiting

import (
	"math"

	"holdover/loads/home"
	"holdover/loads/units"
)

// A House is a building as one lump of heat: it holds Capacity for each kelvin, loses Loss for each kelvin that it is warmer
// than outdoors, and gains Gains all the while.
//
//	C·dT/dt = gains − loss·(T − outdoors), so T runs to outdoors + gains/loss as e^(−t/τ) with τ = C/loss
type House struct {
	Capacity units.WattHoursPerKelvin // > 0
	Loss     units.WattsPerKelvin     // > 0
	Gains    units.Watts
	Begin    units.Celsius // indoors when the heat stops
}

// HouseOf takes the building from a home; missing names what the home file must give for it.
func HouseOf(house *home.Home) (h House, missing []string) {
	b := house.House
	if b.HeatLoss == 0 {
		missing = append(missing, "home.heat_loss")
	}
	if b.HeatCapacity == 0 {
		missing = append(missing, "home.heat_capacity")
	}
	return House{b.HeatCapacity, b.HeatLoss, b.Gains, b.Indoors}, missing
}

// TimeConstant is τ: after it 63 % of a difference is gone.
func (h House) TimeConstant() units.Hours { return units.Hours(float64(h.Capacity) / float64(h.Loss)) }

// RunsTo is the temperature it would come to with so much outdoors.
func (h House) RunsTo(outdoors units.Celsius) units.Celsius {
	return outdoors + units.Celsius(float64(h.Gains)/float64(h.Loss))
}

// After is the indoor temperature some time later, outdoors staying as it is.
func (h House) After(from units.Celsius, later units.Hours, outdoors units.Celsius) units.Celsius {
	end := h.RunsTo(outdoors)
	return end + (from-end)*units.Celsius(math.Exp(-float64(later/h.TimeConstant())))
}

// cooled is when it falls to a level within some hours of steady outdoor temperature; ok is false when it does not.
func (h House) cooled(from, level units.Celsius, within units.Hours, outdoors units.Celsius) (units.Hours, bool) {
	end := h.RunsTo(outdoors)
	if end >= level {
		return 0, false
	}
	at := h.TimeConstant() * units.Hours(math.Log(float64((from-end)/(level-end))))
	return at, at <= within
}

// followed bounds how long a house is watched; in that time the daily swing has long become the same each day.
const followed = units.Hours(60 * 24)

// HoursTo is how long it takes to fall to a level from a clock time, the outdoor temperatures of a day repeating; ok is false
// when it never does. Within each hour the answer is exact.
func (h House) HoursTo(level units.Celsius, outdoors [24]units.Celsius, start units.Hours) (after units.Hours, ok bool) {
	if h.Begin <= level {
		return 0, true
	}
	t := h.Begin
	for after < followed {
		clock := math.Mod(float64(start+after), 24)
		hour := int(clock+1e-9) % 24
		step := units.Hours(math.Floor(clock+1e-9) + 1 - clock)
		if at, falls := h.cooled(t, level, step, outdoors[hour]); falls {
			return after + at, true
		}
		t = h.After(t, step, outdoors[hour])
		after += step
	}
	return 0, false
}
