package units_test

import (
	"math"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"holdover/loads/units"
	"holdover/profiles"
)

// everyday are texts as people write them, what each is in the base unit, and how it is said back to them in a US home.
var everyday = []struct {
	text string
	d    units.Dimension
	want float64
	says string
}{
	{"24 hours", units.LongTime, 24, "24 h"}, {"2 weeks", units.LongTime, 336, "2 weeks"}, {"90 minutes", units.LongTime, 1.5, "90 min"},
	{"1 h 30 min", units.LongTime, 1.5, "1.5 h"}, {"1h30min", units.LongTime, 1.5, "1.5 h"}, {"2 days 4 hrs.", units.LongTime, 52, "52 h"},
	{"overnight", units.LongTime, 12, "12 h"}, {"a week", units.LongTime, 168, "1 week"}, {"half an hour", units.LongTime, 0.5, "0.5 h"},
	{"3", units.LongTime, 3, "3 h"}, {"Two Days", units.LongTime, 48, "2 days"}, {"40 mins", units.MiddlingTime, 40, "40 min"}, {"20 msec", units.ShortTime, 0.02, "20 ms"},
	{"10 gallons", units.Volume, 10 * 3.785411784, "10 gal (37.9 L)"}, {"10", units.Volume, 10 * 3.785411784, "10 gal (37.9 L)"}, {"10 litres", units.Volume, 10, "10 L (2.64 gal)"},
	{"2 imperial gallons", units.Volume, 9.09218, "2 imp gal (9.09 L)"}, {"3 cubic feet", units.Volume, 3 * 28.316846592, "3 ft³ (85 L)"}, {"1 cu. ft.", units.Volume, 28.316846592, "1 ft³ (28.3 L)"},
	{"5000 feet", units.Length, 1524, "5,000 ft (1,524 m)"}, {"5,000", units.Length, 1524, "5,000 ft (1,524 m)"}, {"5'6\"", units.Length, 1.6764, "5.5 ft (1.68 m)"},
	{"5 ft 6 in", units.Length, 1.6764, "5.5 ft (1.68 m)"}, {"6\u00a0inches", units.Length, 0.1524, "6 in (0.152 m)"}, {"30m", units.Length, 30, "30 m (98.4 ft)"},
	{"2000 sq ft", units.Area, 2000 * 0.09290304, "2,000 ft² (186 m²)"}, {"2000 sqft", units.Area, 2000 * 0.09290304, "2,000 ft² (186 m²)"},
	{"2,000 Square Feet", units.Area, 2000 * 0.09290304, "2,000 ft² (186 m²)"}, {"2000 ft²", units.Area, 2000 * 0.09290304, "2,000 ft² (186 m²)"}, {"170 sq. m.", units.Area, 170, "170 m² (1,830 ft²)"},
	{"95", units.Temperature, 35, "95 °F (35 °C)"}, {"95°", units.Temperature, 35, "95 °F (35 °C)"}, {"95 degrees", units.Temperature, 35, "95 °F (35 °C)"},
	{"95 degrees F", units.Temperature, 35, "95 °F (35 °C)"}, {"−5 °F", units.Temperature, -185.0 / 9, "-5 °F (-20.6 °C)"}, {"-5 deg. c", units.Temperature, -5, "-5 °C (23 °F)"},
	{"18", units.Difference, 10, "18 °F (10 K)"}, {"10 kelvins", units.Difference, 10, "10 K (18 °F)"},
	{"1500 watts", units.Power, 1500, "1,500 W"}, {"1,500 Watts", units.Power, 1500, "1,500 W"}, {"1.5 kilowatts", units.Power, 1500, "1.5 kW"}, {"~1500 W", units.Power, 1500, "1,500 W"},
	{"approx. 1 500 W", units.Power, 1500, "1,500 W"}, {"about 1½ kW", units.Power, 1500, "1.5 kW"}, {"1 1/2 kW", units.Power, 1500, "1.5 kW"}, {"1-1/2 kW", units.Power, 1500, "1.5 kW"},
	{"80,000 Btu per hour", units.Power, 80000 * 1055.05585262 / 3600, "80,000 Btu/h"}, {"80 kBtu/hr", units.Power, 80000 * 1055.05585262 / 3600, "80 kBtu/h"},
	{"13 kilowatt-hours", units.Energy, 13000, "13 kWh"}, {"13 kWhr", units.Energy, 13000, "13 kWh"}, {"850 volt-amps", units.ApparentPower, 850, "850 VA"},
	{"6 amps", units.Current, 6, "6 A"}, {"200 amp", units.Current, 200, "200 A"}, {"½ A", units.Current, 0.5, "0.5 A"}, {"120 volts", units.Voltage, 120, "120 V"},
	{"60 hertz", units.Frequency, 60, "60 Hz"}, {"60 gallons per hour", units.Flow, 60 * 3.785411784, "60 gal/h"}, {"2 gpm", units.Flow, 120 * 3.785411784, "2 gal/min"},
	{"7 inches of water", units.Pressure, 7 * 0.24908891, "7 in w.c."}, {"250 cubic feet per hour", units.GasFlow, 250 * 0.028316846592, "250 ft3/h"},
	{"1/2 hp", units.MotorSize, 0.5, "0.5 hp"}, {"1 1/2 horsepower", units.MotorSize, 1.5, "1.5 hp"}, {"½", units.MotorSize, 0.5, "0.5 hp"},
	{"$8000", units.Money, 8000, "$8,000"}, {"8,000", units.Money, 8000, "$8,000"}, {"8k", units.Money, 8000, "$8,000"}, {"$8k", units.Money, 8000, "$8,000"}, {"8000 USD", units.Money, 8000, "$8,000"},
	{"$ 8,000.50", units.Money, 8000.5, "$8,000.5"}, {"USD 189.99", units.Money, 189.99, "$189.99"}, {"8 thousand dollars", units.Money, 8000, "$8,000"}, {"189 bucks", units.Money, 189, "$189"},
	{"$3.785411784/gal", units.Price("USD/L"), 1, "3.78541 USD/gal"}, {"$1.20 per litre", units.Price("USD/L"), 1.2, "1.2 USD/L"}, {"0.45", units.Price("USD/kWh"), 0.45, "0.45 USD/kWh"}, {"$450", units.Price("USD/kWh"), 450, "$450"},
	{"0.4 USD/Wh", units.Price("USD/kWh"), 400, "0.4 USD/Wh"},
}

