package home

import (
	"fmt"
	"reflect"
	"strconv"
	"strings"
	"sync"

	"holdover/loads/units"
	"holdover/profiles"
)

// A Field is one key of the home file as its struct tags declare it. The reader, the schema and the screens' forms all
// work from this one list, so they cannot disagree.
type Field struct {
	Key       string
	Doc       string
	Words     []string         // accepted words, nil when not a word
	Low, High float64          // accepted range in the base unit, when Bounded
	Bounded   bool             // whether Low and High apply
	Required  bool             // whether the file must have it
	Dimension *units.Dimension // nil when not a quantity
	Unit      string           // of a plain number that has one, such as "1/K"
	BareFrom  float64          // a bare number above 0 and below this is asked about
	Motor     bool             // may be given as a motor's horsepower
	lowSaid   string           // Low in a unit in which it is a plain number: "1 min"; empty where it is one in the base unit
	index     int
	entry     string // of a registry, where the field is a map with a value for each of its entries
	kind      reflect.Type
}

// FieldsOf lists the keys of a section or of an entry in their usual order: "home", "site", "outage", "lasts", "assume", "limits",
// "prices", "circuits", "needs", "heater", "tank", "pit", "runs", "gas" or "gear"; of "" those of the file itself. An unknown name
// is a programmer's error.
func FieldsOf(name string) []Field {
	t, ok := sectionTypes[name]
	if !ok {
		panic("home: no section " + name)
	}
	return fieldsOf(t)
}

var sectionTypes = map[string]reflect.Type{
	"":     reflect.TypeFor[Home](),
	"home": reflect.TypeFor[House](), "site": reflect.TypeFor[Site](), "outage": reflect.TypeFor[Outage](),
	"assume": reflect.TypeFor[Assume](), "limits": reflect.TypeFor[Limits](), "circuits": reflect.TypeFor[Circuit](),
	"prices": reflect.TypeFor[Prices](), "lasts": reflect.TypeFor[Lasts](),
	"needs": reflect.TypeFor[Needs](), "heater": reflect.TypeFor[Heater](), "gear": reflect.TypeFor[Gear](), "tank": reflect.TypeFor[Tank](), "pit": reflect.TypeFor[Pit](),
	"runs": reflect.TypeFor[Run](), "gas": reflect.TypeFor[Gas](),
}

// dimensions says what each quantity type measures.
var dimensions = map[reflect.Type]*units.Dimension{
	reflect.TypeFor[units.Watts](): &units.Power, reflect.TypeFor[units.VoltAmps](): &units.ApparentPower,
	reflect.TypeFor[units.WattHours](): &units.Energy, reflect.TypeFor[units.Volts](): &units.Voltage,
	reflect.TypeFor[units.Amps](): &units.Current, reflect.TypeFor[units.Seconds](): &units.ShortTime,
	reflect.TypeFor[units.Minutes](): &units.MiddlingTime, reflect.TypeFor[units.Hours](): &units.LongTime,
	reflect.TypeFor[units.Celsius](): &units.Temperature, reflect.TypeFor[units.Kelvins](): &units.Difference,
	reflect.TypeFor[units.Metres](): &units.Length, reflect.TypeFor[units.SquareMetres](): &units.Area,
	reflect.TypeFor[units.WattsPerKelvin](): &units.HeatLoss, reflect.TypeFor[units.WattHoursPerKelvin](): &units.HeatCapacity,
	reflect.TypeFor[units.Litres](): &units.Volume, reflect.TypeFor[units.Hertz](): &units.Frequency,
	reflect.TypeFor[units.LitresPerHour](): &units.Flow,
	reflect.TypeFor[units.Nameplate]():     &units.Plate, reflect.TypeFor[units.Kilopascals](): &units.Pressure,
	reflect.TypeFor[units.CubicMetresPerHour](): &units.GasFlow,
}

// unitDimensions says what a number with a unit of its own measures; nil for one that has none that people write.
func unitDimensions(unit string) *units.Dimension {
	switch {
	case strings.HasPrefix(unit, "USD/"):
		d := units.Price(unit)
		return &d
	case unit == "kWh":
		d := units.Energy.By(unit)
		return &d
	case unit == "hp":
		return &units.MotorSize
	case unit == "years":
		return &units.Years
	case unit == "USD":
		return &units.Money
	case unit == "L":
		return &units.Volume
	}
	return nil
}

var fieldCache sync.Map // reflect.Type → []Field

func fieldsOf(t reflect.Type) []Field {
	if cached, ok := fieldCache.Load(t); ok {
		return cached.([]Field)
	}
	var fields []Field
	for i := range t.NumField() {
		if t.Field(i).Tag.Get("each") == "fuel" {
			fields = append(fields, eachFuel(t.Field(i), i)...)
		}
		if f, ok := fieldFrom(t.Field(i), i); ok {
			fields = append(fields, f)
		}
	}
	fieldCache.Store(t, fields)
	return fields
}

