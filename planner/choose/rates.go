package choose

import (
	"holdover/loads/home"
	"holdover/planner/sheet"
	"holdover/profiles"
)

// rates are the prices in force: the typical figure of each generic band, or the household's own.
type rates struct {
	batteryPerKWh, batteryFixed, batteryUpkeep  float64
	inverterPerKVA, inverterFixed, inverterLife float64
	inverterUpkeep                              float64
	chargerPerKW, chargerFixed, chargerLife     float64
	transfer                                    Price
	generators                                  map[string]profiles.GeneratorPrice
}

// ratesOf lays a home's own prices over the bands. circuits is how many the transfer equipment serves.
func ratesOf(house *home.Home, circuits int) rates {
	bands, own := profiles.PriceBands(), house.Prices
	given := func(key string, value, typical float64) float64 {
		if house.Given("prices." + key) {
			return value
		}
		return typical
	}
	chemistry, _ := profiles.FindChemistry(house.Assume.Chemistry)
	row := chemistry.Price
	transfer, transferLife := sheet.TransferPrice(house, circuits)
	r := rates{
		batteryPerKWh:  given("battery_per_kwh", own.BatteryPerKWh, row.PerKWh.Typical),
		batteryFixed:   given("battery_fixed", own.BatteryFixed, row.Fixed.Typical),
		batteryUpkeep:  row.UpkeepPerYear.Typical,
		inverterPerKVA: given("inverter_per_kva", own.InverterPerKVA, bands.Inverter.PerKVA.Typical),
		inverterFixed:  given("inverter_fixed", own.InverterFixed, bands.Inverter.Fixed.Typical),
		inverterUpkeep: bands.Inverter.UpkeepPerYear.Typical,
		inverterLife:   bands.Inverter.LifeYears,
		chargerPerKW:   given("charger_per_kw", own.ChargerPerKW, bands.Charger.PerKW.Typical),
		chargerFixed:   given("charger_fixed", own.ChargerFixed, bands.Charger.Fixed.Typical),
		chargerLife:    bands.Charger.LifeYears,
		transfer:       Price{Purchase: transfer, LifeYears: transferLife},
		generators:     map[string]profiles.GeneratorPrice{},
	}
	for _, g := range bands.Generators {
		g.PerKW.Typical = given("generator_per_kw", own.GeneratorPerKW, g.PerKW.Typical)
		g.Fixed.Typical = given("generator_fixed", own.GeneratorFixed, g.Fixed.Typical)
		r.generators[g.Kind] = g
	}
	return r
}

// OwnPrices lists the prices of a part (see [Part]) that the home file gives itself, as field paths.
func (c *Case) OwnPrices(part PartKind) (own []string) {
	keys := map[PartKind][]string{batteryPart: {"battery_per_kwh", "battery_fixed"}, inverterPart: {"inverter_per_kva", "inverter_fixed"},
		chargerPart: {"charger_per_kw", "charger_fixed"}, generatorPart: {"generator_per_kw", "generator_fixed"}, transferPart: {"transfer"}}
	for _, key := range keys[part] {
		if path := "prices." + key; c.duty.Home.Given(path) {
			own = append(own, path)
		}
	}
	return own
}
