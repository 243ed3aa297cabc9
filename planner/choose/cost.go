package choose

import "math"

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

// Replacements is the present worth of buying a thing of price 1 again at the end of each life before the horizon ends.
func (h Horizon) Replacements(lifeYears float64) float64 {
	if lifeYears <= 0 {
		return 0
	}
	sum := 0.0
	for year := lifeYears; year < h.Years-1e-9; year += lifeYears {
		sum += math.Pow(1+h.Discount, -year)
	}
	return sum
}

// Present is the whole present cost of a thing.
func (h Horizon) Present(p Price) float64 {
	return p.Purchase*(1+h.Replacements(p.LifeYears)) + p.PerYear*h.Annuity
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

// costOf adds up a design as it ran. Fuel and running hours are those of one outage.
func (c *Case) costOf(d Design, fuelUnits, runHours float64) Cost {
	var cost Cost
	cost.add(c.Horizon, c.rates.transfer)
	if d.Modules > 0 {
		cost.add(c.Horizon, c.batteryPrice(d.Modules))
		cost.add(c.Horizon, c.inverterPrice(d.InverterVA))
	}
	if d.ChargerKW > 0 {
		cost.add(c.Horizon, c.chargerPrice(d.ChargerKW))
	}
	if d.Machine != nil {
		cost.add(c.Horizon, c.machinePrice(d.Machine, runHours))
		cost.add(c.Horizon, storePrice(d.Machine, fuelUnits))
		cost.Fuel += fuelUnits * c.OutagesPerYear * d.Machine.FuelPrice.PerUnit.Typical * c.Horizon.Annuity
	}
	return cost
}

func (c *Case) batteryPrice(modules int) Price {
	return Price{c.rates.batteryFixed + float64(modules)*c.Battery.ModuleKWh*c.rates.batteryPerKWh, c.rates.batteryUpkeep, c.Battery.LifeYears}
}

func (c *Case) inverterPrice(va float64) Price {
	return Price{c.rates.inverterFixed + va/1000*c.rates.inverterPerKVA, c.rates.inverterUpkeep, c.rates.inverterLife}
}

func (c *Case) chargerPrice(kw float64) Price {
	return Price{c.rates.chargerFixed + kw*c.rates.chargerPerKW, 0, c.rates.chargerLife}
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
	return Price{Purchase: m.FuelPrice.StoreFixed.Typical + m.FuelPrice.StorePerUnit.Typical*fuelUnits}
}
