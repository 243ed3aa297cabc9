package profiles

import "slices"

// Fuel is what a generator burns. Heat is the higher heating value throughout.
type Fuel struct {
	Name          string    `yaml:"name"` // gasoline, diesel, propane, natural-gas
	Title         string    `yaml:"title"`
	Unit          string    `yaml:"unit"`            // L or m3
	USUnit        string    `yaml:"us_unit"`         // gal or ft3
	USPerUnit     float64   `yaml:"us_per_unit"`     // USUnit in one Unit
	KWhPerUnit    float64   `yaml:"kwh_per_unit"`    // higher heating value, kWh per Unit
	KgPerUnit     float64   `yaml:"kg_per_unit"`     // kg per Unit, liquid at about 15 °C
	Stored        bool      `yaml:"stored"`          // false: it comes by pipe
	StoreLimitL   float64   `yaml:"store_limit_l"`   // what a dwelling usually may keep, L; 0: no limit known
	ShelfLifeDays float64   `yaml:"shelf_life_days"` // days; 0: does not spoil
	LeastLoad     float64   `yaml:"least_load"`      // share of its rating below which a machine saves no more of it, and should not run for long
	Vaporises     bool      `yaml:"vaporises"`       // it comes as vapour out of cylinders and tanks, slower in the cold
	Engine        string    `yaml:"engine"`          // the usual class, see [Engines]
	Willans       []Willans `yaml:"willans"`         // by rated size, rising, without gaps
	Source        string    `yaml:"source"`
	Note          string    `yaml:"note"`
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

var fuels = table[[]Fuel]("fuels.yaml")

// Fuels lists the fuels.
func Fuels() []Fuel { return slices.Clone(fuels()) }

// FindFuel gives the fuel of that name.
func FindFuel(name string) (Fuel, bool) {
	return find(fuels(), func(f Fuel) bool { return f.Name == name })
}

// Gas says whether it reaches the engine as gas, through pipe.
func (f Fuel) Gas() bool { return !f.Stored || f.Vaporises }
