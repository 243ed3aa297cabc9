package units

import (
	"errors"
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
)

// A quantity is a decimal number, then perhaps a unit. Hexadecimal, digit separators, nan and inf are not numbers here:
// a person who types one has made a slip.
var quantity = regexp.MustCompile(`^([+-]?(?:[0-9]+\.?[0-9]*|\.[0-9]+)(?:[eE][+-]?[0-9]+)?)\s*(.*)$`)

// Parse reads text as a quantity of dimension d and returns it in d's base unit. A bare number is in the base unit. The
// error says what was found and what is accepted; it never names a file or field, which the caller knows.
func Parse(text string, d Dimension) (float64, error) {
	m := quantity.FindStringSubmatch(strings.TrimSpace(text))
	if m == nil {
		return 0, fmt.Errorf("%q is not a number with a unit; %s is wanted, like %q", text, d.Article, d.Example)
	}
	value, err := number(m[1])
	if err != nil {
		return 0, fmt.Errorf("%q %w; %s is wanted, like %q", text, err, d.Article, d.Example)
	}
	name := strings.TrimSpace(m[2])
	if name == "" {
		return value, nil
	}
	if u, ok := d.find(name); ok {
		if value = (value + u.offset) * u.factor; math.IsInf(value, 0) {
			return 0, fmt.Errorf("%q is too large a number; %s is wanted, like %q", text, d.Article, d.Example)
		}
		return value, nil
	}
	for _, other := range all {
		if _, ok := other.find(name); ok {
			return 0, fmt.Errorf("%q is %s; %s is wanted, like %q", text, other.Article, d.Article, d.Example)
		}
	}
	return 0, fmt.Errorf("%q has the unknown unit %q; %s in %s is wanted, like %q",
		text, name, d.Name, strings.Join(d.Names(), ", "), d.Example)
}

// ParseShare reads a plain number or a percentage ("0.3", "30 %").
func ParseShare(text string) (float64, error) {
	trimmed := strings.TrimSpace(text)
	body, percent := strings.CutSuffix(trimmed, "%")
	m := quantity.FindStringSubmatch(strings.TrimSpace(body))
	if m == nil || m[2] != "" {
		return 0, fmt.Errorf("%q is not a number; a plain number or a percentage is wanted, like %q or %q", text, "0.3", "30 %")
	}
	value, err := number(m[1])
	if err != nil {
		return 0, fmt.Errorf("%q %w; a plain number is wanted", text, err)
	}
	if percent {
		value /= 100
	}
	return value, nil
}

func number(text string) (float64, error) {
	value, err := strconv.ParseFloat(text, 64)
	if err != nil || math.IsInf(value, 0) {
		return 0, errors.New("is too large a number")
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
