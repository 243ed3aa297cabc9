package install

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// NEC Table 310.16, typed a second time, copper then aluminium at 60, 75 and 90 °C: from memory, 2014 to 2023 editions, the
// 75 °C column of 14 to 1 AWG confirmed by a trade page.
var ampacities = []struct {
	size   string
	copper [3]float64
	alu    [3]float64
}{
	{"14", [3]float64{15, 20, 25}, [3]float64{}},
	{"12", [3]float64{20, 25, 30}, [3]float64{15, 20, 25}},
	{"10", [3]float64{30, 35, 40}, [3]float64{25, 30, 35}},
	{"8", [3]float64{40, 50, 55}, [3]float64{35, 40, 45}},
	{"6", [3]float64{55, 65, 75}, [3]float64{40, 50, 55}},
	{"4", [3]float64{70, 85, 95}, [3]float64{55, 65, 75}},
	{"3", [3]float64{85, 100, 115}, [3]float64{65, 75, 85}},
	{"2", [3]float64{95, 115, 130}, [3]float64{75, 90, 100}},
	{"1", [3]float64{110, 130, 145}, [3]float64{85, 100, 115}},
	{"1/0", [3]float64{125, 150, 170}, [3]float64{100, 120, 135}},
	{"2/0", [3]float64{145, 175, 195}, [3]float64{115, 135, 150}},
	{"3/0", [3]float64{165, 200, 225}, [3]float64{130, 155, 175}},
	{"4/0", [3]float64{195, 230, 260}, [3]float64{150, 180, 205}},
}

// Each printed ampacity picks its own row, and a hair more the next.
func TestNEC310_16_EveryRowIsPicked(t *testing.T) {
	for i, row := range ampacities {
		for metal, amps := range map[bool][3]float64{false: row.copper, true: row.alu} {
			for column, celsius := range []float64{60, 75, 90} {
				if amps[column] == 0 {
					continue
				}
				w := wanted{code: nec2020, amps: amps[column], aluminium: metal, terminalC: celsius, insulationC: celsius, ambientC: 30}
				c, _, ok := w.size()
				require.True(t, ok)
				assert.Equal(t, row.size, c.Size, "%v A at %v °C", amps[column], celsius)
				assert.Equal(t, amps[column], w.ampacity(c))
				if i+1 < len(ampacities) {
					w.amps += 0.1
					c, _, _ = w.size()
					assert.Equal(t, ampacities[i+1].size, c.Size, "%v A at %v °C", w.amps, celsius)
				}
			}
		}
	}
}

// NEC 310.15(B)(1): the rows of 10 to 20 °C as reprinted, 36 to 45 °C from memory; cold never lifts a wire above its
// terminals (110.14(C)).
func TestNEC310_15B1_Ambient(t *testing.T) {
	for ambient, factors := range map[float64][3]float64{10: {1.29, 1.20, 1.15}, 15: {1.22, 1.15, 1.12}, 20: {1.15, 1.11, 1.08},
		36: {0.82, 0.88, 0.91}, 40: {0.82, 0.88, 0.91}, 41: {0.71, 0.82, 0.87}, 45: {0.71, 0.82, 0.87}} {
		for column, celsius := range []float64{60, 75, 90} {
			w := wanted{code: nec2020, terminalC: celsius, insulationC: celsius, ambientC: ambient}
			assert.Equal(t, factors[column], w.correction(), "%v °C insulation at %v °C", celsius, ambient)
		}
	}
	six, _ := nec2020.Wire().Find("6")
	hot := wanted{code: nec2020, terminalC: 75, insulationC: 90, ambientC: 45}
	assert.InDelta(t, 65, hot.ampacity(six), 1e-9, "75 A · 0.87 = 65.25 A, but 65 A at the terminals")
	hot.insulationC = 75
	assert.InDelta(t, 65*0.82, hot.ampacity(six), 1e-9)
	assert.Equal(t, 65.0, wanted{code: nec2020, terminalC: 75, insulationC: 75, ambientC: 10}.ampacity(six), "the cold gives nothing at the terminals")
	assert.Zero(t, wanted{code: nec2020, terminalC: 60, insulationC: 60, ambientC: 80}.ampacity(six), "too hot for the insulation")
}

