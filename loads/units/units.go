// Package units answers one question: what did a person mean by "1.5 kW", "5250 ft" or "35 C"?
//
// Each quantity is a named float64 in one base unit, and that base unit is the type's name: a [Watts] holds watts. A
// bare number in a home file is taken in the type's base unit, but for lengths, areas, volumes and temperatures, where it is
// in the units of the home. [Read] reads a text for a given [Dimension]; [Format] writes one.
//
// The conversion factors are exact by definition (international foot, US and imperial gallon, International Table Btu), as in
// NIST Special Publication 811, appendix B.
package units

import "strings"

// The quantities of a household plan. Ranges are checked where they are read, not here.
type (
	Watts              float64 // real power, W
	VoltAmps           float64 // apparent power, VA
	WattHours          float64 // energy, Wh
	Volts              float64 // V, RMS
	Amps               float64 // A, RMS
	Seconds            float64 // short times: s
	Minutes            float64 // middling times: min
	Hours              float64 // long times: h
	Celsius            float64 // a temperature, °C
	Kelvins            float64 // a temperature difference, K
	Metres             float64 // m
	SquareMetres       float64 // m²
	WattsPerKelvin     float64 // heat loss, W/K
	WattHoursPerKelvin float64 // heat capacity, Wh/K
	Litres             float64 // volume, L
	Hertz              float64 // frequency, Hz
	LitresPerHour      float64 // flow of water, L/h
	Nameplate          float64 // what a nameplate says, VA; watts count as VA, as calculated loads take them
	Kilopascals        float64 // pressure above the air's, kPa
	CubicMetresPerHour float64 // flow of gas, m³/h
)

// A Dimension is what a quantity measures; it decides which units a text may carry.
type Dimension struct {
	Name    string // "power"
	Article string // "a power"
	Example string // "1.5 kW"
	Base    string // "W": the unit of the value, and of a bare number unless the systems differ
	units   []unit

	usExample string // in the units of the US system, where Example is not

	us       string // unit of a bare number in US customary units, where that is not the base
	compound bool   // may be given in two units, such as 5 ft 6 in
	words    bool   // may be a word, such as overnight
}

// BareUnit is the unit of a bare number.
func (d Dimension) BareUnit(s System) string {
	if s == US && d.us != "" {
		return d.us
	}
	return d.Base
}

// ExampleIn is a text of this dimension as it is written in the units of a system.
func (d Dimension) ExampleIn(s System) string {
	if s == US && d.usExample != "" {
		return d.usExample
	}
	return d.Example
}

// BySystem says whether the systems differ on what a bare number means.
func (d Dimension) BySystem() bool { return d.us != "" }

// unit says how to reach the base: base = (value + offset) · factor.
type unit struct {
	name   string
	factor float64
	offset float64
}

const (
	btuJoules  = 1055.05585262 // International Table Btu
	footMetres = 0.3048
	gallonL    = 3.785411784 // US liquid gallon
	btuWh      = btuJoules / 3600
)

