package outage

import (
	"flag"
	"math"
	"strconv"
	"testing"

	"pgregory.net/rapid"

	"holdover/loads/home"
	"holdover/loads/units"
)

// checkMany checks a property on at least 1,500 random cases, or on as many as -rapid.checks asks for where that is more.
func checkMany(t *testing.T, property func(*rapid.T)) {
	t.Helper()
	const cases = 1500
	f := flag.Lookup("rapid.checks")
	before := f.Value.String()
	if asked, err := strconv.Atoi(before); err != nil || asked < cases {
		if err := f.Value.Set(strconv.Itoa(cases)); err != nil {
			t.Fatal(err)
		}
		defer f.Value.Set(before)
	}
	rapid.Check(t, property)
}

// drawn draws 0..most in steps of a thousandth, the small and the large alike: rapid's own integers are mostly small.
func drawn(t *rapid.T, most float64, name string) float64 {
	steps := rapid.IntRange(0, 1000).Draw(t, name)
	if rapid.Bool().Draw(t, name+" from above") {
		steps = 1000 - steps
	}
	return most * float64(steps) / 1000
}

// anyOutage draws an outage of up to ten days: hours of no draw among the others, with or without sun and quiet hours.
func anyOutage(t *rapid.T, withSun bool) Outage {
	var draw, sun [24]units.Watts
	for h := range draw {
		if rapid.IntRange(0, 3).Draw(t, "on") > 0 {
			draw[h] = units.Watts(drawn(t, 3000, "draw W"))
		}
		if withSun && rapid.Bool().Draw(t, "shines") {
			sun[h] = units.Watts(drawn(t, 4000, "sun W"))
		}
	}
	var quiet home.QuietHours
	if rapid.Bool().Draw(t, "quiet") {
		quiet = home.QuietHours{From: units.Hours(drawn(t, 23.5, "from")), To: units.Hours(drawn(t, 23.5, "to"))}
	}
	length := drawn(t, rapid.SampledFrom([]float64{12, 48, 240}).Draw(t, "longest"), "length") + 0.25
	return New(draw, sun, units.Hours(drawn(t, 23.99, "start")), units.Hours(length), quiet)
}

// anyHybrid draws a battery and an engine that may or may not be enough, on a small or an endless store.
func anyHybrid(t *rapid.T) Design {
	d := Design{
		UsableKWh: drawn(t, 20, "usable kWh") + 0.02, DischargeKW: drawn(t, 6, "discharge kW"), ChargeKW: drawn(t, 4, "charge kW"),
		ChargerKW: drawn(t, rapid.SampledFrom([]float64{0.5, 4}).Draw(t, "largest charger"), "charger kW"), ChargeEfficiency: 0.7 + drawn(t, 0.3, "charging"), InverterKW: drawn(t, 4, "inverter kW"),
		Efficiency: 0.8 + drawn(t, 0.2, "inverter"), IdleKW: rapid.SampledFrom([]float64{0, 0.025, 0.2}).Draw(t, "idle kW"),
		SiteKW: drawn(t, 5, "site kW"), IdleBurn: drawn(t, 1, "idle burn"), BurnPerKWh: 0.1 + drawn(t, 0.5, "burn"), FuelStore: math.Inf(1),
	}
	d.LeastKW = drawn(t, d.SiteKW, "least kW")
	if rapid.Bool().Draw(t, "store") {
		d.FuelStore = drawn(t, 80, "store")
	}
	d.StartAt = drawn(t, 0.6, "start at")
	d.StopAt = d.StartAt + 0.05 + drawn(t, 0.95-d.StartAt, "stop at")
	d.LeadAt = d.StartAt + drawn(t, d.StopAt-d.StartAt, "lead at")
	return d
}

// alwaysOn is a design whose engine starts at once, never stops of itself, and has fuel without end.
func alwaysOn(d Design) Design {
	d.StartAt, d.LeadAt, d.StopAt, d.FuelStore = 1, 1, 2, math.Inf(1)
	return d
}

