package home

import (
	"fmt"
	"strconv"

	"holdover/loads/units"
	"holdover/profiles"
)

// Assume is the `assume` section: every default of the method that a household or its makers' papers may overrule. The
// defaults and their sources stand in profiles/assume.yaml and, for what depends on the battery, profiles/chemistries.yaml.
type Assume struct {
	PowerMargin          float64                `key:"power_margin" range:"0,2" doc:"head-room on W and VA"`
	EnergyMargin         float64                `key:"energy_margin" range:"0,2" doc:"head-room on Wh"`
	StartingPowerFactor  float64                `key:"starting_power_factor" range:"0.05,1" doc:"single-phase motors while starting"`
	InverterEfficiency   float64                `key:"inverter_efficiency" range:"0.3,1" doc:"from DC to AC"`
	InverterIdle         units.Watts            `key:"inverter_idle" range:"0,2000" doc:"draw of the inverter when energised"`
	InverterKnee         units.Celsius          `key:"inverter_knee" range:"0,80" doc:"full inverter output up to here"`
	InverterDerate       float64                `key:"inverter_derate_per_k" unit:"1/K" range:"0,0.2" doc:"share lost for each K above the knee"`
	InverterSurge        float64                `key:"inverter_surge" range:"1,5" doc:"inverter short-time over continuous rating"`
	Chemistry            profiles.ChemistryName `key:"chemistry" from:"chemistries" doc:"kind of battery"`
	DepthOfDischarge     float64                `key:"depth_of_discharge" range:"0.05,1" doc:"usable share of the battery"`
	EndOfLife            float64                `key:"capacity_at_end_of_life" range:"0.3,1" doc:"share left when the battery is retired"`
	TemperatureFactor    float64                `key:"battery_temperature_factor" range:"0.05,1.3" doc:"share of 25 °C capacity at site.battery_space"`
	Peukert              float64                `key:"peukert" range:"1,2" doc:"exponent; 1 turns the rate factor off"`
	Module               units.WattHours        `key:"module" range:"100,1000000" doc:"size of one battery module"`
	Engine               profiles.EngineName    `key:"engine" from:"engines" doc:"ISO 3046-1 engine class"`
	EngineDerate         EngineDerate           `key:"engine_derate" doc:"iso3046, rule-of-thumb, or the maker's number 0 to 1"`
	ChargeCoolant        units.Celsius          `key:"charge_coolant" range:"-40,90" doc:"coolant of a charge-air cooler; outdoor air unless given"`
	MechanicalEfficiency float64                `key:"mechanical_efficiency" range:"0.5,1" doc:"of the engine"`
	Reactance            float64                `key:"reactance" range:"0.02,1" doc:"alternator's subtransient reactance, per unit"`
	AllowedDip           float64                `key:"allowed_dip" range:"0.02,0.6" doc:"voltage dip allowed when a motor starts"`
	GeneratorSurge       float64                `key:"generator_surge" range:"1,3" doc:"short-time over running rating"`
	GeneratorPowerFactor float64                `key:"generator_power_factor" range:"0.5,1" doc:"rated kW over rated kVA"`
	FreezeCutIn          units.Celsius          `key:"freeze_cut_in" range:"-20,20" doc:"frost heaters start below this"`
	FreezeFull           units.Celsius          `key:"freeze_full" range:"-60,10" doc:"frost heaters never rest at this"`
	Years                float64                `key:"years" unit:"years" range:"1,50" doc:"planning horizon, years"`
	Discount             float64                `key:"discount" unit:"1/year" range:"0,0.3" doc:"discount rate a year"`
}

// EngineDerate says how engine power is reckoned at the site.
type EngineDerate struct {
	Method DerateMethod
	Factor float64 // 0..1, when Method is Stated
}

// A DerateMethod is one way to reckon it.
type DerateMethod string

// The ways.
const (
	ISO3046     DerateMethod = "iso3046"
	RuleOfThumb DerateMethod = "rule-of-thumb"
	Stated      DerateMethod = "stated"
)

// leastDerate is the least share of an engine's power that may be stated: the ISO method gives about 0.2 where a person can still live.
const leastDerate = 0.05

func (e *EngineDerate) readText(text string) (says string, err error) {
	if method := DerateMethod(text); method == ISO3046 || method == RuleOfThumb {
		*e = EngineDerate{Method: method}
		return text, nil
	}
	factor, err := units.ParseShare(text)
	if err != nil || factor < leastDerate || factor > 1 {
		return "", fmt.Errorf("%q found; iso3046, rule-of-thumb or the maker's number from %g to 1 is accepted", text, leastDerate)
	}
	*e = EngineDerate{Stated, factor}
	return text, nil
}

// String names the method, or the maker's number.
func (e EngineDerate) String() string {
	if e.Method == Stated {
		return strconv.FormatFloat(e.Factor, 'g', -1, 64)
	}
	return string(e.Method)
}
