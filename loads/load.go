package loads

import (
	"fmt"

	"holdover/loads/home"
	"holdover/loads/units"
)

// A Load is one kept or rotated circuit worked out: all its units together.
type Load struct {
	*home.Circuit
	Index    int             // place in Home.Circuits
	Running  Power           // all units on, frost heaters included where the cold can bring them on
	Starting Power           // one unit starting in place of running
	Starts   bool            // whether it has a start at all
	Duty     [24]float64     // share of each clock hour that it is on
	Hourly   [24]units.Watts // mean draw in each clock hour, all units
}

// unit is the running power of one of its units.
func (l *Load) unit() Power { return l.Running / Power(complex(float64(l.Count), 0)) }

// MeanDuty is the share of the day that it is on.
func (l *Load) MeanDuty() float64 {
	sum := 0.0
	for _, duty := range l.Duty {
		sum += duty / 24
	}
	return sum
}

// workLoads works out every circuit that is kept or rotated.
func workLoads(house *home.Home) []Load {
	outdoors := Outdoors(house.Site, house.Outage.Season)
	outputs := outputsOf(house)
	var out []Load
	for i := range house.Circuits {
		c := &house.Circuits[i]
		if c.Care == home.Shed {
			continue
		}
		l := Load{Circuit: c, Index: i, Running: RunningPower(c)}
		l.Starting, l.Starts = StartingPower(c, house.Assume.StartingPowerFactor)
		l.Duty = duty(c, house, outdoors, outputs)
		for h, duty := range l.Duty {
			l.Hourly[h] = units.Watts(duty)*runningWatts(c) + units.Watts(1-duty)*standbyWatts(c)
		}
		l.addGuard(house, outdoors)
		l.Running *= Power(complex(float64(c.Count), 0))
		for h := range l.Hourly {
			l.Hourly[h] *= units.Watts(c.Count)
		}
		out = append(out, l)
	}
	return out
}

// addGuard adds a heater's frost heaters. They answer to the cold alone, so they may be on while it fires: the bound
// counts both.
func (l *Load) addGuard(house *home.Home, outdoors [24]units.Celsius) {
	if l.Heater == nil || l.Heater.FreezeGuard == 0 {
		return
	}
	bites := false
	for h, at := range surroundings(l.Heater, house, l.garageTempGiven(house), outdoors) {
		duty := GuardDuty(l.Heater, at)
		bites = bites || duty > 0
		l.Hourly[h] += units.Watts(duty) * l.Heater.FreezeGuard
	}
	if bites {
		l.Running += fromWatts(float64(l.Heater.FreezeGuard), l.PowerFactor)
	}
}

// garageTempGiven says whether the heater's garage_temp counts: the file gives it, or a profile does for a heater that
// stands in a garage.
func (l *Load) garageTempGiven(house *home.Home) bool {
	at := fmt.Sprintf("circuits[%d].heater.garage_temp", l.Index)
	_, known := house.Origin(at)
	return house.Given(at) || (known && l.Heater.StandsIn == home.InGarage)
}

// duty is the share of each clock hour that the circuit is on.
func duty(c *home.Circuit, house *home.Home, outdoors [24]units.Celsius, outputs map[home.UseKind]float64) (day [24]float64) {
	switch {
	case c.Use.Kind == home.UseHours:
		return c.Use.Hours
	case c.Use.Kind == home.UseHeating || c.Use.Kind == home.UseCooling:
		return climateDuty(c, house, outdoors, outputs[c.Use.Kind])
	}
	duty := 1.0
	switch {
	case c.Use.Kind == home.UseDuty:
		duty = c.Use.Duty
	case c.Heater != nil:
		duty = float64(c.Heater.Draw) / (24 * 60)
	}
	for h := range day {
		day[h] = duty
	}
	return day
}

// outputsOf adds up what all that heats can give, and all that cools, W.
func outputsOf(house *home.Home) map[home.UseKind]float64 {
	sums := map[home.UseKind]float64{}
	for i := range house.Circuits {
		if c := &house.Circuits[i]; c.Care != home.Shed {
			sums[c.Use.Kind] += float64(c.Output) * float64(c.Count)
		}
	}
	return sums
}

// climateDuty follows the weather: heat_loss·(indoors − outdoors)/output, held to 0..1, and for cooling heat_loss·(outdoors −
// cooled_to)/output. Those that heat share what the house wants in proportion to what they can give, so output is that of all of
// them, W; and so with those that cool. Cooling also meets sun and people, which the loss does not count, so its profile's duty is
// reached at the day's high at the least, and falls off in proportion below it (common practice, no source). Without a heat_loss the profile's duty holds in its own season, and half of it in
// mild ones (common practice, no source).
func climateDuty(c *home.Circuit, house *home.Home, outdoors [24]units.Celsius, output float64) (day [24]float64) {
	for h, outside := range outdoors {
		warmer := float64(house.House.Indoors - outside)
		if c.Use.Kind == home.UseCooling {
			warmer = float64(outside - house.House.CooledTo)
		}
		switch {
		case house.House.HeatLoss == 0:
			day[h] = c.Fallback * seasonShare(c.Use.Kind, house.Outage.Season)
		case c.Use.Kind == home.UseCooling && warmer > 0:
			share := warmer / float64(DesignHigh(house.Site, house.Outage.Season)-house.House.CooledTo)
			day[h] = max(c.Fallback*share, clamp01(float64(house.House.HeatLoss)*warmer/output))
		default:
			day[h] = clamp01(float64(house.House.HeatLoss) * warmer / output)
		}
	}
	return day
}

func seasonShare(use home.UseKind, season home.Season) float64 {
	switch {
	case season == home.Mild:
		return 0.5
	case (use == home.UseHeating) == (season == home.Winter):
		return 1
	}
	return 0
}