// What a run of any policy and any store carries, the bound carries too: so what it rules out is rightly ruled out.
func TestCarriesAtBest_IsTrueWhereAnyPolicyCarries(t *testing.T) {
	carried, ruledOut := 0, 0
	checkMany(t, func(t *rapid.T) {
		o, d := anyOutage(t, rapid.Bool().Draw(t, "sun")), anyHybrid(t)
		run, atBest := o.Run(&d, nil), o.CarriesAtBest(&d)
		if run.Carried() {
			carried++
		}
		if !atBest {
			ruledOut++
		}
		if run.Carried() && !atBest {
			t.Fatalf("carried, but ruled out: %+v\n%+v", d, o)
		}
		if quick, ok := o.Carry(&d); ok != run.Carried() || (ok && quick != run) {
			t.Fatalf("Carry says %v, the run is short by %g kWh: %+v", quick, run.ShortKWh, d)
		}
	})
	if carried < 150 || ruledOut < 150 {
		t.Errorf("%d carried, %d ruled out: too few to prove anything", carried, ruledOut)
	}
}

// runOfManyStarts is Run with starts without end, which is what the bound supposes.
func (o *Outage) runOfManyStarts(d *Design) Summary {
	r := newRun(o, d)
	r.startsLeft = math.MaxInt32
	r.follow(o, nil)
	return r.sum
}

// Without sun the bound is the run with the engine always on and starts without end, no more and no less. With sun it may say
// that an outage is carried in which an empty battery's inverter drops out in quiet hours and takes the sun with it; that errs
// on the safe side.
func TestCarriesAtBest_IsTheRunWithTheEngineAlwaysOn(t *testing.T) {
	carried, short := 0, 0
	checkMany(t, func(t *rapid.T) {
		sunny := rapid.Bool().Draw(t, "sun")
		o, d := anyOutage(t, sunny), alwaysOn(anyHybrid(t))
		run, atBest := o.runOfManyStarts(&d), o.CarriesAtBest(&d)
		switch {
		case run.Carried():
			carried++
		case run.ShortKWh < 1e-5: // within the tolerances of both
			return
		default:
			short++
		}
		if atBest != run.Carried() && !(sunny && atBest && d.IdleKW > 0) {
			t.Fatalf("at best %v; always on it is short by %g kWh: %+v\n%+v", atBest, run.ShortKWh, d, o)
		}
	})
	if carried < 150 || short < 150 {
		t.Errorf("%d carried, %d short: too few to prove anything", carried, short)
	}
}

// A quarter of an hour has one start. An engine that uses it before a minute of quiet has none for what comes after; the bound
// has, and must: a policy that waited with its start carries this.
func TestCarriesAtBest_CountsNoStarts(t *testing.T) {
	var draw [24]units.Watts
	draw[0] = 3000
	o := New(draw, [24]units.Watts{}, 23.99, 0.25, home.QuietHours{From: 0, To: 0.02})
	waits := Design{UsableKWh: 0.08, DischargeKW: 6, ChargeEfficiency: 0.7, InverterKW: 4, Efficiency: 1, SiteKW: 5, FuelStore: math.Inf(1),
		StartAt: 0.5, LeadAt: 0.5, StopAt: 1}
	eager := alwaysOn(waits)
	if run := o.Run(&eager, nil); run.Starts != 1 || run.Carried() {
		t.Errorf("%d starts, short by %g kWh: the case does not run out of starts", run.Starts, run.ShortKWh)
	}
	if run := o.Run(&waits, nil); !run.Carried() {
		t.Errorf("the engine that waits is short by %g kWh", run.ShortKWh)
	}
	if !o.CarriesAtBest(&waits) || !o.CarriesAtBest(&eager) || !o.runOfManyStarts(&eager).Carried() {
		t.Error("carried, but ruled out")
	}
}

