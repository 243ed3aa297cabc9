package choose

import (
	"holdover/loads/home"
	"holdover/planner/sheet"
	"holdover/profiles"
)

// rates are the prices in force: the bands, the household's own price the typical figure of one that it gives.
type rates struct {
	battery    profiles.BatteryPrice
	inverter   profiles.InverterPrice
	charger    profiles.ChargerPrice
	generators map[string]profiles.GeneratorPrice
	transfer   Price
}

// ratesOf lays a home's own prices over the bands. circuits is how many the transfer equipment serves.
func ratesOf(house *home.Home, circuits int) rates {
	bands, own := profiles.PriceBands(), house.Prices
	lay := func(key string, price float64, over *profiles.Band) {
		if house.Given("prices." + key) {
			over.Typical = price
		}
	}
	chemistry, _ := profiles.FindChemistry(house.Assume.Chemistry)
	r := rates{battery: chemistry.Price, inverter: bands.Inverter, charger: bands.Charger, generators: map[string]profiles.GeneratorPrice{}}
	lay("battery_per_kwh", own.BatteryPerKWh, &r.battery.PerKWh)
	lay("battery_fixed", own.BatteryFixed, &r.battery.Fixed)
	lay("inverter_per_kva", own.InverterPerKVA, &r.inverter.PerKVA)
	lay("inverter_fixed", own.InverterFixed, &r.inverter.Fixed)
	lay("charger_per_kw", own.ChargerPerKW, &r.charger.PerKW)
	lay("charger_fixed", own.ChargerFixed, &r.charger.Fixed)
	for _, g := range bands.Generators {
		lay("generator_per_kw", own.GeneratorPerKW, &g.PerKW)
		lay("generator_fixed", own.GeneratorFixed, &g.Fixed)
		r.generators[g.Kind] = g
	}
	r.transfer.Purchase, r.transfer.LifeYears = sheet.TransferPrice(house, circuits)
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
