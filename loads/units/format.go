package units

import (
	"math"
	"strconv"
	"strings"
)

// Format writes a number to three or four significant figures without an exponent, thousands apart by a thin comma:
// 0.153, 12.4, 2,310, 45,900. From 10¹⁵ on, which no house comes near, it has one after all: 1.5e+300 is no wider than a
// screen. It is for people; files and JSON carry full precision.
func Format(value float64) string {
	magnitude := math.Abs(value)
	if !(magnitude < 1e15) {
		return strconv.FormatFloat(value, 'g', 4, 64)
	}
	decimals := 0
	switch {
	case magnitude == 0 || magnitude >= 1000:
	case magnitude < 1:
		decimals = 3
	case magnitude < 10:
		decimals = 2
	case magnitude < 100:
		decimals = 1
	}
	text := strconv.FormatFloat(value, 'f', decimals, 64)
	if decimals > 0 {
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	}
	if text == "-0" {
		return "0"
	}
	return groupThousands(text)
}

func groupThousands(text string) string {
	sign, digits := "", text
	if strings.HasPrefix(text, "-") {
		sign, digits = "-", text[1:]
	}
	whole, fraction, _ := strings.Cut(digits, ".")
	var b strings.Builder
	for i, r := range whole {
		if i > 0 && (len(whole)-i)%3 == 0 {
			b.WriteByte(',')
		}
		b.WriteRune(r)
	}
	if fraction != "" {
		b.WriteString("." + fraction)
	}
	return sign + b.String()
}

// Text writes a value of dimension d in its base unit with enough digits to read back the same: for home files.
func (d Dimension) Text(value float64) string {
	return strconv.FormatFloat(value, 'g', -1, 64) + " " + d.Base
}

// From gives a value of dimension d, held in the named unit, in the base unit instead. An unknown name is a programmer's
// error.
func (d Dimension) From(value float64, name string) float64 {
	u := d.must(name)
	return (value + u.offset) * u.factor
}

// In gives a value of dimension d, held in its base unit, in the named unit instead. An unknown name is a programmer's
// error.
func (d Dimension) In(value float64, name string) float64 {
	u := d.must(name)
	return value/u.factor - u.offset
}

func (d Dimension) must(name string) unit {
	u, ok := d.find(name)
	if !ok {
		panic("units: " + d.Name + " has no unit " + name)
	}
	return u
}
