package choose

import "math"

// A Price is what one thing costs: to buy, each year, and how often it is bought again.
type Price struct {
	Fixed, Amount, Each float64 // so much, and so much for each of an amount
	PerYear             float64
	LifeYears           float64 // 0: never replaced within any horizon
}

// Purchase is what it costs to buy.
func (p Price) Purchase() float64 { return p.Fixed + p.Amount*p.Each }

// A Horizon is the time over which costs are added up.
type Horizon struct {
	Years    float64 // > 0
	Discount float64 // a year, ≥ 0
	Annuity  float64 // present worth of 1 a year, paid at each year's end: (1 − (1 + r)^−n)/r
}

// NewHorizon works out the annuity of so many years at a discount rate.
func NewHorizon(years, discount float64) Horizon {
	h := Horizon{years, discount, years}
	if discount > 0 {
		h.Annuity = (1 - math.Pow(1+discount, -years)) / discount
	}
	return h
}

// Replacements is the present worth of buying a thing of price 1 again at the end of each life before the horizon ends:
// the sum of (1 + r)^(−k·life) over k = 1 … n. It never falls when a life gets shorter. A life of 0 is without end.
func (h Horizon) Replacements(lifeYears float64) float64 {
	if lifeYears <= 0 {
		return 0
	}
	n := math.Ceil((h.Years-1e-9)/lifeYears) - 1
	if n <= 0 || h.Discount == 0 {
		return max(0, n)
	}
	once := lifeYears * math.Log1p(h.Discount)
	return math.Exp(-once) * math.Expm1(-n*once) / math.Expm1(-once)
}

// A Cost is a design's present cost over the horizon, by part, in the currency of the price bands.
type Cost struct {
	Purchase    float64
	Replacement float64
	Upkeep      float64 // with wear by running hours
	Fuel        float64
}

// Total is the sum of the parts.
func (c Cost) Total() float64 { return c.Purchase + c.Replacement + c.Upkeep + c.Fuel }

func (c *Cost) add(h Horizon, p Price) {
	purchase := p.Purchase()
	c.Purchase += purchase
	c.Replacement += purchase * h.Replacements(p.LifeYears)
	c.Upkeep += p.PerYear * h.Annuity
}

// A Part is one thing a design is bought as.
type Part struct {
	Kind PartKind // empty for none
	Unit string   // of its amount
	Price
}

// A PartKind is what a part is.
type PartKind string

// The kinds.
const (
	transferPart  PartKind = "transfer"
	batteryPart   PartKind = "battery"
	inverterPart  PartKind = "inverter"
	chargerPart   PartKind = "charger"
	generatorPart PartKind = "generator"
	storePart     PartKind = "fuel_store"
)

// Parts lists what a design is bought as. Fuel and running hours are those of one outage.
func (c *Case) Parts(d Design, fuelUnits, runHours float64) (parts [6]Part) {
	parts[0] = Part{transferPart, "circuit", c.rates.transfer}
	if d.Modules > 0 {
		parts[1] = Part{batteryPart, "kWh", c.batteryPrice(d.Modules)}
		parts[2] = Part{inverterPart, "kVA", c.inverterPrice(d.InverterVA)}
	}
	if d.ChargerKW > 0 {
		parts[3] = Part{chargerPart, "kW", c.chargerPrice(d.ChargerKW)}
	}
	if d.Machine != nil {
		parts[4] = Part{generatorPart, "kW", c.machinePrice(d.Machine, runHours)}
		parts[5] = Part{storePart, d.Machine.Fuel.Unit, storePrice(d.Machine, fuelUnits)}
	}
	return parts
}

// costOf adds up a design as it ran.
func (c *Case) costOf(d Design, fuelUnits, runHours float64) Cost {
	var cost Cost
	for _, part := range c.Parts(d, fuelUnits, runHours) {
		cost.add(c.Horizon, part.Price)
	}
	if d.Machine != nil {
		cost.Fuel = fuelUnits * c.OutagesPerYear * d.Machine.Fuel.Price.PerUnit.Typical * c.Horizon.Annuity
	}
	return cost
}

func (c *Case) batteryPrice(modules int) Price {
	p := c.rates.battery
	return Price{p.Fixed.Typical, float64(modules) * c.Battery.ModuleKWh, p.PerKWh.Typical, p.UpkeepPerYear.Typical, c.Battery.LifeYears}
}

func (c *Case) inverterPrice(va float64) Price {
	p := c.rates.inverter
	return Price{p.Fixed.Typical, va / 1000, p.PerKVA.Typical, p.UpkeepPerYear.Typical, p.LifeYears}
}

func (c *Case) chargerPrice(kw float64) Price {
	p := c.rates.charger
	return Price{p.Fixed.Typical, kw, p.PerKW.Typical, 0, p.LifeYears}
}

// machinePrice wears a generator out by its years or its running hours, whichever come first.
func (c *Case) machinePrice(m *Machine, runHours float64) Price {
	life := m.Price.LifeYears
	if perYear := runHours * c.OutagesPerYear; perYear > 0 {
		life = min(life, m.Price.LifeHours/perYear)
	}
	return Price{m.Price.Fixed.Typical, m.KW, m.Price.PerKW.Typical,
		m.Price.UpkeepPerYear.Typical + m.Price.UpkeepPerHour.Typical*runHours*c.OutagesPerYear, life}
}

// storePrice is the store for one outage's fuel: cans, a tank, or the pipe.
func storePrice(m *Machine, fuelUnits float64) Price {
	p := m.Fuel.Price
	return Price{Fixed: p.StoreFixed.Typical, Amount: fuelUnits, Each: p.StorePerUnit.Typical}
}
