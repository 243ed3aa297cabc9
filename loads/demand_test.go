package loads_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"holdover/loads"
	"holdover/loads/home"
	"holdover/loads/units"
)

func work(t interface{ Fatalf(string, ...any) }, text string) loads.Demand {
	house, err := home.Read([]byte("holdover: 1\n"+text), "home.yaml")
	if err != nil {
		t.Fatalf("%v\n%s", err, text)
	}
	return loads.Work(house)
}

// The exact integral against steps of a minute, over part hours and across midnight.
func TestEnergyOver_AgainstFineSteps(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var hourly [24]units.Watts
		for i := range hourly {
			hourly[i] = units.Watts(rapid.IntRange(0, 5000).Draw(t, "W"))
		}
		startMinute, minutes := rapid.IntRange(0, 24*60-1).Draw(t, "start"), rapid.IntRange(1, 5*24*60).Draw(t, "minutes")
		var want float64
		for m := range minutes {
			want += float64(hourly[(startMinute+m)/60%24]) / 60
		}
		got := loads.EnergyOver(hourly, units.Hours(startMinute)/60, units.Hours(minutes)/60)
		if math.Abs(float64(got)-want) > 1e-9*(want+1) {
			t.Errorf("%v Wh, by steps %v", got, want)
		}
	})
}

// A demand exceeded 1 % of the time, over all 2^n ways in which n circuits are on or off, rotated ones taking turns.
func TestOnePercent_AgainstEveryState(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 9).Draw(t, "kept")
		var text strings.Builder
		text.WriteString("circuits:\n")
		watts, duty := make([]int, n), make([][24]float64, n)
		for i := range n {
			watts[i] = rapid.IntRange(1, 2000).Draw(t, "W")
			night, day := float64(rapid.IntRange(0, 50).Draw(t, "night"))/50, float64(rapid.IntRange(0, 50).Draw(t, "day"))/50
			shares := make([]string, 24)
			for h := range 24 {
				duty[i][h] = night
				if h >= 8 {
					duty[i][h] = day
				}
				shares[h] = fmt.Sprint(duty[i][h])
			}
			fmt.Fprintf(&text, "  - {name: C%d, running: %d W, use: {hours: [%s]}}\n", i, watts[i], strings.Join(shares, ", "))
		}
		share := map[int]float64{}
		for h := range 24 {
			for bits := range 1 << n {
				sum, chance := 0, 1.0/24
				for i := range n {
					if bits>>i&1 == 1 {
						sum, chance = sum+watts[i], chance*duty[i][h]
					} else {
						chance *= 1 - duty[i][h]
					}
				}
				share[sum] += chance
			}
		}
		d := work(t, text.String())
		got := int(math.Round(float64(d.Exceeded(0.01))))
		exceeds, reaches := 0.0, 0.0
		for sum, chance := range share {
			if sum > got {
				exceeds += chance
			}
			if sum >= got {
				reaches += chance
			}
		}
		if exceeds > 0.01+1e-9 || reaches < 0.01-1e-9 {
			t.Errorf("%d W is exceeded %v of the time and reached %v\n%s", got, exceeds, reaches, text.String())
		}
	})
}

// Rotated circuits take turns: two of them are never on together, however often each is on.
func TestOnePercent_RotatedCircuitsTakeTurns(t *testing.T) {
	d := work(t, "circuits:\n  - {name: A, care: rotate, running: 1000 W, use: {duty: 0.5}}\n  - {name: B, care: rotate, running: 700 W, use: {duty: 0.5}}\n")
	assert.Equal(t, units.Watts(1000), d.Exceeded(0.01))
	both := work(t, "circuits:\n  - {name: A, running: 1000 W, use: {duty: 0.5}}\n  - {name: B, running: 700 W, use: {duty: 0.5}}\n")
	assert.Equal(t, units.Watts(1700), both.Exceeded(0.01))
}

// The bound that sizes everything is never below the demand of one percent.
func TestOnePercent_IsWithinTheBound(t *testing.T) {
	d := work(t, "circuits:\n  - {name: A, running: 1000.4 W}\n  - {name: B, care: rotate, running: 33.3 W, use: {duty: 0.2}}\n")
	assert.LessOrEqual(t, float64(d.Exceeded(0.01)), float64(d.RunningW))
	assert.GreaterOrEqual(t, float64(d.Exceeded(0.01)), 1000.4)
}

