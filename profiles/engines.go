package profiles

// Engine is a class of ISO 3046-1 with the four numbers of its power adjustment,
// k = ((p_x − a·φ_x·p_sx)/(p_r − a·φ_r·p_sr))^m · (T_r/T_x)^n · (T_cr/T_cx)^q, all without unit.
type Engine struct {
	Entry[EngineName] `yaml:",inline"`

	A float64 `yaml:"a"` // 1 where humidity takes power, else 0
	M float64 `yaml:"m"` // exponent of the pressure ratio
	N float64 `yaml:"n"` // exponent of the air temperature ratio
	Q float64 `yaml:"q"` // exponent of the charge coolant temperature ratio
}

var engines = registry[Engine](table[[]Engine]("engines.yaml"))

// Engines lists the classes of engine.
func Engines() []Engine { return engines.all() }

// FindEngine gives the class of that name.
func FindEngine(name EngineName) (Engine, bool) { return engines.find(string(name)) }
