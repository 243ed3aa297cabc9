package home

import (
	"fmt"
	"math"
	"reflect"

	"gopkg.in/yaml.v3"

	"holdover/loads/units"
)

// This file reads one number of a home file: a quantity with its unit, or a plain share.

// number reads a quantity or a plain share and holds it to its range.
func (r *reader) number(n *yaml.Node, text string, f Field, path string) (float64, bool) {
	read := func(text string) (units.Reading, error) {
		share, err := units.ParseShare(text)
		return units.Reading{Value: share, Plain: true}, err
	}
	if f.Dimension != nil {
		read = func(text string) (units.Reading, error) { return units.Read(text, *f.Dimension, r.system) }
	}
	got, err := read(text)
	if err != nil && f.Motor && r.motor(text, path) {
		return 0, true // its watts follow from its volts, which may still come
	}
	if err == nil && got.Bare && got.Value > 0 && got.Value < f.BareFrom {
		err = f.askUnit(text, got.Value)
	}
	if err == nil {
		err = f.check(got.Value, text, got.Unit)
	}
	if err == nil && got.Value != 0 && math.Abs(got.Value) < leastAmount && f.kind != reflect.TypeFor[units.Celsius]() {
		err = fmt.Errorf("%q is too small an amount to mean anything; 0, or %g and more, is accepted", text, leastAmount)
	}
	if err != nil {
		r.fault(n, path, "%v", err)
		return 0, false
	}
	if !got.Plain {
		r.echo(text, f, path, got)
	}
	return got.Value + 0, true // + 0: no figure is minus nothing
}

// leastAmount is the least that a figure other than 0 may be, in the base unit of its dimension: a picowatt, a picosecond. What is
// less is a slip, and dividing by it would make figures that no machine can have.
const leastAmount = 1e-12

// echo records what was understood of a quantity, and that it is a bare number where the units of the home decide.
func (r *reader) echo(text string, f Field, path string, got units.Reading) {
	r.understood(path, f.Dimension.Says(got))
	origin, ok := r.origins[path]
	if ok && !r.quiet && got.Bare && f.Dimension.BySystem() && (got.Value != 0 || f.kind == reflect.TypeFor[units.Celsius]()) {
		origin.Bare, origin.Typed = true, text
		r.origins[path] = origin
	}
}

// motor takes a running draw that is given as a motor's horsepower; false for any other.
func (r *reader) motor(text, path string) bool {
	got, err := units.Read(text, units.MotorSize, r.system)
	if err != nil || got.Bare {
		return false
	}
	r.motors[path] = got.Value
	return true
}

// askUnit asks about a bare number that is likely to be in another unit: a break in supply is printed in ms.
func (f Field) askUnit(text string, seconds float64) error {
	return fmt.Errorf("%q has no unit: %s s, or %s ms? Those are the same; %s ms is not", text, text, units.Format(seconds*1000), text)
}
