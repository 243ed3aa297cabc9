package outage

import "math"

// A morning is the state of a run when a day begins.
type morning struct {
	known bool
	soc   float64
	on    bool
	sum   Summary
}

// sameCharge is how near two mornings' charges are, as a share of the battery, to be the same but for rounding.
const sameCharge = 1e-11

// skipDays looks whether the day just over ended as it began. Then every later day is like it for as long as the fuel
// lasts, and all but the last of them can be added up at once; left is how many whole days are to come before the last
// one begun. It returns how many days it has passed over.
func (r *run) skipDays(left int) (skipped int) {
	dawn := r.dawn
	r.dawn = morning{true, r.soc, r.on, r.sum}
	if !dawn.known || dawn.on != r.on || math.Abs(dawn.soc-r.soc) > sameCharge*r.UsableKWh {
		return 0
	}
	burnt := r.sum.Fuel - dawn.sum.Fuel
	if burnt > 0 && !math.IsInf(r.fuel, 1) {
		left = min(left, int(r.fuel/burnt)-1)
	}
	starts := r.sum.Starts - dawn.sum.Starts
	if left <= 0 || starts*(left+1) > r.startsLeft {
		return 0
	}
	r.startsLeft -= starts * left
	days := float64(left)
	r.fuel -= burnt * days
	t, d := &r.sum, &dawn.sum
	t.ShortKWh += (t.ShortKWh - d.ShortKWh) * days
	t.ServedKWh += (t.ServedKWh - d.ServedKWh) * days
	t.GeneratorKWh += (t.GeneratorKWh - d.GeneratorKWh) * days
	t.SunKWh += (t.SunKWh - d.SunKWh) * days
	t.Fuel += burnt * days
	t.RunHours += (t.RunHours - d.RunHours) * days
	t.Starts += starts * left
	t.InverterLoss += (t.InverterLoss - d.InverterLoss) * days
	t.ChargeLoss += (t.ChargeLoss - d.ChargeLoss) * days
	r.dawn.known = false
	return left
}
