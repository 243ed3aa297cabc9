package planner

import (
	"holdover/loads"
	"holdover/loads/home"
	"holdover/planner/battery"
	"holdover/planner/choose"
	"holdover/planner/generator"
	"holdover/planner/inverter"
	"holdover/planner/site"
	"holdover/profiles"
)

// sizes are what each machine would have to be if it served alone.
type sizes struct {
	inverter    inverter.Sizing
	battery     battery.Sizing
	chemistry   profiles.Chemistry
	temperature float64 // share of its capacity that the battery gives in the cold
	generator   generator.Sizing
}

func sizesOf(house *home.Home, d *loads.Demand, r site.Rating) (s sizes) {
	a := house.Assume
	s.inverter = choose.InverterFor(house, d, r)
	s.chemistry, _ = profiles.FindChemistry(a.Chemistry)
	s.temperature = choose.Temperature(house)
	s.battery = battery.Size(
		battery.Wanted{Energy: d.Energy, Continuous: d.RunningW, Length: house.Outage.Length, Efficiency: a.InverterEfficiency, Idle: a.InverterIdle, Margin: a.EnergyMargin},
		battery.Ageing{DepthOfDischarge: a.DepthOfDischarge, EndOfLife: a.EndOfLife, Temperature: s.temperature, Peukert: a.Peukert, Chemistry: s.chemistry}, a.Module)
	s.generator = generator.Size(choose.GeneratorWanted(house, d, r))
	return s
}
