package profiles

// A HeaterKind is what a water heater is.
type HeaterKind string

// The kinds; a RecirculationPump is none, and only moves hot water.
const (
	GasInstant        HeaterKind = "gas-instant"
	GasPilot          HeaterKind = "gas-pilot" // with a standing pilot, without supply
	GasTank           HeaterKind = "gas-tank"
	ElectricTank      HeaterKind = "electric-tank"
	ElectricInstant   HeaterKind = "electric-instant"
	HeatPumpTank      HeaterKind = "heat-pump"
	RecirculationPump HeaterKind = "pump"
)

// HotWater is what is known of drawing and heating water.
type HotWater struct {
	Day struct {
		Source     string             `yaml:"source"`
		InletC     float64            `yaml:"inlet_c"`     // °C
		DeliveredC float64            `yaml:"delivered_c"` // °C
		Litres     map[string]float64 `yaml:"litres"`      // L a day by usage bin
	} `yaml:"day"`
	Shower struct {
		Source string  `yaml:"source"`
		Litres float64 `yaml:"litres"` // L of mixed water
		C      float64 `yaml:"c"`      // °C
	} `yaml:"shower"`
	Tank struct {
		Source string  `yaml:"source"`
		Usable float64 `yaml:"usable"`   // share of a tank that comes out hot
		Litres float64 `yaml:"litres"`   // L, where the size is not known
		SetToC float64 `yaml:"set_to_c"` // °C
	} `yaml:"tank"`
	Heat struct {
		KJPerKgK float64 `yaml:"kj_per_kg_k"`
		Source   string  `yaml:"source"`
	} `yaml:"heat_capacity"`
	Kinds      map[string]HeaterKind `yaml:"kinds"`       // by circuit profile
	TankLitres map[string]float64    `yaml:"tank_litres"` // L, by circuit profile
}

var hotWater = table[HotWater]("draws.yaml")

// Water gives it. The maps inside are shared and must be read only.
func Water() HotWater { return hotWater() }