// The dimensions a home file knows. The first unit is the base.
var (
	Power = Dimension{Name: "power", Article: "a power", Example: "1.5 kW", Base: "W", units: []unit{
		{"W", 1, 0}, {"kW", 1000, 0}, {"MW", 1e6, 0}, {"Btu/h", btuWh, 0}, {"kBtu/h", 1000 * btuWh, 0}}}
	ApparentPower = Dimension{Name: "apparent power", Article: "an apparent power", Example: "850 VA", Base: "VA", units: []unit{{"VA", 1, 0}, {"kVA", 1000, 0}}}
	Energy        = Dimension{Name: "energy", Article: "an energy", Example: "5 kWh", Base: "Wh", units: []unit{
		{"Wh", 1, 0}, {"kWh", 1000, 0}, {"MWh", 1e6, 0}, {"Btu", btuWh, 0}, {"kBtu", 1000 * btuWh, 0}, {"MJ", 1e6 / 3600, 0}, {"kJ", 1000.0 / 3600, 0}}}
	Voltage      = Dimension{Name: "voltage", Article: "a voltage", Example: "120 V", Base: "V", units: []unit{{"V", 1, 0}, {"kV", 1000, 0}}}
	Current      = Dimension{Name: "current", Article: "a current", Example: "15 A", Base: "A", units: []unit{{"A", 1, 0}, {"mA", 0.001, 0}}}
	ShortTime    = Dimension{Name: "time", Article: "a time", Example: "20 ms", Base: "s", units: timeUnits("s", 1), compound: true}
	MiddlingTime = Dimension{Name: "time", Article: "a time", Example: "40 min", Base: "min", units: timeUnits("min", 60), compound: true}
	LongTime     = Dimension{Name: "time", Article: "a time", Example: "24 h", Base: "h", units: timeUnits("h", 3600), compound: true, words: true}
	Temperature  = Dimension{Name: "temperature", Article: "a temperature", Example: "35 C", Base: "C", units: []unit{
		{"C", 1, 0}, {"°C", 1, 0}, {"F", 5.0 / 9, -32}, {"°F", 5.0 / 9, -32}, {"K", 1, -273.15}}, us: "F", usExample: "95 F"}
	Difference = Dimension{Name: "temperature difference", Article: "a temperature difference", Example: "12 K", Base: "K", units: []unit{
		{"K", 1, 0}, {"C", 1, 0}, {"°C", 1, 0}, {"F", 5.0 / 9, 0}, {"°F", 5.0 / 9, 0}}, us: "F", usExample: "22 F"}
	Frequency = Dimension{Name: "frequency", Article: "a frequency", Example: "60 Hz", Base: "Hz", units: []unit{{"Hz", 1, 0}}}
	Length    = Dimension{Name: "length", Article: "a length", Example: "1600 m", Base: "m", units: []unit{{"m", 1, 0}, {"km", 1000, 0}, {"cm", 0.01, 0}, {"mm", 0.001, 0}, {"ft", footMetres, 0}, {"in", footMetres / 12, 0}}, us: "ft", usExample: "60 ft", compound: true}
	Area      = Dimension{Name: "area", Article: "an area", Example: "170 m2", Base: "m2", units: []unit{{"m2", 1, 0}, {"m²", 1, 0}, {"ft2", footMetres * footMetres, 0}, {"ft²", footMetres * footMetres, 0}}, us: "ft2", usExample: "1850 ft2"}
	HeatLoss  = Dimension{Name: "heat loss", Article: "a heat loss", Example: "220 W/K", Base: "W/K", units: []unit{
		{"W/K", 1, 0}, {"W/C", 1, 0}, {"kW/K", 1000, 0}, {"Btu/h/F", btuWh * 9 / 5, 0}, {"Btu/(h·F)", btuWh * 9 / 5, 0}}}
	HeatCapacity = Dimension{Name: "heat capacity", Article: "a heat capacity", Example: "9 kWh/K", Base: "Wh/K", units: []unit{
		{"Wh/K", 1, 0}, {"kWh/K", 1000, 0}, {"kJ/K", 1000.0 / 3600, 0}, {"MJ/K", 1e6 / 3600, 0}, {"Btu/F", btuWh * 9 / 5, 0}}}
	Volume = Dimension{Name: "volume", Article: "a volume", Example: "95 L", Base: "L", units: []unit{
		{"L", 1, 0}, {"l", 1, 0}, {"mL", 0.001, 0}, {"gal", gallonL, 0}, {"imp gal", 4.54609, 0}, {"m3", 1000, 0}, {"m³", 1000, 0}, {"ft3", 28.316846592, 0}, {"ft³", 28.316846592, 0}}, us: "gal", usExample: "25 gal"}
)

// Flow is apart from the block above because its units are those of a volume in those of a time.
var Flow = Dimension{Name: "flow", Article: "a flow", Example: "200 L/h", Base: "L/h", units: []unit{
	{"L/h", 1, 0}, {"l/h", 1, 0}, {"L/min", 60, 0}, {"l/min", 60, 0}, {"gal/h", gallonL, 0}, {"gal/min", 60 * gallonL, 0}}}

