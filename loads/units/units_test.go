package units_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"holdover/loads/units"
)

// Conversion factors: NIST Special Publication 811, appendix B (exact by definition: foot 0.3048 m, US gallon
// 3.785 411 784 L, Btu (International Table) 1055.055 852 62 J).
func TestParse_QuantitiesWithUnits(t *testing.T) {
	for _, c := range []struct {
		text string
		d    units.Dimension
		want float64
	}{
		{"1.5 kW", units.Power, 1500}, {"150", units.Power, 150}, {"1500W", units.Power, 1500}, {" 0.15  kW ", units.Power, 150},
		{"180 kBtu/h", units.Power, 180e3 * 1055.05585262 / 3600}, {"1e3 W", units.Power, 1000}, {"+5 W", units.Power, 5}, {".5 kW", units.Power, 500},
		{"5250 ft", units.Length, 1600.2}, {"1600.2", units.Length, 1600.2}, {"1 in", units.Length, 0.0254},
		{"95 F", units.Temperature, 35}, {"-5 F", units.Temperature, -20.555555555555557}, {"-40 °F", units.Temperature, -40}, {"273.15 K", units.Temperature, 0},
		{"22 F", units.Difference, 12.222222222222221}, {"12 C", units.Difference, 12},
		{"24 h", units.LongTime, 24}, {"90 min", units.LongTime, 1.5}, {"2 days", units.LongTime, 48}, {"20 ms", units.ShortTime, 0.02},
		{"40 min", units.MiddlingTime, 40}, {"3 h", units.MiddlingTime, 180}, {"0.5", units.MiddlingTime, 0.5},
		{"25 gal", units.Volume, 94.6352946}, {"1 ft3", units.Volume, 28.316846592}, {"1850 ft2", units.Area, 1850 * 0.09290304},
		{"5 kWh", units.Energy, 5000}, {"3.6 MJ", units.Energy, 1000}, {"60 A", units.Current, 60}, {"850 VA", units.ApparentPower, 850},
		{"120 V", units.Voltage, 120}, {"220 W/K", units.HeatLoss, 220}, {"9 kWh/K", units.HeatCapacity, 9000},
		{"100 Btu/h/F", units.HeatLoss, 100 * 1055.05585262 / 3600 * 1.8},
	} {
		got, err := units.Parse(c.text, c.d)
		require.NoError(t, err, c.text)
		assert.InDelta(t, c.want, got, 1e-12*math.Max(1, math.Abs(c.want)), c.text)
	}
}

// A wrong quantity is told what it is and what is wanted.
func TestParse_SlipsAreExplained(t *testing.T) {
	for _, c := range []struct {
		text string
		d    units.Dimension
		want []string
	}{
		{"1.5 kWh", units.Power, []string{"an energy", "a power is wanted", "1.5 kW"}},
		{"850 VA", units.Power, []string{"an apparent power", "a power is wanted"}},
		{"5 parsecs", units.Length, []string{"unknown unit", "parsecs", "ft"}},
		{"many", units.Power, []string{"not a number"}}, {"", units.Power, []string{"not a number"}}, {"nan", units.Power, []string{"not a number"}},
		{"inf W", units.Power, []string{"not a number"}}, {"0x10 W", units.Power, []string{"unknown unit"}}, {"1_000 W", units.Power, []string{"unknown unit"}},
		{"1e999 W", units.Power, []string{"too large"}}, {"1,5 kW", units.Power, []string{"has a comma"}}, {"1.5 mw", units.Power, []string{"unknown unit", "kW"}},
	} {
		_, err := units.Parse(c.text, c.d)
		require.Error(t, err, c.text)
		for _, want := range c.want {
			assert.Contains(t, err.Error(), want, c.text)
		}
	}
}