func TestRead_AsPeopleWriteIt(t *testing.T) {
	for _, c := range everyday {
		r, err := units.Read(c.text, c.d, units.US)
		if assert.NoError(t, err, c.text) {
			assert.InDelta(t, c.want, r.Value, 1e-9*math.Max(1, math.Abs(c.want)), c.text)
			assert.Equal(t, c.says, c.d.Says(r), c.text)
		}
	}
}

// A bare number of the four kinds is in the units of the home; all others are in one unit everywhere.
func TestRead_BareNumbersFollowTheHome(t *testing.T) {
	for _, d := range []units.Dimension{units.Length, units.Area, units.Volume, units.Temperature, units.Difference} {
		us, err := units.Read("12", d, units.US)
		require.NoError(t, err)
		said, err := units.Read("12 "+d.BareUnit(units.US), d, units.SI)
		require.NoError(t, err)
		assert.Equal(t, said.Value, us.Value, d.Name)
		si, err := units.Read("12", d, units.SI)
		require.NoError(t, err)
		assert.Equal(t, 12.0, si.Value, d.Name)
		assert.True(t, us.Bare && si.Bare && !said.Bare && d.BySystem())
	}
	for _, d := range []units.Dimension{units.Power, units.LongTime, units.Flow, units.HeatLoss, units.Pressure, units.Money} {
		us, err := units.Read("12", d, units.US)
		require.NoError(t, err)
		assert.Equal(t, 12.0, us.Value, d.Name)
		assert.False(t, d.BySystem())
	}
}

// What may mean two things is asked about.
func TestRead_AsksWhereItIsNotClear(t *testing.T) {
	for _, c := range []struct {
		text string
		d    units.Dimension
		want string
	}{
		{"30m", units.LongTime, "30min?"}, {"30 m", units.ShortTime, "30 min?"}, {"1 month", units.LongTime, "how many days?"}, {"1.5k", units.Power, "1.5kW?"},
		{"80,000 BTU", units.Power, "80,000 Btu/h?"}, {"1/2 hp", units.Power, "how many watts does it draw?"}, {"£80", units.Money, "not a number"}, {"80 £", units.Money, "US dollars; how many?"},
		{"100 Ah", units.Energy, "how many volts?"}, {"1,5 kW", units.Power, "has a comma"}, {"1,5", units.Money, "1.5, or a thousand, like 1,500?"}, {"12,34,567", units.Money, "has a comma"},
		{"1/0 kW", units.Power, "over nothing"}, {"$5", units.Power, "is an amount of money; a power is wanted"}, {"5 kW", units.Money, "is a power; an amount of money is wanted"},
		{"about", units.Power, "not a number"}, {"a", units.Power, "not a number"}, {"5 ft 6", units.Length, "unknown unit"}, {"6 in 5 ft", units.Length, "unknown unit"},
		{"overnight", units.ShortTime, "not a number"}, {"9" + strings.Repeat("0", 400) + "/1 kW", units.Power, "too large"},
	} {
		r, err := units.Read(c.text, c.d, units.US)
		if assert.Error(t, err, "%s: %+v", c.text, r) {
			assert.Contains(t, err.Error(), c.want, c.text)
		}
	}
}

