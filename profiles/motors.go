package profiles

import "slices"

// MotorRow is the full-load current of a single-phase motor, NEC Table 430.248, A.
type MotorRow struct {
	HP      float64 `yaml:"hp"`
	Amps115 float64 `yaml:"amps_115"` // for systems of 110 to 120 V
	Amps200 float64 `yaml:"amps_200"`
	Amps208 float64 `yaml:"amps_208"`
	Amps230 float64 `yaml:"amps_230"` // for systems of 220 to 240 V
}

type motorTables struct {
	FullLoad struct {
		Source string     `yaml:"source"`
		Rows   []MotorRow `yaml:"rows"`
	} `yaml:"full_load"`
	Usual struct {
		Source       string  `yaml:"source"`
		PowerFactor  float64 `yaml:"power_factor"`
		StartSeconds float64 `yaml:"start_seconds"`
		Letters      []struct {
			HP     float64 `yaml:"hp"`
			Letter string  `yaml:"letter"`
		} `yaml:"letters"`
	} `yaml:"usual"`
	LockedRotor struct {
		Source string `yaml:"source"`
		Rows   []struct {
			Letter string  `yaml:"letter"`
			Low    float64 `yaml:"low_kva_per_hp"`
			High   float64 `yaml:"high_kva_per_hp"`
		} `yaml:"rows"`
	} `yaml:"locked_rotor"`
}

var motors = table[motorTables]("motors.yaml")

// Motors lists full-load currents by rated horsepower, rising: NEC Table 430.248.
func Motors() []MotorRow { return slices.Clone(motors().FullLoad.Rows) }

// A Motor is what a single-phase motor of which only the horsepower is known is taken to be.
type Motor struct {
	Row          MotorRow
	PowerFactor  float64 // while running
	Letter       string  // NEC code letter
	StartSeconds float64
	Source       string // of all but the row
	RowSource    string
}

// sameHP is how far a horsepower may be from one of the table and still count as it: 1/3 is written 0.33.
const sameHP = 1.02

// UsualMotor gives the motor of a horsepower above 0: with the current of the table's next size up, where it has none of its own.
// ok is false beyond the end of the table, 10 hp.
func UsualMotor(hp float64) (m Motor, ok bool) {
	table := motors()
	row, ok := find(table.FullLoad.Rows, func(row MotorRow) bool { return row.HP*sameHP >= hp })
	if !ok {
		return Motor{}, false
	}
	usual := table.Usual
	m = Motor{Row: row, PowerFactor: usual.PowerFactor, StartSeconds: usual.StartSeconds, Source: usual.Source, RowSource: table.FullLoad.Source}
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
// included: NEC Table 430.7(B). The letter V has no upper end, so high is +Inf. Letters I, O and Q are not used.
func CodeLetterKVAPerHP(letter string) (low, high float64, ok bool) {
	for _, row := range motors().LockedRotor.Rows {
		if row.Letter == letter {
			return row.Low, row.High, true
		}
	}
	return 0, 0, false
}