// NEC 240.4(D) (copper as reprinted, aluminium from memory), 240.4(B) and 240.6(A).
func TestNEC240_4_Protection(t *testing.T) {
	for _, c := range []struct {
		amps, protect float64
		aluminium     bool
		want          string
	}{
		{15, 15, false, "14"}, {15, 20, false, "12"}, {20, 20, false, "12"}, {16, 30, false, "10"}, {20, 35, false, "8"},
		{12, 15, true, "12"}, {12, 20, true, "10"}, {12, 25, true, "10"}, {12, 30, true, "8"},
		{50, 60, false, "6"}, // 55 A at 60 °C, and 60 A is the next standard rating
		{55, 70, false, "4"}, // 55 A: 70 A is not the next
		{190, 200, false, "4/0"},
	} {
		w := wanted{code: nec2020, amps: c.amps, protectA: c.protect, aluminium: c.aluminium, terminalC: 60, insulationC: 60, ambientC: 30}
		got, _, ok := w.size()
		require.True(t, ok)
		assert.Equal(t, c.want, got.Size, "%+v", c)
	}
	_, _, ok := wanted{code: nec2020, amps: 700, terminalC: 75, insulationC: 75, ambientC: 30}.size()
	assert.False(t, ok, "no single wire carries 700 A")
	for amps, want := range map[float64]float64{15: 15, 15.1: 20, 34.5: 35, 61: 70, 110.5: 125, 210: 225, 601: 700} {
		assert.Equal(t, want, nec2020.NextRating(amps))
	}
}

// NEC 310.12, 2020 edition, as reprinted: 200 A · 0.83 = 166 A, so 2/0 copper of 175 A; and every row of the table of
// dwelling services.
func TestNEC310_12_83Percent(t *testing.T) {
	for rating, want := range map[float64][2]string{100: {"4", "2"}, 110: {"3", "1"}, 125: {"2", "1/0"}, 150: {"1", "2/0"}, 175: {"1/0", "3/0"},
		200: {"2/0", "4/0"}, 225: {"3/0", "250"}, 250: {"4/0", "300"}, 300: {"250", "350"}, 350: {"350", "500"}, 400: {"400", "600"}} {
		for i, aluminium := range []bool{false, true} {
			c, _, ok := wanted{code: nec2020, amps: 0.83 * rating, aluminium: aluminium, terminalC: 75, insulationC: 75, ambientC: 30}.size()
			require.True(t, ok)
			assert.Equal(t, want[i], c.Size, "%v A", rating)
		}
	}
}

// NEC Chapter 9 Table 8, stranded uncoated at 75 °C, as a design tutorial reprints it: 2 · I · R · L / 1000, here 10 A over
// 100 ft, copper then aluminium. The volts were worked out by hand from the printed ohms.
func TestNECChapter9Table8_VoltageDrop(t *testing.T) {
	for size, want := range map[string][2]float64{"14": {6.28, 10.34}, "12": {3.96, 6.50}, "10": {2.48, 4.08}, "8": {1.556, 2.56}, "6": {0.982, 1.616},
		"4": {0.616, 1.016}, "3": {0.490, 0.806}, "2": {0.388, 0.638}, "1": {0.308, 0.506}, "1/0": {0.244, 0.402}, "2/0": {0.1934, 0.318},
		"3/0": {0.1532, 0.252}, "4/0": {0.1216, 0.200}} {
		c, ok := nec2020.Wire().Find(size)
		require.True(t, ok)
		for i, aluminium := range []bool{false, true} {
			assert.InDelta(t, want[i], dropVolts(10, c.Of(aluminium).OhmKft, 100), 1e-9, "%s, aluminium %v", size, aluminium)
		}
	}
}

// NEC Table 250.122 and 250.122(B), from memory.
func TestNEC250_122_GroundingWire(t *testing.T) {
	for device, want := range map[float64][2]string{15: {"14", "12"}, 20: {"12", "10"}, 30: {"10", "8"}, 60: {"10", "8"}, 70: {"8", "6"}, 100: {"8", "6"},
		200: {"6", "4"}, 400: {"3", "1"}} {
		assert.Equal(t, want[0], groundFor(nec2020.Wire(), device, false, 0, 0), "%v A", device)
		assert.Equal(t, want[1], groundFor(nec2020.Wire(), device, true, 0, 0), "%v A", device)
	}
	// 6 AWG made 3 AWG: 52 620/26 240 = 2.005 times, so 10 380 cmil becomes 20 816, which is 6 AWG.
	assert.Equal(t, "6", groundFor(nec2020.Wire(), 60, false, 26240, 52620))
	assert.Empty(t, groundFor(nec2020.Wire(), 5000, false, 0, 0))
}
