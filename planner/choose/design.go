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
	Run   outage.Summary // of the hardest start hour, where the case has several
	Start float64        // clock time of that run, h
	Cost  Cost
	Fuel  float64 // the most that any start hour takes, by which it is priced
	Hours float64 // that the machine runs, likewise

	// Proven says that the search which gave this outcome went to its end: nothing of its kind is cheaper, or, where it does not
	// carry the house, nothing does. Where it is false the budget of work ended first, and this is the best that was found.
	Proven bool
}

// Carried says whether the design carried the outage.
func (o Outcome) Carried() bool { return o.Run.Carried() }

// Real says whether there is a design at all.
func (o Outcome) Real() bool { return o.Modules > 0 || o.Machine != nil }

// Plant turns a design into what the outage run knows.
func (c *Case) Plant(d Design) outage.Design {
	p := outage.Design{Efficiency: c.Efficiency, ChargeEfficiency: 1}
	if d.Modules > 0 {
		c.Battery.Into(&p, d.Modules)
		p.InverterKW = d.InverterVA / 1000 * c.InverterDerate * c.PowerFactor
		p.IdleKW = c.IdleKW
		p.ChargerKW = d.ChargerKW
	}
	if m := d.Machine; m != nil {
		m.Into(&p)
	}
	p.StartAt, p.StopAt, p.LeadAt = d.Policy.StartAt, d.Policy.StopAt, d.Policy.LeadAt
	return p
}

// Try carries a design through the outage and prices it. Where the case has several start hours, the run kept is the
// hardest, the one with the most kWh short, then with the most fuel; the price goes by the most fuel and the most running
// hours of all.
func (c *Case) Try(d Design) Outcome {
	plant := c.Plant(d)
	o := Outcome{Design: d}
	for i := range c.Outages {
		run := c.Outages[i].Run(&plant, nil)
		c.meter.Spend(run.Steps)
		o.Fuel, o.Hours = max(o.Fuel, run.Fuel), max(o.Hours, run.RunHours)
		if i == 0 || harder(run, o.Run) {
			o.Run, o.Start = run, float64(c.Outages[i].Start)
		}
	}
	o.Cost = c.costOf(d, o.Fuel, o.Hours)
	return o
}

func harder(a, b outage.Summary) bool {
	if a.Carried() && b.Carried() {
		return a.Fuel > b.Fuel
	}
	return a.ShortKWh > b.ShortKWh
}

// Trace carries a design through the outage from its hardest start hour and keeps every stretch between events.
func (c *Case) Trace(o Outcome) []outage.Step {
	plant := c.Plant(o.Design)
	var steps []outage.Step
	for i := range c.Outages {
		if float64(c.Outages[i].Start) == o.Start {
			c.Outages[i].Run(&plant, &steps)
		}
	}
	return steps
}
