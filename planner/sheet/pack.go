package sheet

import (
	"holdover/loads"
	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/planner/battery"
	"holdover/planner/derive"
	"holdover/planner/outage"
	"holdover/profiles"
)

// A Pack is what one kind of battery module gives here.
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

// PackOf works out what each number of modules up to most gives over an outage of a length: at the age that their sheet or their
// kind has, in the cold, at the mean draw, less the energy margin.
func (d *Duty) PackOf(module Sheet, c profiles.Chemistry, most int, length units.Hours, efficiency float64, idle units.Watts) Pack {
	b := Pack{ModuleKWh: float64(module.Energy) / 1000, DischargePerH: c.DischargePerHour, ChargePerH: c.ChargePerHour,
		RoundTrip: c.RoundTripEfficiency, LifeYears: c.LifeYears, UsableKWh: make([]float64, most+1)}
	b.MayDischarge, b.MayCharge = Bears(d.Home, c)
	average := float64(loads.EnergyOver(d.Demand.Hourly, d.Demand.Start, length)) / float64(length)
	mean := units.Watts(average/efficiency) + idle
	age := d.Ageing(module, c)
	shares := age.DepthOfDischarge * age.EndOfLife * age.Temperature / (1 + d.Home.Assume.EnergyMargin)
	for m := 1; m <= most; m++ {
		plate := module.Energy * units.WattHours(m)
		b.UsableKWh[m] = float64(plate) / 1000 * shares * battery.Rate(plate, mean, c.RatedHours, age.Peukert)
	}
	return b
}

// Into puts so many modules into what the outage run knows.
func (b Pack) Into(p *outage.Design, modules int) {
	p.UsableKWh = b.UsableKWh[modules]
	p.DischargeKW = float64(modules) * b.ModuleKWh * b.DischargePerH
	p.ChargeEfficiency = chargerEfficiency * b.RoundTrip
	if b.MayCharge {
		p.ChargeKW = b.TakesKW(modules)
	}
}

// chargerEfficiency is from AC to the battery's DC; the battery's own round trip comes on top (common practice, no source).
const chargerEfficiency = 0.94

// ChargeEfficiency is from AC into what can be taken out again.
func (b Pack) ChargeEfficiency() float64 { return chargerEfficiency * b.RoundTrip }

// TakesKW is the greatest AC power with which so many modules may be charged.
func (b Pack) TakesKW(modules int) float64 {
	return float64(modules) * b.ModuleKWh * b.ChargePerH / chargerEfficiency
}

// Ageing is what stands between a battery's nameplate and what it gives, for one of a kind: what the home file assumes where it
// assumes that kind, else what the kind has, and its own age where the sheet says it.
func (d *Duty) Ageing(s Sheet, c profiles.Chemistry) battery.Ageing {
	a := d.Home.Assume
	age := battery.Ageing{DepthOfDischarge: c.DepthOfDischarge, EndOfLife: c.CapacityAtEndOfLife, Peukert: c.Peukert, Chemistry: c}
	age.Temperature, _ = battery.TemperatureFactor(c, d.Home.Site.BatterySpace)
	if c.Name == a.Chemistry {
		age.DepthOfDischarge, age.EndOfLife, age.Peukert = a.DepthOfDischarge, a.EndOfLife, a.Peukert
		if d.Home.Given("assume.battery_temperature_factor") {
			age.Temperature, age.Stated = a.TemperatureFactor, true
		}
	}
	if s.Has("capacity_left") {
		age.EndOfLife = s.Left
	}
	return age
}

// SizeBattery works out the battery of the kind that the home assumes which would carry the circuits alone, behind an inverter of an
// efficiency and an idle draw, W, and puts it down.
func (d *Duty) SizeBattery(f *derive.Figures, efficiency, idle derive.Term) (nameplate, modules derive.Term) {
	a := d.Home.Assume
	chemistry, _ := profiles.FindChemistry(a.Chemistry)
	return battery.Size(f, battery.Wanted{Energy: f.At("load.energy_wh", float64(d.Demand.Energy)), Running: f.At("load.running_w", float64(d.Demand.RunningW)),
		Length: f.At("outage.length", float64(d.Home.Outage.Length)), Efficiency: efficiency, Idle: idle, Margin: f.At("assume.energy_margin", a.EnergyMargin),
		Module: f.At("assume.module", float64(a.Module)), Hourly: d.Demand.Hourly, Start: d.Demand.Start}, d.Ageing(Sheet{}, chemistry))
}

// Bears says whether a kind of battery may be discharged and charged where a home has it. The place is the coldest that it gets in
// the year, so in a summer outage the cold does not count.
func Bears(house *home.Home, c profiles.Chemistry) (discharge, charge bool) {
	at, summer := float64(house.Site.BatterySpace), house.Outage.Season == home.Summer
	return (at >= c.DischargeMinC || summer) && at <= c.DischargeMaxC, (at >= c.ChargeMinC || summer) && at <= c.ChargeMaxC
}