func TestParseShare(t *testing.T) {
	for text, want := range map[string]float64{"0.3": 0.3, "30 %": 0.3, "30%": 0.3, "100 %": 1, " 1 ": 1, "-5%": -0.05} {
		got, err := units.ParseShare(text)
		require.NoError(t, err, text)
		assert.InDelta(t, want, got, 1e-15, text)
	}
	for _, text := range []string{"", "%", "0.3 W", "thirty", "nan", "1e999"} {
		_, err := units.ParseShare(text)
		assert.Error(t, err, text)
	}
}

func TestFormat_ForPeople(t *testing.T) {
	for value, want := range map[float64]string{0: "0", 0.1534: "0.153", 0.5: "0.5", 1.234: "1.23", 9.999: "10", 12.44: "12.4", 99.96: "100", 153.4: "153",
		999.7: "1,000", 2310: "2,310", 45900: "45,900", 1234567: "1,234,567", -2310.4: "-2,310", -0.0001: "0"} {
		assert.Equal(t, want, units.Format(value), "%v", value)
	}
}

// What Text writes, Parse reads back bit for bit.
func TestText_ReadsBack(t *testing.T) {
	for _, d := range []units.Dimension{units.Power, units.Energy, units.LongTime, units.MiddlingTime, units.ShortTime, units.Temperature, units.Volume, units.HeatLoss} {
		for _, v := range []float64{0, 1, 1.0 / 3, 1600.2, 1e-7, 123456789.125} {
			got, err := units.Parse(d.Text(v), d)
			require.NoError(t, err)
			assert.Equal(t, v, got, d.Text(v))
		}
	}
}

// In is the way back from Parse, for every unit of a dimension.
func TestIn_InvertsParse(t *testing.T) {
	for _, d := range []units.Dimension{units.Power, units.ApparentPower, units.Energy, units.Voltage, units.Current, units.ShortTime, units.MiddlingTime,
		units.LongTime, units.Temperature, units.Difference, units.Length, units.Area, units.HeatLoss, units.HeatCapacity, units.Volume} {
		for _, name := range d.Names() {
			base, err := units.Parse("12.5 "+name, d)
			require.NoError(t, err)
			assert.InDelta(t, 12.5, d.In(base, name), 1e-9, "%s in %s", d.Name, name)
		}
	}
	assert.Panics(t, func() { units.Power.In(1, "furlong") })
}

func FuzzParse(f *testing.F) {
	for _, seed := range []string{
		"1.5 kW",       // plain
		"-40 °F",       // a unit beyond ASCII, an offset
		"1e308 MW",     // overflows in its unit
		"nan",          // no number here
		"0x1p-2",       // hexadecimal is a slip
		"5 % of it",    // a share with a tail
		".",            // no digit
		"1 1/2 hp",     // a fraction
		"$8,000/gal",   // money, thousands, a price
		"5 ft 6 in",    // two units
		"half an hour", // words
		"1/0 kW",       // over nothing
		"١٢ W",         // digits that are not ours
	} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		for _, d := range dimensions {
			r, err := units.Read(text, d, units.US)
			v := r.Value
			if err != nil {
				if strings.TrimSpace(err.Error()) == "" {
					t.Errorf("%q: an error without a word", text)
				}
				continue
			}
			if math.IsNaN(v) || math.IsInf(v, 0) {
				t.Errorf("%q is %v", text, v)
			}
		}
		if v, err := units.ParseShare(text); err == nil && (math.IsNaN(v) || math.IsInf(v, 0)) {
			t.Errorf("%q is %v", text, v)
		}
	})
}

func TestFormat_IsNeverWiderThanAScreen(t *testing.T) {
	assert.Equal(t, "999,999,999,999,999", units.Format(999_999_999_999_999))
	assert.Equal(t, "1e+15", units.Format(1e15))
	assert.Equal(t, "-1.235e+300", units.Format(-1.2345678e300))
	for _, value := range []float64{math.MaxFloat64, -math.MaxFloat64, math.SmallestNonzeroFloat64, math.Inf(1), math.Inf(-1), math.NaN(), 1e15 - 0.5} {
		assert.Less(t, len(units.Format(value)), 40)
		assert.Less(t, len(units.Power.Text(value)), 40)
	}
}
