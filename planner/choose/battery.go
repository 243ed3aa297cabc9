package choose

import (
	"holdover/loads"
	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/planner/battery"
	"holdover/profiles"
)

// A Pack is what one kind of module gives here.
type Pack struct {
	ModuleKWh     float64
	UsableKWh     []float64 // by number of modules, from 0; never falls
	DischargePerH float64   // greatest rate as a share of nameplate an hour
	ChargePerH    float64
	RoundTrip     float64
	LifeYears     float64
	MayCharge     bool // not too cold or hot to be charged
	MayDischarge  bool
}

// MaxModules bounds the grid.
const MaxModules = 200

// newPack works out what each number of modules gives over an outage of a length, at the end of life, in the cold, at
// the mean draw, less the energy margin.
func newPack(house *home.Home, length units.Hours, d *loads.Demand) Pack {
	a := house.Assume
	chemistry, _ := profiles.FindChemistry(a.Chemistry)
	at := float64(house.Site.BatterySpace)
	summer := house.Outage.Season == home.Summer // site.battery_space is the coldest of the year
	b := Pack{ModuleKWh: float64(a.Module) / 1000, DischargePerH: chemistry.DischargePerHour, ChargePerH: chemistry.ChargePerHour,
		RoundTrip: chemistry.RoundTripEfficiency, LifeYears: chemistry.LifeYears,
		MayCharge:    (at >= chemistry.ChargeMinC || summer) && at <= chemistry.ChargeMaxC,
		MayDischarge: (at >= chemistry.DischargeMinC || summer) && at <= chemistry.DischargeMaxC,
		UsableKWh:    make([]float64, mostModules(house)+1)}
	average := float64(loads.EnergyOver(d.Hourly, d.Start, length)) / float64(length)
	mean := units.Watts(average/a.InverterEfficiency) + a.InverterIdle
	shares := a.DepthOfDischarge * a.EndOfLife * Temperature(house) / (1 + a.EnergyMargin)
	for m := 1; m < len(b.UsableKWh); m++ {
		plate := a.Module * units.WattHours(m)
		b.UsableKWh[m] = float64(plate) / 1000 * shares * battery.Rate(plate, mean, chemistry.RatedHours, a.Peukert)
	}
	return b
}

// mostModules is how many modules the battery's place takes, within MaxModules. No place given, no limit of place.
func mostModules(house *home.Home) int {
	if house.Limits.BatteryPlace == "none" {
		return 0
	}
	place, ok := profiles.Places().Find(house.Limits.BatteryPlace)
	if !ok {
		return MaxModules
	}
	return min(MaxModules, int(place.LimitKWh*1000/float64(house.Assume.Module)+1e-9))
}

// Temperature is the battery's temperature factor in force: the one given, or the chemistry's at the battery's place.
func Temperature(house *home.Home) float64 {
	if house.Given("assume.battery_temperature_factor") {
		return house.Assume.TemperatureFactor
	}
	chemistry, _ := profiles.FindChemistry(house.Assume.Chemistry)
	factor, _ := battery.TemperatureFactor(chemistry, house.Site.BatterySpace)
	return factor
}
