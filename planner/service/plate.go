package service

import (
	"fmt"

	"holdover/loads"
	"holdover/loads/home"
	"holdover/profiles"
)

// The classes that the calculated load tells apart, as a home file's class has them.
const (
	classRange        = "range"
	classCooktop      = "cooktop"
	classOven         = "oven"
	classDryer        = "dryer"
	classWaterHeater  = "water-heater"
	classFastened     = "fastened"
	classSpaceHeat    = "space-heat"
	classCooling      = "air-conditioning"
	classHeatPump     = "heat-pump"
	classSupplemental = "supplemental-heat"
	classMotor        = "motor"
	classVehicle      = "vehicle"
	classLighting     = "lighting"
	classReceptacles  = "receptacles"
	classOther        = "other"
)

// A plate is a circuit as the calculated load sees it.
type plate struct {
	*home.Circuit
	class   string
	assumed bool    // the file and its profile give no class
	eachVA  float64 // nameplate of one
	isAmps  bool    // the file gives amps and no nameplate, so each lies on its own line
	id      string
	how     string
	source  string // where the figure comes from
}

func (p plate) va() float64 { return p.eachVA * float64(p.Count) }

// controls counts separately controlled heaters; one that does not say is controlled by itself.
func (p plate) controls() int { return max(p.Controlled, p.Count) }

// counts says whether it counts by itself: lighting and receptacles are in the general load.
func (p plate) counts() bool { return p.class != classLighting && p.class != classReceptacles }

// both says whether it lies across the two lines.
func (p plate) both() bool { return p.Volts > 130 }

// hasMotor says whether 25 % of it may be due as the largest motor.
func (p plate) hasMotor() bool {
	switch p.class {
	case classMotor, classCooling, classHeatPump:
		return true
	case classFastened:
		return p.Start.Kind == home.StartLetter || p.Start.Kind == home.StartAmps
	}
	return false
}

func plates(house *home.Home, code *profiles.Code) []plate {
	out := make([]plate, len(house.Circuits))
	for i := range house.Circuits {
		out[i] = newPlate(house, i)
		if out[i].class == classVehicle {
			out[i].raise(code.Rule("vehicle"))
		}
	}
	return out
}

// raise counts the charging of a vehicle at what the code asks for at least.
func (p *plate) raise(rule profiles.Rule) {
	if least := rule.Values["least_va"]; least > p.eachVA {
		p.eachVA, p.isAmps = least, false
		p.how += "; " + Say(rule.Phrase("raised"))
		p.source = rule.Source()
	}
}

func newPlate(house *home.Home, i int) plate {
	c := &house.Circuits[i]
	at := fmt.Sprintf("circuits[%d]", i)
	p := plate{Circuit: c, class: c.Class, id: at + ".nameplate"}
	if p.class == "" {
		p.class, p.assumed = guess(c), true
	}
	running := float64(loads.RunningPower(c).VA())
	ownPlate := house.Given(at + ".nameplate")
	switch {
	case c.Nameplate > 0 && (ownPlate || float64(c.Nameplate) >= running):
		p.eachVA, p.how = float64(c.Nameplate), "as its plate says"
		p.source = house.Source(at + ".nameplate")
	default:
		p.eachVA, p.how = running, "no nameplate is given, so its running VA"
		p.isAmps = house.Given(at + ".running_amps")
		p.source = house.Source(at+".running", at+".running_amps", at+".heater", at)
	}
	p.how = fmt.Sprintf("%s, %s: %s", c.Name, p.class, p.how)
	if c.Count > 1 {
		p.how += fmt.Sprintf(", %d of them", c.Count)
	}
	if p.assumed {
		p.how += "; no class is given, so it is taken for one by its volts, use and start"
	}
	return p
}

// guess takes a class from what else the circuit says: a 120 V circuit without a class is part of the general load, as outlets
// are; a 240 V one feeds one thing.
func guess(c *home.Circuit) string {
	switch {
	case c.Use.Kind == home.UseCooling:
		return classCooling
	case c.Start.Kind == home.StartLetter:
		return classMotor
	case c.Volts <= 130:
		return classReceptacles
	case c.Use.Kind == home.UseHeating && c.Start.Kind == home.NoStart:
		return classSpaceHeat
	case c.Use.Kind == home.UseHeating:
		return classHeatPump
	case c.Start.Kind == home.StartAmps:
		return classMotor
	}
	return classOther
}
