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
