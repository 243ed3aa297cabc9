package loads

import (
	"fmt"
	"reflect"
	"strconv"
	"strings"
	"sync"

	"holdover/loads/units"
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
	Unit      string           // of a plain number that has one, such as "years"
	index     int
	kind      reflect.Type
}

// Sections lists the top-level keys of a home file in their usual order.
func Sections() []Field { return fieldsOf(reflect.TypeFor[Home]()) }

// FieldsOf lists the keys of a section or of an entry: "home", "site", "outage", "assume", "limits", "circuits", "needs",
// "heater", "tank", "pit", "runs", "gas" or "gear". An unknown name is a programmer's error.
func FieldsOf(name string) []Field {
	t, ok := sectionTypes[name]
	if !ok {
		panic("loads: no section " + name)
	}
	return fieldsOf(t)
}

var sectionTypes = map[string]reflect.Type{
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

var fieldCache sync.Map // reflect.Type → []Field

func fieldsOf(t reflect.Type) []Field {
	if cached, ok := fieldCache.Load(t); ok {
		return cached.([]Field)
	}
	var fields []Field
	for i := range t.NumField() {
		if f, ok := fieldFrom(t.Field(i), i); ok {
			fields = append(fields, f)
		}
	}
	fieldCache.Store(t, fields)
	return fields
}

func fieldFrom(sf reflect.StructField, index int) (Field, bool) {
	key, ok := sf.Tag.Lookup("key")
	if !ok {
		return Field{}, false
	}
	f := Field{Key: key, Doc: sf.Tag.Get("doc"), Required: sf.Tag.Get("required") == "true", Unit: sf.Tag.Get("unit"),
		Dimension: dimensions[sf.Type], index: index, kind: sf.Type}
	if words := sf.Tag.Get("one"); words != "" {
		f.Words = strings.Split(words, ",")
	}
	if text := sf.Tag.Get("range"); text != "" {
		f.Low, f.High, f.Bounded = mustRange(text)
	}
	return f, true
}

func mustRange(text string) (low, high float64, bounded bool) {
	lowText, highText, _ := strings.Cut(text, ",")
	low, err1 := strconv.ParseFloat(lowText, 64)
	high, err2 := strconv.ParseFloat(highText, 64)
	if err1 != nil || err2 != nil {
		panic("loads: bad range tag " + text)
	}
	return low, high, true
}

// check says what is wrong with a value in the base unit, or nothing.
func (f Field) check(value float64, found string) error {
	if !f.Bounded || (value >= f.Low && value <= f.High) {
		return nil
	}
	if f.Low == f.High {
		return fmt.Errorf("%q found; only %s is accepted", found, units.Format(f.Low))
	}
	base := ""
	if f.Dimension != nil {
		base = " " + f.Dimension.Base
	}
	return fmt.Errorf("%q is out of range; %s to %s%s is accepted", found, units.Format(f.Low), units.Format(f.High), base)
}
