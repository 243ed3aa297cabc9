package units

import (
	"errors"
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
)

// A System is the units in which a bare number is taken where people do not agree on one: lengths, areas, volumes and
// temperatures.
type System string

// The systems.
const (
	US System = "us" // ft, ft2, gal, °F
	SI System = "si" // m, m2, L, °C
)

// A Reading is what a text was understood to say.
type Reading struct {
	Value float64 // in the base unit of its dimension
	Unit  string  // the unit that was written, or taken for a bare number
	Bare  bool    // no unit was written
	Plain bool    // a decimal number with the sign of a unit: there is nothing to explain
}

// A quantity is a decimal number, then perhaps a unit. Hexadecimal, digit separators, nan and inf are not numbers here:
// a person who types one has made a slip.
var quantity = regexp.MustCompile(`^([+-]?(?:[0-9]+\.?[0-9]*|\.[0-9]+)(?:[eE][+-]?[0-9]+)?)\s*(.*)$`)

// Read reads text as a quantity of dimension d, as people write quantities: see profiles/everyday.yaml. A bare number is in
// the unit of the system, or in d's base unit where the systems agree. The error says what was found and what is accepted;
// it never names a file or field, which the caller knows.
func Read(text string, d Dimension, s System) (Reading, error) {
	m := quantity.FindStringSubmatch(strings.TrimSpace(text))
	if m == nil {
		return readEveryday(text, d, s)
	}
	name, bare := m[2], m[2] == ""
	if bare {
		name = d.BareUnit(s)
	}
	u, ok := d.find(name)
	if !ok {
		return readEveryday(text, d, s)
	}
	value, err := number(m[1])
	if err != nil {
		return Reading{}, d.fault(text, err)
	}
	return d.reading(text, value, u, Reading{Unit: u.name, Bare: bare, Plain: !bare})
}

// Parse is [Read] for a text in which a bare number is in d's base unit.
func Parse(text string, d Dimension) (float64, error) {
	r, err := Read(text, d, SI)
	return r.Value, err
}

// reading puts a number of a unit in the base unit.
func (d Dimension) reading(text string, value float64, u unit, r Reading) (Reading, error) {
	if r.Value = (value + u.offset) * u.factor; math.IsInf(r.Value, 0) {
		return Reading{}, d.fault(text, errTooLarge)
	}
	return r, nil
}

func (d Dimension) fault(text string, err error) error {
	return fmt.Errorf("%q %w; %s is wanted, like %q", text, err, d.Article, d.Example)
}

// unknown says of a unit that d does not have what else it may be.
func (d Dimension) unknown(text, name string) error {
	for _, other := range all {
		if _, ok := other.named(name); ok {
			return fmt.Errorf("%q is %s; %s is wanted, like %q", text, other.Article, d.Article, d.Example)
		}
	}
	return fmt.Errorf("%q has the unknown unit %q; %s in %s is wanted, like %q",
		text, name, d.Name, strings.Join(d.Names(), ", "), d.Example)
}

// ParseShare reads a plain number, a fraction or a percentage ("0.3", "1/3", "30 %").
func ParseShare(text string) (float64, error) {
	body, percent := strings.CutSuffix(strings.TrimSpace(text), "%")
	value, rest, err := everydayNumber(untypeset(body))
	if err != nil && !errors.Is(err, errNoNumber) {
		return 0, fmt.Errorf("%q %w; a plain number is wanted", text, err)
	}
	if err != nil || rest != "" {
		return 0, fmt.Errorf("%q is not a number; a plain number or a percentage is wanted, like %q or %q", text, "0.3", "30 %")
	}
	if percent {
		value /= 100
	}
	return value, nil
}

var errTooLarge = errors.New("is too large a number")

func number(text string) (float64, error) {
	value, err := strconv.ParseFloat(text, 64)
	if err != nil || math.IsInf(value, 0) {
		return 0, errTooLarge
	}
	return value, nil
}

// find looks a unit up as it is written, and then, where that cannot be mistaken for another, in any case: "kw", "FT".
// A leading m may stand for a thousandth or a million, so those units are taken as written only.
func (d Dimension) find(name string) (unit, bool) {
	for _, u := range d.units {
		if u.name == name {
			return u, true
		}
	}
	for _, u := range d.units {
		if strings.EqualFold(u.name, name) && (name[0]|0x20 != 'm' || caseless[u.name]) {
			return u, true
		}
	}
	return unit{}, false
}

// caseless are the units with a leading m that no case makes another unit.
var caseless = map[string]bool{"m": true, "min": true, "m2": true, "m3": true}