// Each word of the table is read as the unit that it stands for, and no word stands for two.
func TestEverydayWords_AreUnits(t *testing.T) {
	seen := map[string]string{}
	for _, s := range profiles.EverydayInput().Units {
		for _, word := range s.Words {
			assert.Empty(t, seen[profiles.Tidy(word)], "%q stands for two units", word)
			seen[profiles.Tidy(word)] = s.Means
			var as []string
			for _, d := range append(dimensions, units.Years) {
				if r, err := units.Read("1 "+word, d, units.US); err == nil {
					as = append(as, r.Unit)
				}
			}
			assert.Contains(t, as, s.Means, word)
		}
	}
	for _, u := range profiles.EverydayInput().Unclear {
		assert.NotEqual(t, u.Ask == "", u.Say == "", "one question for %v", u.Words)
	}
}

func TestParseShare_Fractions(t *testing.T) {
	for text, want := range map[string]float64{"1/4": 0.25, "½": 0.5, "1 1/2": 1.5, "33 1/3 %": 1.0 / 3} {
		got, err := units.ParseShare(text)
		require.NoError(t, err, text)
		assert.InDelta(t, want, got, 1e-12, text)
	}
}

var dimensions = []units.Dimension{units.Power, units.ApparentPower, units.Energy, units.Voltage, units.Current, units.ShortTime, units.MiddlingTime, units.LongTime, units.Temperature,
	units.Difference, units.Frequency, units.Length, units.Area, units.HeatLoss, units.HeatCapacity, units.Volume, units.Flow, units.Plate, units.Pressure, units.GasFlow, units.MotorSize, units.Money, units.Price("USD/m3")}

// inGo writes a pattern of JSON Schema as Go has them.
func inGo(pattern string) *regexp.Regexp {
	return regexp.MustCompile(strings.NewReplacer(`\u00a0`, "\u00a0", `\u202f`, "\u202f", `\u2009`, "\u2009").Replace(pattern))
}

// The pattern of the schema takes whatever the reader takes, and refuses units of another kind.
func TestPattern_TakesWhatTheReaderTakes(t *testing.T) {
	patterns := map[string]*regexp.Regexp{}
	for _, d := range dimensions {
		patterns[d.Article+d.Base] = inGo(d.Pattern())
	}
	for _, c := range everyday {
		assert.Regexp(t, inGo(c.d.Pattern()), c.text)
	}
	for _, text := range []string{"1.5 kWh", "30 min", "many", "kW"} {
		assert.NotRegexp(t, patterns[units.Power.Article+units.Power.Base], text)
	}
	assert.NotRegexp(t, patterns[units.LongTime.Article+units.LongTime.Base], "30m")
	rapid.Check(t, func(r *rapid.T) {
		text := drawQuantity(r)
		for _, d := range dimensions {
			if _, err := units.Read(text, d, units.US); err == nil && !patterns[d.Article+d.Base].MatchString(text) {
				r.Errorf("the reader takes %q for %s and the pattern does not", text, d.Article)
			}
		}
	})
}

// drawQuantity puts a number and units together as people might.
func drawQuantity(r *rapid.T) string {
	var words []string
	for _, d := range dimensions {
		words = append(words, d.Names()...)
	}
	table := profiles.EverydayInput()
	for _, s := range table.Units {
		words = append(words, s.Words...)
	}
	words = append(words, table.Bare...)
	unit := rapid.Custom(func(r *rapid.T) string {
		u := rapid.SampledFrom(words).Draw(r, "unit")
		return rapid.SampledFrom([]string{u, u, u, strings.ToUpper(u), u + ".", "", u + " per " + rapid.SampledFrom(words).Draw(r, "over"), u + "/h"}).Draw(r, "as")
	})
	number := rapid.SampledFrom([]string{"1", "12.5", ".5", "1,500", "1 500", "1/2", "1 1/2", "½", "1½", "1e3", "a", "half an", "two", "1,5"})
	text := rapid.SampledFrom([]string{"", "", "-", "~", "about ", "$", "approx. ", "−"}).Draw(r, "front")
	for range rapid.IntRange(1, 2).Draw(r, "parts") {
		text += number.Draw(r, "number") + rapid.SampledFrom([]string{"", " ", "\u00a0"}).Draw(r, "blank") + unit.Draw(r, "unit") + " "
	}
	return strings.TrimSpace(text)
}

// However a number is written, no text makes it infinite.
func TestRead_IsFinite(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		text := rapid.SampledFrom([]string{"1e308", "9999999999999999e290", "1/0", "1e308/1e-308", "1,000e307", "-1e308", "0/0"}).Draw(r, "number") + " " + drawQuantity(r)
		for _, d := range dimensions {
			if got, err := units.Read(text, d, units.US); err == nil && (math.IsInf(got.Value, 0) || math.IsNaN(got.Value)) {
				r.Errorf("%q is %v", text, got.Value)
			}
		}
	})
}
