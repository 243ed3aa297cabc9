package profiles

import (
	"slices"
	"sync"
)

// MotorRow is the full-load current of a single-phase motor, A.
type MotorRow struct {
	HP      float64 `yaml:"hp"`
	Amps115 float64 `yaml:"amps_115"` // for systems of 110 to 120 V
	Amps200 float64 `yaml:"amps_200"`
	Amps208 float64 `yaml:"amps_208"`
	Amps230 float64 `yaml:"amps_230"` // for systems of 220 to 240 V
}

// motorTables are those of a code.
type motorTables struct {
	FullLoad    []MotorRow `yaml:"full_load"` // by rated horsepower, rising
	LockedRotor []struct {
		Letter string  `yaml:"letter"`
		Low    float64 `yaml:"low_kva_per_hp"`
		High   float64 `yaml:"high_kva_per_hp"`
	} `yaml:"locked_rotor"`
}

// usualMotors is what a motor is taken to be of which only the horsepower is known.
var usualMotors = table[struct {
	Source       string  `yaml:"source"`
	PowerFactor  float64 `yaml:"power_factor"`
	StartSeconds float64 `yaml:"start_seconds"`
	Letters      []struct {
		HP     float64 `yaml:"hp"`
		Letter string  `yaml:"letter"`
	} `yaml:"letters"`
}]("motors.yaml")

// motors are the tables of the usual code of North America: those of its other editions are the same, and IEC has none.
var motors = sync.OnceValue(func() motorTables { return UsualCode("120/240 V").motors() })

// Motors lists full-load currents by rated horsepower, rising.
func Motors() []MotorRow { return slices.Clone(motors().FullLoad) }

// A Motor is what a single-phase motor of which only the horsepower is known is taken to be.
type Motor struct {
	Row          MotorRow
	PowerFactor  float64 // while running
	Letter       string  // code letter
	StartSeconds float64
	Source       string // of all but the row
}

// sameHP is how far a horsepower may be from one of the table and still count as it: 1/3 is written 0.33.
const sameHP = 1.02

// UsualMotor gives the motor of a horsepower above 0: with the current of the table's next size up, where it has none of its own.
// ok is false beyond the end of the table, 10 hp.
func UsualMotor(hp float64) (m Motor, ok bool) {
	row, ok := find(motors().FullLoad, func(row MotorRow) bool { return row.HP*sameHP >= hp })
	if !ok {
		return Motor{}, false
	}
	usual := usualMotors()
	m = Motor{Row: row, PowerFactor: usual.PowerFactor, StartSeconds: usual.StartSeconds, Source: usual.Source}
	for _, l := range usual.Letters {
		if m.Letter == "" && l.HP*sameHP >= hp {
			m.Letter = l.Letter
		}
	}
	return m, true
}

// Amps is the full-load current at a voltage, by the column for it.
func (r MotorRow) Amps(volts float64) float64 {
	switch {
	case volts < 200:
		return r.Amps115
	case volts < 204:
		return r.Amps200
	case volts < 220:
		return r.Amps208
	}
	return r.Amps230
}

// CodeLetterKVAPerHP gives the range of locked-rotor kVA per horsepower that a motor's code letter stands for, both ends
// included. The letter V has no upper end, so high is +Inf. Letters I, O and Q are not used.
func CodeLetterKVAPerHP(letter string) (low, high float64, ok bool) {
	for _, row := range motors().LockedRotor {
		if row.Letter == letter {
			return row.Low, row.High, true
		}
	}
	return 0, 0, false
}
