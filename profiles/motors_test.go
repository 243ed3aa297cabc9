package profiles

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// NEC Table 430.248, typed a second time, hp in parts of twelve so that the fractions are exact.
func TestNEC430_248_FullLoadCurrents(t *testing.T) {
	want := [][5]float64{
		{2, 4.4, 2.5, 2.4, 2.2}, {3, 5.8, 3.3, 3.2, 2.9}, {4, 7.2, 4.1, 4.0, 3.6}, {6, 9.8, 5.6, 5.4, 4.9},
		{9, 13.8, 7.9, 7.6, 6.9}, {12, 16, 9.2, 8.8, 8.0}, {18, 20, 11.5, 11.0, 10}, {24, 24, 13.8, 13.2, 12},
		{36, 34, 19.6, 18.7, 17}, {60, 56, 32.2, 30.8, 28}, {90, 80, 46.0, 44.0, 40}, {120, 100, 57.5, 55.0, 50},
	}
	rows := Motors()
	require.Len(t, rows, len(want))
	for i, w := range want {
		r := rows[i]
		assert.InDelta(t, w[0]/12, r.HP, 1e-12)
		assert.Equal(t, [4]float64{w[1], w[2], w[3], w[4]}, [4]float64{r.Amps115, r.Amps200, r.Amps208, r.Amps230}, "%v hp", r.HP)
	}
}

// The power of a motor does not depend on its voltage, so each row's volt-amperes agree over its columns. An independent
// look at the digits; the table rounds to 0.1 A, so 5 %.
func TestNEC430_248_ColumnsAgree(t *testing.T) {
	for _, r := range Motors() {
		va := 230 * r.Amps230
		assert.InEpsilon(t, va, 115*r.Amps115, 0.05, "%v hp at 115 V", r.HP)
		assert.InEpsilon(t, va, 200*r.Amps200, 0.05, "%v hp at 200 V", r.HP)
		assert.InEpsilon(t, va, 208*r.Amps208, 0.05, "%v hp at 208 V", r.HP)
	}
}

// NEC Table 430.7(B), typed a second time.
func TestNEC430_7B_CodeLetters(t *testing.T) {
	want := "A 0 3.14 B 3.15 3.54 C 3.55 3.99 D 4 4.49 E 4.5 4.99 F 5 5.59 G 5.6 6.29 H 6.3 7.09 J 7.1 7.99 K 8 8.99 L 9 9.99 " +
		"M 10 11.19 N 11.2 12.49 P 12.5 13.99 R 14 15.99 S 16 17.99 T 18 19.99 U 20 22.39 V 22.4 +Inf"
	words := strings.Fields(want)
	require.Len(t, motors().LockedRotor, len(words)/3)
	for i := 0; i < len(words); i += 3 {
		low, high, ok := CodeLetterKVAPerHP(words[i])
		require.True(t, ok, words[i])
		wantLow, _ := strconv.ParseFloat(words[i+1], 64)
		wantHigh, _ := strconv.ParseFloat(words[i+2], 64)
		assert.Equal(t, wantLow, low, words[i])
		assert.Equal(t, wantHigh, high, words[i])
	}
	for _, letter := range []string{"I", "O", "Q", "W", "g", ""} {
		_, _, ok := CodeLetterKVAPerHP(letter)
		assert.False(t, ok, "%q", letter)
	}
}

// Worked from the two tables: 1/2 hp, 115 V, letter L: 4.50 to 4.995 kVA; 3 hp, letter H: 18.9 to 21.27 kVA.
func TestNEC430_7B_StartingKVA(t *testing.T) {
	low, high, _ := CodeLetterKVAPerHP("L")
	assert.InDelta(t, 4.50, low*0.5, 1e-9)
	assert.InDelta(t, 4.995, high*0.5, 1e-9)
	low, high, _ = CodeLetterKVAPerHP("H")
	assert.InDelta(t, 18.9, low*3, 1e-9)
	assert.InDelta(t, 21.27, high*3, 1e-9)
}

// motorCircuit is a circuit whose start names a code letter and a horsepower.
type motorCircuit struct {
	name                         string
	hp, amps, volts, powerFactor float64
	letter                       string
}

func motorCircuits(t *testing.T) []motorCircuit {
	var all []motorCircuit
	for _, c := range Circuits() {
		start := value(&c.Fields, "start")
		if scalar(start, "code") == "" {
			continue
		}
		all = append(all, motorCircuit{c.Name, number(t, scalar(start, "hp")), number(t, scalar(&c.Fields, "running_amps")),
			number(t, scalar(&c.Fields, "volts")), number(t, scalar(&c.Fields, "power_factor")), scalar(start, "code")})
	}
	return all
}

// number reads the number of a quantity, "9.8 A".
func number(t *testing.T, text string) float64 {
	digits, _, _ := strings.Cut(text, " ")
	n, err := strconv.ParseFloat(digits, 64)
	require.NoError(t, err, text)
	return n
}

func TestMotorCircuitsDrawTheTablesFullLoadCurrent(t *testing.T) {
	all := motorCircuits(t)
	assert.GreaterOrEqual(t, len(all), 12)
	for _, m := range all {
		found := false
		for _, r := range Motors() {
			if math.Abs(r.HP-m.hp) > 0.001 {
				continue
			}
			found = true
			want := r.Amps115
			if m.volts > 200 {
				want = r.Amps230
			}
			assert.Equal(t, want, m.amps, m.name)
		}
		assert.True(t, found, "%s: %v hp is not in the table", m.name, m.hp)
	}
}

// Usual letters fall as motors grow: about 1/3 hp M, 1/2 and 3/4 hp L, 1 hp K, 2 hp J, 3 hp H, 5 hp G (common practice, no
// source); one letter to either side is as usual, and small universal-like loads start easier.
func TestMotorCircuitsHaveUsualCodeLetters(t *testing.T) {
	const order = "ABCDEFGHJKLMNPRSTUV"
	usual := func(hp float64) string {
		switch {
		case hp < 0.4:
			return "M"
		case hp < 0.9:
			return "L"
		case hp < 1.4:
			return "K"
		case hp < 2.5:
			return "J"
		default:
			return "H"
		}
	}
	for _, m := range motorCircuits(t) {
		distance := strings.Index(order, m.letter) - strings.Index(order, usual(m.hp))
		assert.LessOrEqual(t, math.Abs(float64(distance)), 1.0, "%s: letter %s", m.name, m.letter)
	}
}

// NDSU Extension: motors take about 1000 W to run and 4000 W to start for each hp. The code's tables are on the safe side
// of that rule of thumb: no less, and within a factor of 1.6. Starting power factor 0.6: common practice, no source.
func TestOneHorsepowerAgainstTheExtensionRule(t *testing.T) {
	for _, m := range motorCircuits(t) {
		if m.hp != 1 {
			continue
		}
		_, high, _ := CodeLetterKVAPerHP(m.letter)
		runningW := m.amps * m.volts * m.powerFactor
		startingW := high * 1000 * m.hp * 0.6
		assert.True(t, runningW >= 1000 && runningW <= 1600, "%s runs at %.0f W", m.name, runningW)
		assert.True(t, startingW >= 4000 && startingW <= 6400, "%s starts at %.0f W", m.name, startingW)
		return
	}
	t.Fatal("no 1 hp motor")
}
