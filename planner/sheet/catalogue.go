package sheet

import (
	"fmt"
	"math"
	"slices"

	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/profiles"
)

// This file writes the sheets of what is commonly sold, as a maker would for this house: with the volts and hertz of its service,
// and with the ratios that the home file assumes.

// Generators are the sheets of every size commonly sold on every fuel that a home can have, the preferred fuel first, each rising.
func Generators(house *home.Home) (all []Sheet) {
	made := profiles.Generators()
	for _, name := range house.Limits.Fuels {
		fuel, _ := profiles.FindFuel(name)
		for i := range made {
			if slices.Contains(fuel.Machines, made[i].Name) {
				all = append(all, generatorSheet(house, &made[i], name))
			}
		}
	}
	return all
}

func generatorSheet(house *home.Home, g *profiles.Generator, fuel profiles.FuelName) Sheet {
	a := house.Assume
	w := units.Watts(1000 * g.KW)
	volts, legs := serviceVolts(house)
	if legs == 2 && g.KW < profiles.Transfers().SingleLeg.BelowKW {
		volts, legs = float64(house.House.Service.LegVolts()), 1
	}
	gear := home.Gear{Name: fmt.Sprintf("%s kW %s on %s", units.Format(g.KW), g.Title, fuel), Kind: home.Generator, Wave: home.Sine, Distortion: g.Distortion,
		Volts: units.Volts(volts), Legs: legs, Frequency: serviceHertz(house), Watts: w, VA: units.VoltAmps(float64(w) / a.GeneratorPowerFactor),
		Surge: w * units.Watts(a.GeneratorSurge), SurgeTime: units.Seconds(g.SurgeS), Alternator: home.Alternator(g.Alternator), Stands: home.Stand(g.Place), Gap: units.Seconds(g.TakeoverS), Neutral: home.Neutral(g.Neutral), Fuel: fuel}
	return Sheet{Gear: gear.Stating("wave", "distortion", "volts", "legs", "hertz", "watts", "va", "surge", "surge_seconds", "alternator", "place", "gap", "neutral", "fuel"), Made: g, Source: g.Source}
}

// InverterOf is the sheet of an inverter of a size, made for the house.
func InverterOf(house *home.Home, va float64) Sheet {
	a, made := house.Assume, profiles.InvertersMade()
	volts, legs := serviceVolts(house)
	gear := home.Gear{Name: fmt.Sprintf("%s VA inverter", units.Format(va)), Kind: home.Inverter, Wave: home.Sine, Distortion: made.Distortion, Volts: units.Volts(volts), Legs: legs,
		Frequency: serviceHertz(house), Watts: units.Watts(va), VA: units.VoltAmps(va), Surge: units.Watts(va * a.InverterSurge), SurgeTime: units.Seconds(made.SurgeS),
		Gap: units.Seconds(made.GapS), Neutral: home.Neutral(made.Neutral), Efficiency: a.InverterEfficiency, Idle: a.InverterIdle, Stands: home.Fixed}
	return Sheet{Gear: gear.Stating("wave", "distortion", "volts", "legs", "hertz", "watts", "va", "surge", "surge_seconds", "gap", "neutral", "efficiency", "idle", "place"), Source: made.Source}
}

// BatteryOf is the sheet of so many modules of the kind and size that the home file assumes.
func BatteryOf(house *home.Home, modules int) Sheet {
	a := house.Assume
	c, _ := profiles.FindChemistry(a.Chemistry)
	energy := a.Module * units.WattHours(modules)
	gear := home.Gear{Name: fmt.Sprintf("%s kWh battery", units.Format(float64(energy)/1000)), Kind: home.Battery, Energy: energy, Chemistry: c.Name, Left: a.EndOfLife,
		Watts: units.Watts(float64(energy) * c.DischargePerHour), Recharge: units.Hours(1 / c.ChargePerHour), Stands: home.Fixed}
	return Sheet{Gear: gear.Stating("energy", "chemistry", "capacity_left", "watts", "recharge", "place"), Units: modules, Source: c.Source}
}

// serviceVolts is what a machine made for a service gives: its volts, and on how many legs.
func serviceVolts(house *home.Home) (volts float64, legs int) {
	if house.House.Service == home.SplitPhase {
		return 2 * float64(house.House.Service.LegVolts()), 2
	}
	return float64(house.House.Service.LegVolts()), 1
}

func serviceHertz(house *home.Home) units.Hertz {
	return units.Hertz(profiles.Fit().ServiceHertz[int(house.House.Service.LegVolts())])
}

// LeastGeneratorKW is the smallest size made of a wound machine that gives the power and the starts of a duty on its legs, whatever
// it burns and wherever it stands; 0 where none does.
func (d *Duty) LeastGeneratorKW() float64 {
	for _, kW := range profiles.GeneratorSizesKW() {
		g := profiles.Generator{KW: kW, GeneratorKind: profiles.GeneratorKind{Alternator: string(home.Wound), SurgeS: math.Inf(1)}}
		h := d.holding(generatorSheet(d.Home, &g, ""), Place{Part: House}, nil)
		h.checkVolts()
		h.checkRatings()
		h.checkSurge()
		h.checkLegs()
		if AllMet(h.findings) {
			return kW
		}
	}
	return 0
}
