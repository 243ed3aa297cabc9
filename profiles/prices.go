package profiles

// Prices are dated estimates to compare designs by, not offers. All in the currency of the file, before tax, installed.
type Prices struct {
	Dated      string           `yaml:"dated"`    // year and month
	Currency   string           `yaml:"currency"` // USD
	Batteries  []BatteryPrice   `yaml:"batteries"`
	Inverter   InverterPrice    `yaml:"inverter"`
	Charger    ChargerPrice     `yaml:"charger"`
	Generators []GeneratorPrice `yaml:"generators"`
	Transfers  []TransferPrice  `yaml:"transfers"`
	Fuels      []FuelPrice      `yaml:"fuels"`
}

// Band is what people pay: a low, a typical and a high figure, in the currency of the prices.
type Band struct {
	Low     float64
	Typical float64
	High    float64
}

// BatteryPrice is for one chemistry.
type BatteryPrice struct {
	Chemistry     string `yaml:"chemistry"`
	PerKWh        Band   `yaml:"per_kwh"`         // a module, per kWh of nameplate
	Fixed         Band   `yaml:"fixed"`           // once an installation: mounting, disconnect, labour
	UpkeepPerYear Band   `yaml:"upkeep_per_year"` // once an installation
	Source        string `yaml:"source"`
}

// InverterPrice is for the inverter alone; a charger is apart.
type InverterPrice struct {
	Fixed         Band    `yaml:"fixed"`
	PerKVA        Band    `yaml:"per_kva"` // per kVA of continuous rating
	UpkeepPerYear Band    `yaml:"upkeep_per_year"`
	LifeYears     float64 `yaml:"life_years"`
	Source        string  `yaml:"source"`
}

// ChargerPrice is for charging from mains or generator.
type ChargerPrice struct {
	Fixed     Band    `yaml:"fixed"`
	PerKW     Band    `yaml:"per_kw"` // per kW into the battery
	LifeYears float64 `yaml:"life_years"`
	Source    string  `yaml:"source"`
}

// GeneratorPrice is for one kind of machine.
type GeneratorPrice struct {
	Kind          string  `yaml:"kind"`
	Fixed         Band    `yaml:"fixed"`           // once an installation: pad, pipe or inlet, labour
	PerKW         Band    `yaml:"per_kw"`          // per rated kW
	UpkeepPerYear Band    `yaml:"upkeep_per_year"` // whether it runs or not
	UpkeepPerHour Band    `yaml:"upkeep_per_hour"` // of running: oil, filters, wear
	LifeYears     float64 `yaml:"life_years"`
	LifeHours     float64 `yaml:"life_hours"` // of running
	Source        string  `yaml:"source"`
}

// TransferPrice is for one way to connect: interlock, manual-panel, automatic, whole-house.
type TransferPrice struct {
	Kind       string  `yaml:"kind"`
	Fixed      Band    `yaml:"fixed"`
	PerCircuit Band    `yaml:"per_circuit"`
	LifeYears  float64 `yaml:"life_years"`
	Source     string  `yaml:"source"`
}

// FuelPrice is for one fuel.
type FuelPrice struct {
	Fuel         string `yaml:"fuel"`
	PerUnit      Band   `yaml:"per_unit"`       // per the fuel's own unit, see [Fuel]
	StoreFixed   Band   `yaml:"store_fixed"`    // cans, tank setting, or the pipe and regulator
	StorePerUnit Band   `yaml:"store_per_unit"` // per unit of fuel that the store holds
	Source       string `yaml:"source"`
}

var prices = table[Prices]("prices.yaml")

// PriceBands gives the price estimates. The slices inside are shared and must be read only.
func PriceBands() Prices { return prices() }

// Battery gives the prices of a chemistry.
func (p Prices) Battery(chemistry string) (BatteryPrice, bool) {
	return find(p.Batteries, func(b BatteryPrice) bool { return b.Chemistry == chemistry })
}

// Generator gives the prices of a kind of machine.
func (p Prices) Generator(kind string) (GeneratorPrice, bool) {
	return find(p.Generators, func(g GeneratorPrice) bool { return g.Kind == kind })
}

// Transfer gives the prices of a way to connect.
func (p Prices) Transfer(kind string) (TransferPrice, bool) {
	return find(p.Transfers, func(t TransferPrice) bool { return t.Kind == kind })
}

// Fuel gives the prices of a fuel.
func (p Prices) Fuel(name string) (FuelPrice, bool) {
	return find(p.Fuels, func(f FuelPrice) bool { return f.Fuel == name })
}
