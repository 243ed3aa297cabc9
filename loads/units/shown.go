package units

import (
	"math"
	"strconv"
	"strings"
)

// This file writes quantities for people. Whatever prints a number calls it: screens, documents, messages, derivations.

// Quantity writes a value with the sign of its unit: 15 kWh, 35 °C, 1 module, 0.875.
func Quantity(value float64, unit string) string {
	if unit == "modules" && value == 1 {
		unit = "module"
	}
	return strings.TrimSpace(Format(value) + " " + Sign(unit))
}

// partners are the US customary units in which people expect what is worked out in these.
var partners = map[string]struct {
	of         *Dimension
	name, sign string
}{
	"C":    {&Temperature, "F", "°F"},
	"°C":   {&Temperature, "F", "°F"},
	"K":    {&Difference, "F", "°F difference"},
	"m":    {&Length, "ft", "ft"},
	"m2":   {&Area, "ft2", "ft²"},
	"m3":   {&Volume, "ft3", "ft³"},
	"L":    {&Volume, "gal", "gal"},
	"W/K":  {&HeatLoss, "Btu/h/F", "Btu/(h·°F)"},
	"Wh/K": {&HeatCapacity, "Btu/F", "Btu/°F"},
}

// InSystem writes a value, held in one of the units that we work in, in the units of a system: 304.8 m are 1,000 ft in [US].
func InSystem(value float64, unit string, s System) string {
	if p, ok := partners[unit]; ok && s == US {
		return Format(p.of.In(p.of.From(value, unit), p.name)) + " " + p.sign
	}
	return Quantity(value, unit)
}

// InBoth is [InSystem], and where that differs from the unit that the value is held in, this behind it: 1,000 ft (305 m).
func InBoth(value float64, unit string, s System) string {
	text := InSystem(value, unit, s)
	if held := Quantity(value, unit); held != text {
		text += " (" + held + ")"
	}
	return text
}

// Percent writes a share, and never rounds one short of the whole up to it.
func Percent(share float64) string {
	text := Quantity(100*share, "%")
	if text == "100 %" && share < 1-1e-9 {
		return "over 99.9 %"
	}
	return text
}

// Span writes a length of time in the unit that suits it, from minutes to days.
func Span(h Hours) string {
	switch {
	case h >= 365*24:
		return "a year or more"
	case h < 2:
		return Quantity(float64(h)*60, "min")
	case h >= 72:
		return Quantity(float64(h)/24, "days")
	}
	return Quantity(float64(h), "h")
}

// Brief writes a moment: in ms below a second, in s below two minutes, and longer as [Span] does.
func Brief(t Seconds) string {
	switch {
	case t < 1:
		return Quantity(float64(t)*1000, "ms")
	case t >= 120:
		return Span(Hours(float64(t) / 3600))
	}
	return Quantity(float64(t), "s")
}

// About writes an estimate of money: about 27,400 USD. Three figures are as many as a price band bears.
func About(amount float64, currency string) string {
	if amount == 0 {
		return "0 " + currency
	}
	return "about " + Quantity(Rounded(amount), currency)
}

// Rounded is an amount of money to three significant figures, and to whole units of its currency.
func Rounded(amount float64) float64 {
	rounded, _ := strconv.ParseFloat(strconv.FormatFloat(amount, 'e', 2, 64), 64)
	return math.Round(rounded)
}

// Counted writes how many of a thing there are: 1 start, 3 starts.
func Counted(n int, what string) string {
	if n != 1 {
		what += "s"
	}
	return strconv.Itoa(n) + " " + what
}

// Signed writes a difference, whose text says its size, with the sign that a gain needs.
func Signed(text string, difference float64) string {
	if difference > 0 {
		return "+" + text
	}
	return text
}
