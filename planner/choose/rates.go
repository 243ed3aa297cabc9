package choose

import (
	"holdover/loads/home"
	"holdover/planner/sheet"
	"holdover/profiles"
)

// rates are the prices in force: the bands, the household's own price the typical figure of one that it gives.
type rates struct {
	battery  profiles.BatteryPrice
	inverter profiles.InverterPrice
	charger  profiles.ChargerPrice
	transfer Price
}

// ratesOf lays a home's own prices over the bands. circuits is how many the transfer equipment serves.
func ratesOf(house *home.Home, circuits int) rates {
	bands, own := profiles.PriceBands(), house.Prices
	chemistry, _ := profiles.FindChemistry(house.Assume.Chemistry)
	r := rates{battery: chemistry.Price, inverter: bands.Inverter, charger: bands.Charger}
	lay(house, "battery_per_kwh", own.BatteryPerKWh, &r.battery.PerKWh)
	lay(house, "battery_fixed", own.BatteryFixed, &r.battery.Fixed)
	lay(house, "inverter_per_kva", own.InverterPerKVA, &r.inverter.PerKVA)
	lay(house, "inverter_fixed", own.InverterFixed, &r.inverter.Fixed)
	lay(house, "charger_per_kw", own.ChargerPerKW, &r.charger.PerKW)
	lay(house, "charger_fixed", own.ChargerFixed, &r.charger.Fixed)
	r.transfer.Amount = float64(circuits)
	r.transfer.Fixed, r.transfer.Each, r.transfer.LifeYears = sheet.TransferPrice(house)
	return r
}

// generatorPrice is the price in force of a machine of a kind; nil is the household's own, which costs nothing.
func generatorPrice(house *home.Home, kind *profiles.Generator) (p profiles.GeneratorPrice) {
	if kind != nil {
		p = kind.Price
		lay(house, "generator_per_kw", house.Prices.GeneratorPerKW, &p.PerKW)
		lay(house, "generator_fixed", house.Prices.GeneratorFixed, &p.Fixed)
	}
	return p
}

// lay puts the household's own price, where it gives one, in place of a band's typical figure.
func lay(house *home.Home, key string, own float64, over *profiles.Band) {
	if house.Given("prices." + key) {
		over.Typical = own
	}
}

// ownPrices lists the prices of a part (see [Part]) that the home file gives itself, as field paths.
func (c *Case) ownPrices(part PartKind) (own []string) {
	keys := map[PartKind][]string{batteryPart: {"battery_per_kwh", "battery_fixed"}, inverterPart: {"inverter_per_kva", "inverter_fixed"},
		chargerPart: {"charger_per_kw", "charger_fixed"}, generatorPart: {"generator_per_kw", "generator_fixed"}, transferPart: {"transfer"}}
	for _, key := range keys[part] {
		if path := "prices." + key; c.duty.Home.Given(path) {
			own = append(own, path)
		}
	}
	return own
}
