package profiles

// FitRules are what a unit is held to beyond the figures of the circuits themselves. Shares are 0..1.
type FitRules struct {
	SineDistortion  ShareRule       `yaml:"sine_distortion"`
	Volts           ShareRule       `yaml:"volts"`
	Hertz           ShareRule       `yaml:"hertz"`
	BehindGenerator RatioRule       `yaml:"behind_generator"`
	Corrected       CorrectedRule   `yaml:"corrected_supply"`
	ServiceHertz    map[int]float64 `yaml:"service_hertz"` // Hz by volts of a leg
	HertzSource     string          `yaml:"service_hertz_source"`
	Runtimes        RuntimeRule     `yaml:"runtimes"`
}

// A ShareRule is a share with its source.
type ShareRule struct {
	Share  float64 `yaml:"share"`
	Source string  `yaml:"source"`
}

// A RuntimeRule is what published runtimes can be. The exponents are b of t ~ P^−b through two points.
type RuntimeRule struct {
	Steepest     float64 `yaml:"steepest"`      // between the lightest and the heaviest load
	SteepestStep float64 `yaml:"steepest_step"` // between a load and the next
	Rounding     float64 `yaml:"rounding"`      // share by which load times time may pass the stated energy
	Source       string  `yaml:"source"`
}

// A RatioRule is a ratio with its source.
type RatioRule struct {
	Ratio  float64 `yaml:"ratio"`
	Source string  `yaml:"source"`
}

// A CorrectedRule says which circuits have a power-factor corrected supply where nobody says so.
type CorrectedRule struct {
	PowerFactor float64  `yaml:"power_factor"`
	Groups      []string `yaml:"groups"`
	Source      string   `yaml:"source"`
}

var fitRules = table[FitRules]("fit.yaml")

// Fit gives the rules. What is inside is shared and must be read only.
func Fit() FitRules { return fitRules() }
