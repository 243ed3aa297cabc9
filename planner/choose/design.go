package choose

import (
	"holdover/planner/outage"
)

// A Design is one point of the grid. Zero modules is no battery; a nil machine is no generator.
type Design struct {
	Modules    int
	InverterVA float64
	ChargerKW  float64
	Machine    *Machine
	Policy     Policy
}

// An Outcome is a design tried.
type Outcome struct {
	Design
	Run  outage.Summary
	Cost Cost
}

// Carried says whether the design carried the outage.
func (o Outcome) Carried() bool { return o.Run.Carried() }

// Plant turns a design into what the outage run knows.
func (c *Case) Plant(d Design) outage.Design {
	p := outage.Design{Efficiency: c.Efficiency, ChargeEfficiency: 1}
	if d.Modules > 0 {
		plate := float64(d.Modules) * c.Battery.ModuleKWh
		p.UsableKWh = c.Battery.UsableKWh[d.Modules]
		p.DischargeKW = plate * c.Battery.DischargePerH
		p.InverterKW = d.InverterVA / 1000 * c.InverterDerate * c.PowerFactor
		p.IdleKW = c.IdleKW
		p.ChargeEfficiency = chargerEfficiency * c.Battery.RoundTrip
		if c.Battery.MayCharge {
			p.ChargeKW = min(d.ChargerKW, plate*c.Battery.ChargePerH/chargerEfficiency)
		}
	}
	if m := d.Machine; m != nil {
		p.SiteKW, p.LeastKW, p.FuelStore = m.SiteKW, m.LeastKW, m.Store
		p.IdleBurn, p.BurnPerKWh = m.Line.IdleUnitsPerHourPerKW*m.KW, m.Line.UnitsPerKWh
	}
	p.StartAt, p.StopAt, p.LeadAt = d.Policy.StartAt, d.Policy.StopAt, d.Policy.LeadAt
	return p
}

// Try carries a design through the outage and prices it.
func (c *Case) Try(d Design) Outcome {
	plant := c.Plant(d)
	run := c.Outage.Run(&plant, nil)
	return Outcome{d, run, c.costOf(d, run.Fuel, run.RunHours)}
}

// Trace carries a design through the outage and keeps every stretch between events.
func (c *Case) Trace(d Design) []outage.Step {
	plant := c.Plant(d)
	var steps []outage.Step
	c.Outage.Run(&plant, &steps)
	return steps
}
