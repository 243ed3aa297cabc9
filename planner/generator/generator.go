// Package generator answers: how large must the generator be here, and how much fuel does it burn?
package generator

import (
	"fmt"
	"strings"

	"holdover/loads/units"
	"holdover/planner/derive"
	"holdover/profiles"
)

// Size works a generator out from the figures of a load and a site, and puts it down: the kW of its engine and the kVA of its
// alternator, which must hold the dip in the worst moment, here and at its nameplate. madeKW is the smallest size made that does the
// part; 0 where none does.
func Size(f *derive.Figures, madeKW float64) {
	headroom := derive.One.Plus(f.Term("assume.power_margin"))
	runningW, runningVA := f.Term("load.running_w").Times(headroom).Kilo(), f.Term("load.running_va").Times(headroom).Kilo()
	siteKW := f.Put("generator.site_kw", "kW", derive.Max(runningW, f.Term("load.worst_moment_w").Over(f.Term("assume.generator_surge")).Kilo()), "")
	dip := f.Term("assume.allowed_dip")
	start := f.Term("load.worst_moment_va").Times(f.Term("assume.reactance")).Times(derive.One.Minus(dip)).Over(dip).Kilo()
	startKVA := f.Put("generator.starting_kva", "kVA", start.With("which holds the dip X/(X + S_rated/S_start) to what is allowed"), "voltage divider of subtransient reactance and starting load: circuit theory")
	siteKVA := f.Put("generator.site_kva", "kVA", derive.Max(runningVA, startKVA), "")
	ratedKW := f.Put("generator.rated_kw", "kW", siteKW.Over(f.Term("site.engine_derate")), "")
	f.Put("generator.rated_kva", "kVA", derive.Max(siteKVA.Over(f.Term("site.alternator_derate")), ratedKW.Over(f.Term("assume.generator_power_factor"))), "")
	f.Note("generator.size_kw", madeKW, "kW", "the smallest size made on which every check of power, starts and legs holds; 0 where none is made", "sizes commonly sold, common practice, no source", "generator.rated_kw", "generator.rated_kva")
}

// Burn puts down what the size made burns through the outage on the first fuel to be had.
func Burn(f *derive.Figures, fuel *profiles.Fuel) {
	size, length := f.Term("generator.size_kw"), f.Term("outage.length")
	load := f.Term("load.average_w").Kilo().Over(size.Times(f.Term("site.engine_derate")))
	if size.Value == 0 {
		load = size.As("0, for no size is made", 0)
	}
	f.Put("generator.load_fraction", "", load, "")
	line := fuel.Line(size.Value)
	burnt := Fuel(fuel, line, size, length, f.Term("load.energy_wh").Kilo())
	burnt = f.Put("generator.fuel", fuel.Unit, burnt.With(fmt.Sprintf("which is %s of %s, the first fuel to be had", FuelText(fuel, burnt.Value), strings.ToLower(fuel.Title)), "limits.fuels"), "Willans line; "+line.Source)
	perDay := burnt.Times(derive.Quantity(24, "h")).Over(length)
	f.Put("generator.fuel_per_day", fuel.Unit, perDay.With("which is "+FuelText(fuel, perDay.Value)+" a day"), "")
}

// NextMade is the smallest of rising sizes that gives both kW and kVA, or 0 when there is none.
func NextMade(sizesKW []float64, kw, kva, powerFactor float64) float64 {
	const hair = 1 - 1e-9
	for _, size := range sizesKW {
		if size >= kw*hair && size/powerFactor >= kva*hair {
			return size
		}
	}
	return 0
}

// Dip is the voltage dip, as a share, when a start of so many VA falls on an alternator of so many.
func Dip(reactance, ratedVA, startVA derive.Term) derive.Term {
	return reactance.Over(reactance.Plus(ratedVA.Over(startVA)))
}

// Fuel is what a machine of so many rated kW burns in running for some hours while giving some kWh, in the fuel's unit.
func Fuel(fuel *profiles.Fuel, line profiles.Willans, ratedKW, hours, energyKWh derive.Term) derive.Term {
	idle := derive.Quantity(line.IdleUnitsPerHourPerKW, fuel.Unit+"/h for each rated kW")
	slope := derive.Quantity(line.UnitsPerKWh, fuel.Unit+"/kWh")
	return idle.Times(ratedKW).Times(hours).Plus(slope.Times(energyKWh))
}

// FuelText says an amount in both systems of units, piped gas in therms too.
func FuelText(f *profiles.Fuel, amount float64) string {
	text := fmt.Sprintf("%.3g %s (%.3g %s", amount, units.Sign(f.Unit), amount*f.USPerUnit, units.Sign(f.USUnit))
	if !f.Stored {
		const kWhPerTherm = 29.3071 // 100 000 Btu
		text += fmt.Sprintf(", %.3g therms", amount*f.KWhPerUnit/kWhPerTherm)
	}
	return text + ")"
}
