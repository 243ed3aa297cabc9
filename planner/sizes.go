package planner

import (
	"holdover/loads/units"
	"holdover/planner/battery"
	"holdover/planner/choose"
	"holdover/planner/generator"
	"holdover/planner/inverter"
	"holdover/planner/sheet"
	"holdover/profiles"
)

// sizes are what each machine would have to be if it served alone.
type sizes struct {
	inverter   inverter.Sizing
	inverterVA units.VoltAmps // the smallest made that does its part; 0 where none does
	battery    battery.Sizing
	ageing     battery.Ageing
	generator  generator.Sizing
}

func sizesOf(d *sheet.Duty, c *choose.Case) (s sizes) {
	a, demand := d.Home.Assume, &d.Demand
	s.inverter = inverter.Size(demand.Running.VA(), demand.WorstVA, demand.Legs.Heaviest, d.SplitPhase(), a.PowerMargin, d.Rating.Inverter)
	if len(c.InvertersVA) > 0 {
		s.inverterVA = units.VoltAmps(c.InvertersVA[0])
	}
	chemistry, _ := profiles.FindChemistry(a.Chemistry)
	s.ageing = d.Ageing(sheet.Sheet{}, chemistry)
	s.battery = battery.Size(
		battery.Wanted{Energy: demand.Energy, Continuous: demand.RunningW, Length: d.Home.Outage.Length, Efficiency: a.InverterEfficiency, Idle: a.InverterIdle, Margin: a.EnergyMargin},
		s.ageing, a.Module)
	s.generator = generator.Size(generator.Wanted{RunningW: demand.RunningW, WorstW: demand.WorstW, RunningVA: demand.Running.VA(), WorstVA: demand.WorstVA,
		Margin: a.PowerMargin, Surge: a.GeneratorSurge, Reactance: a.Reactance, Dip: a.AllowedDip,
		PowerFactor: a.GeneratorPowerFactor, EngineDerate: d.Rating.Engine, AlternatorDerate: d.Rating.Alternator})
	s.generator.MadeKW = d.LeastGeneratorKW()
	return s
}