// eachFuel is a field for each fuel of one that is a map with a value for every fuel: what its price is given under.
func eachFuel(sf reflect.StructField, index int) (fields []Field) {
	for _, fuel := range profiles.Fuels() {
		sf.Type = reflect.TypeFor[float64]()
		sf.Tag = reflect.StructTag(fmt.Sprintf(`key:%q unit:%q range:"0,1000" doc:%q`, fuel.PriceKey(), "USD/"+fuel.Unit, strings.ToLower(fuel.Title)+", for each "+fuel.UnitTitle))
		f, _ := fieldFrom(sf, index)
		f.entry = string(fuel.Name)
		fields = append(fields, f)
	}
	return fields
}

// in is the field's value in its struct. The map of one that is an entry's is made when it is first asked for.
func (f Field) in(v reflect.Value) reflect.Value {
	v = v.Field(f.index)
	if f.entry == "" {
		return v
	}
	if v.IsNil() {
		v.Set(reflect.MakeMap(v.Type()))
	}
	key := reflect.ValueOf(f.entry).Convert(v.Type().Key())
	if !v.MapIndex(key).IsValid() {
		v.SetMapIndex(key, reflect.New(f.kind))
	}
	return v.MapIndex(key).Elem()
}

func fieldFrom(sf reflect.StructField, index int) (Field, bool) {
	key, ok := sf.Tag.Lookup("key")
	if !ok {
		return Field{}, false
	}
	f := Field{Key: key, Doc: sf.Tag.Get("doc"), Required: sf.Tag.Get("required") == "true", Unit: sf.Tag.Get("unit"),
		Dimension: dimensions[sf.Type], Motor: sf.Tag.Get("motor") == "true", index: index, kind: sf.Type}
	if f.Unit != "" && f.Dimension == nil {
		f.Dimension = unitDimensions(f.Unit)
	}
	if text := sf.Tag.Get("bare_from"); text != "" {
		f.BareFrom = f.bound(text)
	}
	if table := sf.Tag.Get("from"); table != "" {
		f.Words = profiles.Names(table)
	}
	if words := sf.Tag.Get("one"); words != "" {
		f.Words = append(f.Words, strings.Split(words, ",")...)
	}
	if text := sf.Tag.Get("range"); text != "" {
		low, high, _ := strings.Cut(text, ",")
		f.Low, f.High, f.Bounded = f.bound(low), f.bound(high), true
		if strings.Contains(low, " ") {
			f.lowSaid = low
		}
	}
	return f, true
}

// bound reads one end of a range from a tag: a number in the base unit, or a quantity with its unit.
func (f Field) bound(text string) float64 {
	value, err := strconv.ParseFloat(text, 64)
	if err != nil && f.Dimension != nil {
		value, err = units.Parse(text, *f.Dimension)
	}
	if err != nil {
		panic("home: bad range of " + f.Key + ": " + text)
	}
	return value
}

// Whole says whether the field is a whole number.
func (f Field) Whole() bool { return f.kind.Kind() == reflect.Int }

// check says what is wrong with a value in the base unit, or nothing. Where people do not agree on a unit, the range is said in
// the one that was typed or taken.
func (f Field) check(value float64, found, unit string) error {
	if !f.Bounded || (value >= f.Low && value <= f.High) {
		return nil
	}
	if f.Low == f.High {
		return fmt.Errorf("%q found; only %s is accepted", found, units.Format(f.Low))
	}
	return fmt.Errorf("%q is out of range; %s is accepted", found, f.rangeIn(unit))
}

// Accepts writes the range in the units of a home: "-430 to 5,500 m"; empty where there is none.
func (f Field) Accepts(s units.System) string {
	switch {
	case !f.Bounded:
		return ""
	case f.Dimension == nil:
		return f.rangeIn("")
	}
	return f.rangeIn(f.Dimension.BareUnit(s))
}

// rangeIn writes the range in a unit, where people do not agree on one; in the base unit otherwise.
func (f Field) rangeIn(unit string) string {
	low, high := f.Low, f.High
	switch {
	case f.Dimension == nil:
		return units.Format(low) + " to " + units.Format(high)
	case f.lowSaid != "":
		return f.lowSaid + " to " + units.Format(high) + " " + f.Dimension.Base
	case f.Dimension.BySystem():
		low, high = f.Dimension.In(low, unit), f.Dimension.In(high, unit)
	default:
		unit = f.Dimension.Base
	}
	return units.Format(low) + " to " + units.Format(high) + " " + unit
}
