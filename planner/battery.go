package planner

import (
	"fmt"

	"holdover/loads"
	"holdover/loads/home"
	"holdover/planner/battery"
	"holdover/planner/derive"
	"holdover/profiles"
)

// addInverter writes the inverter on the sheet.
func addInverter(s *derive.Figures, house *home.Home, d *loads.Demand, alone sizes) {
	size := alone.inverter
	s.Add(derive.Figure{ID: "inverter.continuous_va", Value: float64(size.Continuous), Unit: "VA",
		From: []string{"load.running_va", "assume.power_margin", "site.inverter_derate"}, How: "running VA · (1 + power margin) / inverter derate"})
	s.Add(derive.Figure{ID: "inverter.surge_va", Value: float64(size.Surge), Unit: "VA",
		From: []string{"load.worst_moment_va", "site.inverter_derate", "load.start_seconds"},
		How:  fmt.Sprintf("worst moment VA / inverter derate, held for %.3g s", float64(d.StartTime))})
	from := []string{"inverter.continuous_va", "inverter.surge_va", "assume.inverter_surge"}
	if house.House.Service == home.SplitPhase {
		s.Add(derive.Figure{ID: "inverter.by_leg_va", Value: float64(size.ByLeg), Unit: "VA",
			From: []string{"load.heavier_leg_va", "assume.power_margin", "site.inverter_derate"},
			How:  "a 120/240 V inverter gives half its rating on each leg: 2 · heavier leg VA · (1 + power margin) / inverter derate"})
		from = append(from, "inverter.by_leg_va")
	}
	s.Add(derive.Figure{ID: "inverter.size_va", Value: float64(alone.inverterVA), Unit: "VA", From: from,
		How: "the smallest size made that does its part, every check of the wave, the power, the starts and the legs held; 0 where none is made", Source: "sizes commonly sold, common practice, no source"})
}

// addBattery writes the battery that serves alone on the sheet.
func addBattery(s *derive.Figures, house *home.Home, d *loads.Demand, alone sizes) {
	size, chemistry := alone.battery, alone.ageing.Chemistry
	s.Add(derive.Figure{ID: "battery.dc_wh", Value: float64(size.DC), Unit: "Wh",
		From: []string{"load.energy_wh", "assume.inverter_efficiency", "assume.inverter_idle", "outage.length"}, How: "load energy / inverter efficiency + idle W · hours energised"})
	s.Add(temperatureFigure(house, chemistry, alone.ageing.Temperature))
	s.Add(derive.Figure{ID: "battery.rate_factor", Value: size.Rate, From: []string{"battery.dc_wh", "outage.length", "assume.peukert"},
		How: fmt.Sprintf("(nameplate/(mean DC draw · %.3g h))^(k − 1), solved with the nameplate it depends on, never above 1", chemistry.RatedHours), Source: "Peukert's law in its rated-hour form"})
	s.Add(derive.Figure{ID: "battery.nameplate_wh", Value: float64(size.Nameplate), Unit: "Wh",
		From: []string{"battery.dc_wh", "assume.energy_margin", "assume.depth_of_discharge", "assume.capacity_at_end_of_life", "battery.temperature_factor", "battery.rate_factor"},
		How:  "DC energy · (1 + energy margin) / (depth of discharge · end of life · temperature factor · rate factor)", Source: "IEEE 485 and IEEE 1013 give the same factors, from memory"})
	s.Add(derive.Figure{ID: "battery.modules", Value: float64(size.Modules), Unit: "modules", From: []string{"battery.nameplate_wh", "assume.module", "load.running_w"},
		How: fmt.Sprintf("whole modules: %d for the energy, %d for the running power at %.2g of nameplate an hour; the larger", size.EnergyModules, size.PowerModules, chemistry.DischargePerHour), Source: "chemistry " + string(chemistry.Name)})
	addRuntime(s, house, d, size)
}

func temperatureFigure(house *home.Home, chemistry profiles.Chemistry, factor float64) derive.Figure {
	f := derive.Figure{ID: "battery.temperature_factor", Value: factor, From: []string{"site.battery_space"},
		How: "share of the 25 °C capacity at the coldest the battery gets, between the points of the chemistry's table", Source: chemistry.Source}
	switch {
	case house.Given("assume.battery_temperature_factor"):
		f.From, f.How, f.Source = []string{"assume.battery_temperature_factor"}, "as given", "the home file"
	case len(chemistry.CellSizeFactors) > 0:
		f.How, f.Source = "1 / cell-size factor at the coldest the battery gets, interpolated", "IEEE 485, Table 1"
	}
	return f
}

func addRuntime(s *derive.Figures, house *home.Home, d *loads.Demand, size battery.Sizing) {
	a := house.Assume
	hours := battery.Runtime(size.Usable, d.Hourly, d.Start, a.InverterEfficiency, a.InverterIdle)
	s.Add(derive.Figure{ID: "battery.usable_wh", Value: float64(size.Usable), Unit: "Wh",
		From: []string{"battery.modules", "assume.module", "assume.depth_of_discharge", "assume.capacity_at_end_of_life", "battery.temperature_factor", "battery.rate_factor"},
		How:  "modules · module size · every factor of the nameplate, without the margin"})
	s.Add(derive.Figure{ID: "battery.runtime_h", Value: float64(hours), Unit: "h", From: []string{"battery.usable_wh", "load.starts_at_h", "assume.inverter_efficiency", "assume.inverter_idle"},
		How: "how long the whole modules, at the end of their life, carry the hourly draw from the start; held at a year"})
}