// NEC Table 430.7(B), Ohm's law and complex sums by hand: the worst moment of three starters.
func TestWorstMoment_ByHand(t *testing.T) {
	d := work(t, `circuits:
  - {name: Lights, running: 300 W}
  - {name: Pump, volts: 240 V, running_amps: 8 A, power_factor: 0.75, start: {code: K, hp: 1}}
  - {name: Fridge, running: 180 W, power_factor: 0.8, start: {times: 6}, count: 2}
  - {name: Saw, care: rotate, running: 900 W, power_factor: 0.9, start: {amps: 40 A}}
`)
	q := func(w, pf float64) float64 { return w * math.Tan(math.Acos(pf)) }
	p, r := 300+1440+360+900.0, q(1440, 0.75)+q(360, 0.8)+q(900, 0.9)
	assert.InDelta(t, p, float64(d.RunningW), 1e-9)
	assert.InDelta(t, math.Hypot(p, r), float64(d.Running.VA()), 1e-9)
	// the pump: 8.99 kVA at 0.6; one fridge: 6 · 225 VA; the saw: 4800 VA
	worst := math.Hypot(p-1440+8990*0.6, r-q(1440, 0.75)+8990*0.8)
	assert.InDelta(t, worst, float64(d.WorstVA), 1e-6)
	assert.Equal(t, "Pump", d.WorstStart)
	cold := math.Hypot(300+8990*0.6+2*1350*0.6+900, 8990*0.8+2*1350*0.8+q(900, 0.9))
	assert.InDelta(t, cold, float64(d.ColdReturn), 1e-6)
}

// The hardest hour to begin is the one from which the outage asks most, tried one by one.
func TestWorstStart_AgainstEveryHour(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		shares := make([]string, 24)
		var hourly [24]units.Watts
		for h := range 24 {
			v := float64(rapid.IntRange(0, 100).Draw(t, "share")) / 100
			shares[h], hourly[h] = fmt.Sprint(v), units.Watts(1000*v)
		}
		length := units.Hours(rapid.IntRange(1, 30*4).Draw(t, "quarters")) / 4
		d := work(t, fmt.Sprintf("outage: {length: %v h, start: worst}\ncircuits:\n  - {name: A, running: 1000 W, use: {hours: [%s]}}\n", float64(length), strings.Join(shares, ", ")))
		for h := range 24 {
			if e := loads.EnergyOver(hourly, units.Hours(h), length); float64(e) > float64(d.Energy)*(1+1e-9)+1e-9 {
				t.Errorf("from %d:00 it takes %v Wh, more than %v from %v", h, e, d.Energy, d.Start)
			}
		}
	})
}

// A heater's frost heaters: 0 at the cut-in, half way between, 1 at the rated low and below.
func TestGuardDuty_IsAStraightLine(t *testing.T) {
	h := home.Heater{GuardFrom: 4, GuardFull: -20}
	for at, want := range map[units.Celsius]float64{20: 0, 4: 0, -8: 0.5, -2: 0.25, -20: 1, -40: 1} {
		assert.InDelta(t, want, loads.GuardDuty(&h, at), 1e-12, "%v °C", float64(at))
	}
}

// Where it stands counts: a garage of known cold in winter, outdoors by the hour, indoors never frozen.
func TestGuard_ByPlaceAndSeason(t *testing.T) {
	energy := func(season, heater string) float64 {
		return float64(work(t, "site: {coldest: -20 C, hottest: 30 C, daily_range: 0 K}\noutage: {season: "+season+", length: 24 h}\ncircuits:\n  - {name: H, heater: {firing: 0 W, standby: 0 W, freeze_guard: 100 W, draw: 0 min, "+heater+"}}\n").Energy)
	}
	assert.InDelta(t, 1200, energy("winter", "stands_in: garage, garage_temp: -8 C"), 1e-6, "half duty at the garage's own cold")
	assert.InDelta(t, 2400, energy("winter", "stands_in: garage"), 1e-6, "a garage of unknown cold is as cold as outdoors")
	assert.InDelta(t, 2400, energy("winter", "stands_in: outdoors"), 1e-6)
	assert.Zero(t, energy("winter", "stands_in: indoors"))
	assert.Zero(t, energy("summer", "stands_in: garage, garage_temp: -8 C"), "the cold garage is a winter's")
}

// A profile's cold garage does not follow a heater that stands elsewhere.
func TestGuard_StandsInOverTheProfile(t *testing.T) {
	energy := func(place string) float64 {
		return float64(work(t, "site: {coldest: -20 C, hottest: 30 C, daily_range: 0 K}\noutage: {season: winter, length: 24 h}\ncircuits:\n  - {name: H, like: gas-instant-heater-guarded, heater: {stands_in: "+place+"}}\n").Energy)
	}
	firing := 24 * (110*40.0/1440 + 6*(1-40.0/1440))
	assert.InDelta(t, firing, energy("indoors"), 1e-6)
	assert.InDelta(t, firing+24*120, energy("outdoors"), 1e-6)
	require.Greater(t, energy("garage"), firing)
	require.Less(t, energy("garage"), firing+24*120)
}
