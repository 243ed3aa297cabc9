package profiles

import "strings"

// Fuel is what a generator burns. Heat is the higher heating value throughout.
type Fuel struct {
	Entry[FuelName] `yaml:",inline"`

	Words         []string   `yaml:"words"`           // other names that people write
	Unit          string     `yaml:"unit"`            // L or m3
	UnitTitle     string     `yaml:"unit_title"`      // in words
	USUnit        string     `yaml:"us_unit"`         // gal or ft3
	USPerUnit     float64    `yaml:"us_per_unit"`     // USUnit in one Unit
	KWhPerUnit    float64    `yaml:"kwh_per_unit"`    // higher heating value, kWh per Unit
	KgPerUnit     float64    `yaml:"kg_per_unit"`     // kg per Unit, liquid at about 15 °C
	Stored        bool       `yaml:"stored"`          // false: it comes by pipe
	StoreLimitL   float64    `yaml:"store_limit_l"`   // what a dwelling usually may keep of a stored fuel, L
	ShelfLifeDays float64    `yaml:"shelf_life_days"` // days; 0: does not spoil
	LeastLoad     float64    `yaml:"least_load"`      // share of its rating below which a machine saves no more of it, and should not run for long
	Engine        EngineName `yaml:"engine"`          // the usual class, see [Engines]
	Machines      []string   `yaml:"machines"`        // that burn it, see [Generators]
	Willans       []Willans  `yaml:"willans"`         // by rated size, rising, without gaps
	Cautions      []Raised   `yaml:"cautions,omitempty"`
	Price         FuelPrice  `yaml:"price"`
	Note          string     `yaml:"note"`

	// Of one that reaches the engine as gas:
	SupplyInWC float64   `yaml:"supply_in_wc,omitempty"` // the usual pressure of its supply, in of water
	Pipes      []string  `yaml:"pipes,omitempty"`        // names of the tables for it, see [PipeTables]
	Cylinder   *Cylinder `yaml:"cylinder,omitempty"`     // that it comes out of as vapour, slower in the cold; nil: it does not
}

// FuelPrice is what a fuel costs.
type FuelPrice struct {
	PerUnit      Band   `yaml:"per_unit"`       // per the fuel's own unit
	StoreFixed   Band   `yaml:"store_fixed"`    // cans, tank setting, or the pipe and regulator
	StorePerUnit Band   `yaml:"store_per_unit"` // per unit of fuel that the store holds
	Source       string `yaml:"source"`
}

// A When is the circumstance in which a caution goes with a fuel.
type When string

// The circumstances.
const (
	Burnt     When = ""           // whenever it is burnt
	InFrost   When = "frost"      // on a day that freezes
	LightLoad When = "light-load" // below its LeastLoad
)

// A Raised caution goes with a fuel. ID is that of one of [Cautions].
type Raised struct {
	ID   string `yaml:"id"`
	When When   `yaml:"when"`
}

// Willans is the straight line of fuel against load of machines in one band of size, FromKW ≤ rated kW < ToKW:
// Units/h = IdleUnitsPerHourPerKW · rated kW + UnitsPerKWh · load kW, both electric.
type Willans struct {
	FromKW                float64 `yaml:"from_kw"`
	ToKW                  float64 `yaml:"to_kw"`
	IdleUnitsPerHourPerKW float64 `yaml:"idle_units_per_hour_per_kw"`
	UnitsPerKWh           float64 `yaml:"units_per_kwh"`
	Source                string  `yaml:"source"`
}

var fuels = registry[Fuel](table[[]Fuel]("fuels.yaml"))

// Fuels lists the fuels.
func Fuels() []Fuel { return fuels.all() }

// FindFuel gives the fuel of that name.
func FindFuel(name FuelName) (Fuel, bool) { return fuels.find(string(name)) }

// UsualGas is the gas of a house that does not say which it has: what comes in cylinders, or what comes by pipe.
func UsualGas(cylinders bool) FuelName {
	f, _ := find(fuels(), func(f Fuel) bool { return f.Gas() && f.InCylinders() == cylinders })
	return f.Name
}

// InCylinders says whether it comes in cylinders whose vapour has a table.
func (f Fuel) InCylinders() bool { return f.Cylinder != nil }

// Gas says whether it reaches the engine as gas, through pipe.
func (f Fuel) Gas() bool { return !f.Stored || f.InCylinders() }

// Raises is the caution that goes with the fuel in a circumstance; empty where none does.
func (f Fuel) Raises(when When) string {
	r, _ := find(f.Cautions, func(r Raised) bool { return r.When == when })
	return r.ID
}

// Line is the line of machines of a rated size; beyond the last band that one's.
func (f Fuel) Line(ratedKW float64) Willans {
	line, ok := find(f.Willans, func(w Willans) bool { return ratedKW < w.ToKW })
	if !ok {
		return f.Willans[len(f.Willans)-1]
	}
	return line
}

// PriceKey is the key of its price in a home file: its name and its unit.
func (f Fuel) PriceKey() string {
	return strings.ReplaceAll(string(f.Name), "-", "_") + "_per_" + strings.ToLower(f.Unit)
}
