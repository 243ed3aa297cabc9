package profiles

// Prices are dated estimates to compare designs by, not offers. All in the currency of the file, before tax, installed. Those of a
// battery stand with its [Chemistry], those of a generator with its [GeneratorKind], those of a fuel with the [Fuel].
type Prices struct {
	Dated     string          `yaml:"dated"`    // year and month
	Currency  string          `yaml:"currency"` // USD
	Inverter  InverterPrice   `yaml:"inverter"`
	Charger   ChargerPrice    `yaml:"charger"`
	Transfers []TransferPrice `yaml:"transfers"`
}

// Band is what people pay: a low, a typical and a high figure, in the currency of the prices.
type Band struct {
	Low     float64
	Typical float64
	High    float64
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

// TransferPrice is for one way to connect: interlock, manual-panel, automatic, whole-house.
type TransferPrice struct {
	Kind       string  `yaml:"kind"`
	Fixed      Band    `yaml:"fixed"`
	PerCircuit Band    `yaml:"per_circuit"`
	LifeYears  float64 `yaml:"life_years"`
	Source     string  `yaml:"source"`
}

var prices = table[Prices]("prices.yaml")

// PriceBands gives the price estimates. The slices inside are shared and must be read only.
func PriceBands() Prices { return prices() }

// Transfer gives the prices of a way to connect.
func (p Prices) Transfer(kind string) (TransferPrice, bool) {
	return find(p.Transfers, func(t TransferPrice) bool { return t.Kind == kind })
}