// More battery, a larger charger or a stronger engine never turns carried into short.
func TestCarriesAtBest_IsMonotone(t *testing.T) {
	gained := map[string]int{}
	checkMany(t, func(t *rapid.T) {
		o, d := anyOutage(t, rapid.Bool().Draw(t, "sun")), anyHybrid(t)
		d.DischargeKW, d.InverterKW, d.ChargeKW, d.SiteKW = d.DischargeKW+3, d.InverterKW+3, d.ChargeKW+2, d.SiteKW+1 // so that energy decides
		lesser := o.CarriesAtBest(&d)
		more := 1.5 + drawn(t, 3, "more")
		for what, change := range map[string]func(*Design){
			"modules": func(d *Design) { d.UsableKWh *= more; d.DischargeKW *= more; d.ChargeKW *= more },
			"charger": func(d *Design) { d.ChargerKW *= more },
			"engine":  func(d *Design) { d.SiteKW *= more },
		} {
			greater := d
			change(&greater)
			switch now := o.CarriesAtBest(&greater); {
			case lesser && !now:
				t.Fatalf("%s times %g: carried before, short after: %+v", what, more, d)
			case now && !lesser:
				gained[what]++
			}
		}
	})
	for _, what := range []string{"modules", "charger", "engine"} {
		if gained[what] == 0 {
			t.Errorf("more %s never made a difference: nothing is proved", what)
		}
	}
}

// A battery alone: a larger one is never short where a smaller one is not.
func TestBatteryRun_IsMonotoneInModules(t *testing.T) {
	gained := 0
	checkMany(t, func(t *rapid.T) {
		o, d := anyOutage(t, rapid.Bool().Draw(t, "sun")), anyHybrid(t)
		d.SiteKW = 0
		d.UsableKWh *= 4
		greater, more := d, 1+drawn(t, 3, "more")
		greater.UsableKWh, greater.DischargeKW, greater.ChargeKW = d.UsableKWh*more, d.DischargeKW*more, d.ChargeKW*more
		_, lesser := o.Carry(&d)
		_, now := o.Carry(&greater)
		if lesser && !now {
			t.Fatalf("carried before, short after %g times the battery: %+v", more, d)
		}
		if now && !lesser {
			gained++
		}
	})
	if gained == 0 {
		t.Error("a larger battery never made a difference: nothing is proved")
	}
}

// The three calls of the hot loop allocate nothing.
func TestHotLoop_AllocatesNothing(t *testing.T) {
	var draw [24]units.Watts
	for h := range draw {
		draw[h] = units.Watts(400 + 50*h)
	}
	o := New(draw, [24]units.Watts{}, 18, 72, home.QuietHours{From: 22, To: 7})
	d := Design{UsableKWh: 10, DischargeKW: 5, ChargeKW: 5, ChargerKW: 3, ChargeEfficiency: 0.9, InverterKW: 5, Efficiency: 0.92, IdleKW: 0.025,
		SiteKW: 5, IdleBurn: 0.5, BurnPerKWh: 0.3, FuelStore: 1000, StartAt: 0.1, StopAt: 1, LeadAt: 0.95}
	if starts := o.Run(&d, nil).Starts; starts < 3 {
		t.Fatalf("%d starts: the case does not exercise the loop", starts)
	}
	for name, call := range map[string]func(){
		"Run":           func() { o.Run(&d, nil) },
		"Carry":         func() { o.Carry(&d) },
		"CarriesAtBest": func() { o.CarriesAtBest(&d) },
	} {
		if n := testing.AllocsPerRun(100, call); n != 0 {
			t.Errorf("%s allocates %g times", name, n)
		}
	}
}

// A battery that ends each day a little lower is found out days later; one that comes back to where it was is not.
func TestCarriesAtBest_SeesASlowDecline(t *testing.T) {
	var draw [24]units.Watts
	for h := range draw {
		draw[h] = 1000
	}
	o := New(draw, [24]units.Watts{}, 19, 30*24, home.QuietHours{From: 19, To: 7})
	d := Design{UsableKWh: 13, DischargeKW: 5, ChargeKW: 5, ChargerKW: 5, ChargeEfficiency: 1, InverterKW: 5, Efficiency: 1, SiteKW: 2}
	if !o.CarriesAtBest(&d) {
		t.Error("12 kWh go by night and come back by day, but it is said to fall short")
	}
	d.ChargeEfficiency = 0.99 // a day gives 11.88 kWh of the night's 12
	if o.CarriesAtBest(&d) {
		t.Error("0.12 kWh less each day, with 1 kWh to lose, but it is said to hold for 30 days")
	}
}
