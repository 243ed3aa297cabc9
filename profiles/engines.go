package profiles

import "slices"

// Engine is a class of ISO 3046-1 with the four numbers of its power adjustment,
// k = ((p_x − a·φ_x·p_sx)/(p_r − a·φ_r·p_sr))^m · (T_r/T_x)^n · (T_cr/T_cx)^q, all without unit.
type Engine struct {
	Name   string  `yaml:"name"`
	Title  string  `yaml:"title"`
	Source string  `yaml:"source"`
	A      float64 `yaml:"a"` // 1 where humidity takes power, else 0
	M      float64 `yaml:"m"` // exponent of the pressure ratio
	N      float64 `yaml:"n"` // exponent of the air temperature ratio
	Q      float64 `yaml:"q"` // exponent of the charge coolant temperature ratio
}

var engines = table[[]Engine]("engines.yaml")

// Engines lists the classes of engine.
func Engines() []Engine { return slices.Clone(engines()) }

// FindEngine gives the class of that name.
func FindEngine(name string) (Engine, bool) {
	return find(engines(), func(e Engine) bool { return e.Name == name })
}
