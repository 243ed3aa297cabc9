// Package units answers one question: what did a person mean by "1.5 kW", "5250 ft" or "35 C"?
//
// Each quantity is a named float64 in one base unit, and that base unit is the type's name: a [Watts] holds watts. A
// bare number in a home file is taken in the type's base unit. [Parse] reads a text for a given [Dimension];
// [Format] and the String methods write one.
//
// The conversion factors are exact by definition (international foot, avoirdupois pound, US gallon, International Table
// Btu), as in NIST Special Publication 811, appendix B.
package units

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
	Nameplate          float64 // what a nameplate says, VA; watts count as VA, as NEC 220.55 and Annex D take them
	Kilopascals        float64 // pressure above the air's, kPa
	CubicMetresPerHour float64 // flow of gas, m³/h
)

// A Dimension is what a quantity measures; it decides which units a text may carry.
type Dimension struct {
	Name    string // "power"
	Article string // "a power"
	Example string // "1.5 kW"
	Base    string // unit of a bare number: "W"
	units   []unit
}

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
	Power = Dimension{"power", "a power", "1.5 kW", "W", []unit{
		{"W", 1, 0}, {"kW", 1000, 0}, {"MW", 1e6, 0}, {"Btu/h", btuWh, 0}, {"kBtu/h", 1000 * btuWh, 0}}}
	ApparentPower = Dimension{"apparent power", "an apparent power", "850 VA", "VA", []unit{{"VA", 1, 0}, {"kVA", 1000, 0}}}
	Energy        = Dimension{"energy", "an energy", "5 kWh", "Wh", []unit{
		{"Wh", 1, 0}, {"kWh", 1000, 0}, {"MWh", 1e6, 0}, {"Btu", btuWh, 0}, {"kBtu", 1000 * btuWh, 0}, {"MJ", 1e6 / 3600, 0}, {"kJ", 1000.0 / 3600, 0}}}
	Voltage      = Dimension{"voltage", "a voltage", "120 V", "V", []unit{{"V", 1, 0}, {"kV", 1000, 0}}}
	Current      = Dimension{"current", "a current", "15 A", "A", []unit{{"A", 1, 0}, {"mA", 0.001, 0}}}
	ShortTime    = Dimension{"time", "a time", "20 ms", "s", timeUnits("s", 1)}
	MiddlingTime = Dimension{"time", "a time", "40 min", "min", timeUnits("min", 60)}
	LongTime     = Dimension{"time", "a time", "24 h", "h", timeUnits("h", 3600)}
	Temperature  = Dimension{"temperature", "a temperature", "35 C", "C", []unit{
		{"C", 1, 0}, {"°C", 1, 0}, {"F", 5.0 / 9, -32}, {"°F", 5.0 / 9, -32}, {"K", 1, -273.15}}}
	Difference = Dimension{"temperature difference", "a temperature difference", "12 K", "K", []unit{
		{"K", 1, 0}, {"C", 1, 0}, {"°C", 1, 0}, {"F", 5.0 / 9, 0}, {"°F", 5.0 / 9, 0}}}
	Frequency = Dimension{"frequency", "a frequency", "60 Hz", "Hz", []unit{{"Hz", 1, 0}}}
	Length    = Dimension{"length", "a length", "1600 m", "m", []unit{{"m", 1, 0}, {"km", 1000, 0}, {"cm", 0.01, 0}, {"mm", 0.001, 0}, {"ft", footMetres, 0}, {"in", footMetres / 12, 0}}}
	Area      = Dimension{"area", "an area", "170 m2", "m2", []unit{{"m2", 1, 0}, {"m²", 1, 0}, {"ft2", footMetres * footMetres, 0}, {"ft²", footMetres * footMetres, 0}}}
	HeatLoss  = Dimension{"heat loss", "a heat loss", "220 W/K", "W/K", []unit{
		{"W/K", 1, 0}, {"W/C", 1, 0}, {"kW/K", 1000, 0}, {"Btu/h/F", btuWh * 9 / 5, 0}, {"Btu/(h·F)", btuWh * 9 / 5, 0}}}
	HeatCapacity = Dimension{"heat capacity", "a heat capacity", "9 kWh/K", "Wh/K", []unit{
		{"Wh/K", 1, 0}, {"kWh/K", 1000, 0}, {"kJ/K", 1000.0 / 3600, 0}, {"MJ/K", 1e6 / 3600, 0}, {"Btu/F", btuWh * 9 / 5, 0}}}
	Volume = Dimension{"volume", "a volume", "25 gal", "L", []unit{
		{"L", 1, 0}, {"l", 1, 0}, {"mL", 0.001, 0}, {"gal", gallonL, 0}, {"m3", 1000, 0}, {"m³", 1000, 0}, {"ft3", 28.316846592, 0}, {"ft³", 28.316846592, 0}}}
)

// Flow is apart from the block above because its units are those of a volume in those of a time.
var Flow = Dimension{"flow", "a flow", "200 L/h", "L/h", []unit{
	{"L/h", 1, 0}, {"l/h", 1, 0}, {"L/min", 60, 0}, {"l/min", 60, 0}, {"gal/h", gallonL, 0}, {"gal/min", 60 * gallonL, 0}}}

// The dimensions of a plate and of piped gas. A column of water of 1 in at 4 °C is 249.08891 Pa (NIST Special Publication
// 811, appendix B); 1 psi is 6.894757 kPa.
var (
	Plate = Dimension{"nameplate rating", "a nameplate rating", "12 kW", "VA", []unit{
		{"VA", 1, 0}, {"kVA", 1000, 0}, {"W", 1, 0}, {"kW", 1000, 0}}}
	Pressure = Dimension{"pressure", "a pressure", "7 in w.c.", "kPa", []unit{
		{"kPa", 1, 0}, {"in w.c.", 0.24908891, 0}, {"inwc", 0.24908891, 0}, {"psi", 6.894757, 0}, {"mbar", 0.1, 0}}}
	GasFlow = Dimension{"flow of gas", "a flow of gas", "250 ft3/h", "m3/h", []unit{
		{"m3/h", 1, 0}, {"m³/h", 1, 0}, {"ft3/h", 0.028316846592, 0}, {"ft³/h", 0.028316846592, 0}, {"cfh", 0.028316846592, 0}}}
)

// timeUnits lists the units of time against a base of so many seconds, the base first.
func timeUnits(base string, baseSeconds float64) []unit {
	all := []unit{{"ms", 0.001, 0}, {"s", 1, 0}, {"min", 60, 0}, {"h", 3600, 0}, {"d", 86400, 0}, {"days", 86400, 0}, {"day", 86400, 0}}
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
var all = []Dimension{Power, ApparentPower, Energy, Voltage, Current, LongTime, Temperature, Length, Area, HeatLoss, HeatCapacity, Volume, Frequency, Flow, Pressure, GasFlow}
