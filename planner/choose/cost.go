package choose

import (
	"fmt"
	"math"

	"holdover/loads/units"
)

// A Price is what one thing costs: to buy, each year, and how often it is bought again.
type Price struct {
	Purchase  float64
	PerYear   float64
	LifeYears float64 // 0: never replaced within any horizon
}

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
	c.Purchase += p.Purchase
	c.Replacement += p.Purchase * h.Replacements(p.LifeYears)
	c.Upkeep += p.PerYear * h.Annuity
}

// A Part is one thing a design is bought as.
type Part struct {
	Kind  PartKind // empty for none
	Price Price
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
	parts[0] = Part{transferPart, c.rates.transfer}
	if d.Modules > 0 {
		parts[1] = Part{batteryPart, c.batteryPrice(d.Modules)}
		parts[2] = Part{inverterPart, c.inverterPrice(d.InverterVA)}
	}
	if d.ChargerKW > 0 {
		parts[3] = Part{chargerPart, c.chargerPrice(d.ChargerKW)}
	}
	if d.Machine != nil {
		parts[4] = Part{generatorPart, c.machinePrice(d.Machine, runHours)}
		parts[5] = Part{storePart, storePrice(d.Machine, fuelUnits)}
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

// PartHow says how a part's purchase price is made up.
func (c *Case) PartHow(kind PartKind, d Design, fuelUnits float64) string {
	sum := func(fixed, amount float64, unit string, each float64) string {
		return fmt.Sprintf("%s fixed + %s %s · %s each", units.Format(fixed), units.Format(amount), unit, units.Format(each))
	}
	switch kind {
	case batteryPart:
		return sum(c.rates.battery.Fixed.Typical, float64(d.Modules)*c.Battery.ModuleKWh, "kWh", c.rates.battery.PerKWh.Typical)
	case inverterPart:
		return sum(c.rates.inverter.Fixed.Typical, d.InverterVA/1000, "kVA", c.rates.inverter.PerKVA.Typical)
	case chargerPart:
		return sum(c.rates.charger.Fixed.Typical, d.ChargerKW, "kW", c.rates.charger.PerKW.Typical)
	case generatorPart:
		return sum(d.Machine.Price.Fixed.Typical, d.Machine.KW, "kW", d.Machine.Price.PerKW.Typical)
	case storePart:
		return sum(d.Machine.Fuel.Price.StoreFixed.Typical, fuelUnits, d.Machine.Fuel.Unit, d.Machine.Fuel.Price.StorePerUnit.Typical)
	}
	return "transfer equipment for the circuits carried, installed"
}

func (c *Case) batteryPrice(modules int) Price {
	return Price{c.rates.battery.Fixed.Typical + float64(modules)*c.Battery.ModuleKWh*c.rates.battery.PerKWh.Typical, c.rates.battery.UpkeepPerYear.Typical, c.Battery.LifeYears}
}

func (c *Case) inverterPrice(va float64) Price {
	return Price{c.rates.inverter.Fixed.Typical + va/1000*c.rates.inverter.PerKVA.Typical, c.rates.inverter.UpkeepPerYear.Typical, c.rates.inverter.LifeYears}
}

func (c *Case) chargerPrice(kw float64) Price {
	return Price{c.rates.charger.Fixed.Typical + kw*c.rates.charger.PerKW.Typical, 0, c.rates.charger.LifeYears}
}

// machinePrice wears a generator out by its years or its running hours, whichever come first.
func (c *Case) machinePrice(m *Machine, runHours float64) Price {
	life := m.Price.LifeYears
	if perYear := runHours * c.OutagesPerYear; perYear > 0 {
		life = min(life, m.Price.LifeHours/perYear)
	}
	return Price{m.Price.Fixed.Typical + m.KW*m.Price.PerKW.Typical,
		m.Price.UpkeepPerYear.Typical + m.Price.UpkeepPerHour.Typical*runHours*c.OutagesPerYear, life}
}

// storePrice is the store for one outage's fuel: cans, a tank, or the pipe.
func storePrice(m *Machine, fuelUnits float64) Price {
	return Price{Purchase: m.Fuel.Price.StoreFixed.Typical + m.Fuel.Price.StorePerUnit.Typical*fuelUnits}
}