// The dimensions of a plate and of piped gas. A column of water of 1 in at 4 °C is 249.08891 Pa (NIST Special Publication
// 811, appendix B); 1 psi is 6.894757 kPa.
var (
	Plate = Dimension{Name: "nameplate rating", Article: "a nameplate rating", Example: "12 kW", Base: "VA", units: []unit{
		{"VA", 1, 0}, {"kVA", 1000, 0}, {"W", 1, 0}, {"kW", 1000, 0}}}
	Pressure = Dimension{Name: "pressure", Article: "a pressure", Example: "7 in w.c.", Base: "kPa", units: []unit{
		{"kPa", 1, 0}, {"in w.c.", 0.24908891, 0}, {"inwc", 0.24908891, 0}, {"psi", 6.894757, 0}, {"mbar", 0.1, 0}}}
	GasFlow = Dimension{Name: "flow of gas", Article: "a flow of gas", Example: "250 ft3/h", Base: "m3/h", units: []unit{
		{"m3/h", 1, 0}, {"m³/h", 1, 0}, {"ft3/h", 0.028316846592, 0}, {"ft³/h", 0.028316846592, 0}, {"cfh", 0.028316846592, 0}}}
)

// timeUnits lists the units of time against a base of so many seconds, the base first.
func timeUnits(base string, baseSeconds float64) []unit {
	all := []unit{{"ms", 0.001, 0}, {"s", 1, 0}, {"min", 60, 0}, {"h", 3600, 0}, {"d", 86400, 0}, {"week", 604800, 0}}
	out := []unit{{base, 1, 0}}
	for _, u := range all {
		if u.name != base {
			out = append(out, unit{u.name, u.factor / baseSeconds, 0})
		}
	}
	return out
}

// Names lists the units a text of this dimension may carry, the base first.
func (d Dimension) Names() []string {
	names := make([]string, len(d.units))
	for i, u := range d.units {
		names[i] = u.name
	}
	return names
}

// all is searched to say what a unit of the wrong dimension does measure.
var all = []Dimension{Power, ApparentPower, Energy, Voltage, Current, LongTime, Temperature, Length, Area, HeatLoss, HeatCapacity, Volume, Frequency, Flow, Pressure, GasFlow, MotorSize, Money, Years}

// MotorSize is what a motor gives at its shaft; what it draws for that is another matter.
var MotorSize = Dimension{Name: "motor size", Article: "a motor size", Example: "1/2 hp", Base: "hp", units: []unit{{"hp", 1, 0}}}

// Money is an amount of money.
var Money = Dimension{Name: "amount of money", Article: "an amount of money", Example: "$8,000", Base: "USD", units: []unit{{"USD", 1, 0}, {"kUSD", 1000, 0}}}

// Years is a number of years.
var Years = Dimension{Name: "number of years", Article: "a number of years", Example: "15 years", Base: "years", units: []unit{{"years", 1, 0}}}

// By is a dimension whose values are in another of its units, which must have no offset.
func (d Dimension) By(base string) Dimension {
	of := d.must(base)
	out := d
	out.Base, out.units = base, []unit{{of.name, 1, 0}}
	for _, u := range d.units {
		if u.name != base {
			out.units = append(out.units, unit{u.name, u.factor / of.factor, 0})
		}
	}
	return out
}

// Price is a sum of money for each unit of a quantity, such as "USD/kWh". What it is for decides its units: each of those of the
// quantity. A unit that no dimension has is a programmer's error.
func Price(base string) Dimension {
	per := strings.TrimPrefix(base, "USD/")
	for _, d := range all {
		of, ok := d.exact(per)
		if !ok {
			continue
		}
		price := Dimension{Name: "price", Article: "a price", Example: "0.90 " + base, Base: base, units: []unit{{base, 1, 0}, {"USD", 1, 0}}}
		for _, u := range d.units {
			if u.name != per && u.offset == 0 {
				price.units = append(price.units, unit{"USD/" + u.name, of.factor / u.factor, 0})
			}
		}
		return price
	}
	panic("units: no price by " + base)
}
