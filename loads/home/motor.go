package home

import (
	"fmt"

	"gopkg.in/yaml.v3"

	"holdover/loads/units"
	"holdover/profiles"
)

// finishMotor works out a running draw that was given as a motor's horsepower: the full-load current of the code's motor table at
// the circuit's volts, at the power factor that motors usually have unless one is given. Horsepower is what a motor gives at its
// shaft, so 746 W of it draw far more. A motor starts with a surge: where none is given, the usual one of its size is taken.
func (r *reader) finishMotor(n *yaml.Node, house *Home, c *Circuit, path string) {
	hp, ok := r.motors[join(path, "running")]
	if !ok {
		return
	}
	at := child(n, "running")
	table := profiles.Motors()
	motor, ok := profiles.UsualMotor(hp)
	if !ok || hp <= 0 {
		r.fault(at, join(path, "running"), "%s hp found; the motor table goes from a fraction to %s hp; give running_amps from the motor's nameplate", units.Format(hp), units.Format(table[len(table)-1].HP))
		return
	}
	given := func(key string) bool { _, ok := house.Origin(join(path, key)); return ok }
	usual := Origin{Source: fmt.Sprintf("usual for a motor of %s hp: %s", units.Format(hp), motor.Source)}
	if !given("power_factor") {
		c.PowerFactor = motor.PowerFactor
		house.origins[join(path, "power_factor")] = usual
	}
	if !given("start") {
		c.Start = Start{Kind: StartLetter, Letter: motor.Letter, HP: hp}
		house.origins[join(path, "start")] = usual
		if !given("start_seconds") {
			c.StartTime = units.Seconds(motor.StartSeconds)
			house.origins[join(path, "start_seconds")] = usual
		}
	}
	amps := motor.Row.Amps(float64(c.Volts))
	c.HP, c.RunningAmps = hp, units.Amps(amps)
	r.understood(join(path, "running"), fmt.Sprintf("%s A · %s V · power factor %s = %s W (%s for %s hp)", units.Format(amps), units.Format(float64(c.Volts)),
		units.Format(c.PowerFactor), units.Format(amps*float64(c.Volts)*c.PowerFactor), house.Code().Rule("motor-current").Short(), units.Format(motor.Row.HP)))
}
