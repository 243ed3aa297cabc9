package report

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"

	"holdover/loads/home"
	"holdover/planner"
	"holdover/planner/working"
)

func TestWrapBreaksAtSpacesAndLosesNothing(t *testing.T) {
	for _, c := range []struct {
		text string
		want []string
	}{
		{"", []string{""}},
		{"one two", []string{"one two"}},
		{"  one\n two  ", []string{"one two"}},
		{"123456789 123456789 1234 after", []string{"123456789 123456789 1234", "after"}},
		{"123456789 123456789 12345 after", []string{"123456789 123456789", "12345 after"}},
		{"a averyveryverylongwordindeed b", []string{"a", "averyveryverylongwordindeed", "b"}},
		{"冷蔵庫冷蔵庫冷蔵庫 冷蔵庫 b", []string{"冷蔵庫冷蔵庫冷蔵庫", "冷蔵庫 b"}},
	} {
		assert.Equal(t, c.want, wrap(c.text, leastWrap), c.text)
	}
}

func TestJSONShowsWhatATerminalWouldActOn(t *testing.T) {
	text, err := indented([]string{"a\x1b[31m b\u202ec\u2028d\u00adé <e> \\u202e \"q\" \b\r\x00", "two\nlines"})
	assert.NoError(t, err)
	assert.Equal(t, "[\n  \"a<U+001B>[31m b<U+202E>c<U+2028>d<U+00AD>é \\u003ce\\u003e \\\\u202e \\\"q\\\" <U+0008><U+000D><U+0000>\",\n  \"two\\nlines\"\n]\n", text)
	assert.True(t, json.Valid([]byte(text)))
}

func TestQuantityInTheUnitsOfTheHome(t *testing.T) {
	us := &home.Home{House: home.House{Units: "us"}}
	si := &home.Home{House: home.House{Units: "si"}}
	for _, c := range []struct {
		figure         working.Figure
		us, si, inBoth string
	}{
		{working.Figure{Value: 35, Unit: "C"}, "95 °F", "35 °C", "95 °F (35 °C)"},
		{working.Figure{Value: -40, Unit: "°C"}, "-40 °F", "-40 °C", "-40 °F (-40 °C)"},
		{working.Figure{Value: 10, Unit: "K"}, "18 °F difference", "10 K", "18 °F difference (10 K)"},
		{working.Figure{Value: 304.8, Unit: "m"}, "1,000 ft", "305 m", "1,000 ft (305 m)"},
		{working.Figure{Value: 3.785411784, Unit: "L"}, "1 gal", "3.79 L", "1 gal (3.79 L)"},
		{working.Figure{Value: 1, Unit: "m3"}, "35.3 ft³", "1 m³", "35.3 ft³ (1 m³)"},
		{working.Figure{Value: 2310, Unit: "W"}, "2,310 W", "2,310 W", "2,310 W"},
		{working.Figure{Value: 1, Unit: "modules"}, "1 module", "1 module", "1 module"},
		{working.Figure{Value: 0.875}, "0.875", "0.875", "0.875"},
		{working.Figure{Word: "sine"}, "sine", "sine", "sine"},
	} {
		assert.Equal(t, c.us, Quantity(us, c.figure))
		assert.Equal(t, c.si, Quantity(si, c.figure))
		assert.Equal(t, c.inBoth, BothSystems(us, c.figure))
	}
}

func TestEstimateIsRounded(t *testing.T) {
	for value, want := range map[float64]string{0: "0", 27392.17: "about 27,400", 15905: "about 15,900", 995: "about 995", 12.34: "about 12"} {
		assert.Equal(t, want, planner.Estimate(value))
	}
}
