package home

import "holdover/profiles"

// Prices is the `prices` section: a household's own figures in place of the generic bands of profiles/prices.yaml, in the
// same currency. A figure left out keeps its band; [Home.Given] tells which are there.
type Prices struct {
	BatteryPerKWh  float64 `key:"battery_per_kwh" unit:"USD/kWh" range:"0,100000" doc:"a battery module, for each kWh of nameplate"`
	BatteryFixed   float64 `key:"battery_fixed" unit:"USD" range:"0,1000000" doc:"installing a battery, once"`
	InverterPerKVA float64 `key:"inverter_per_kva" unit:"USD/kVA" range:"0,100000" doc:"an inverter, for each kVA"`
	InverterFixed  float64 `key:"inverter_fixed" unit:"USD" range:"0,1000000" doc:"installing an inverter, once"`
	ChargerPerKW   float64 `key:"charger_per_kw" unit:"USD/kW" range:"0,100000" doc:"a charger, for each kW"`
	ChargerFixed   float64 `key:"charger_fixed" unit:"USD" range:"0,1000000" doc:"installing a charger, once"`
	GeneratorPerKW float64 `key:"generator_per_kw" unit:"USD/kW" range:"0,100000" doc:"a generator of any kind, for each rated kW"`
	GeneratorFixed float64 `key:"generator_fixed" unit:"USD" range:"0,1000000" doc:"installing a generator of any kind, once"`
	Transfer       float64 `key:"transfer" unit:"USD" range:"0,1000000" doc:"transfer equipment, installed"`

	Fuels map[profiles.FuelName]*float64 `each:"fuel"` // under a key for each fuel
}
