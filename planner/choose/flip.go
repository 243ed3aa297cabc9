package choose

import (
	"math"

	"holdover/loads/units"
	"holdover/planner/effort"
)

// A Flip is a point at which the choice changes, other things equal: on one side of At it is From, on the other To.
type Flip struct {
	Quantity string  // path in the home file: outage.length, limits.fuel_store or prices.battery_per_kwh
	Unit     string  // of At
	Now      float64 // the value planned for
	At       float64
	From, To Kind
	Proven   bool // false where a search ended at its budget of work: then the change is at At or before it, nearer to Now
}

// Up says whether the flip lies above the value planned for.
func (f Flip) Up() bool { return f.At > f.Now }

// A dial is one quantity that may be turned.
type dial struct {
	quantity, unit string
	now, low, high float64
	turn           func(*Case, float64) *Case
}

// dials are the quantities tried, with how far they are turned: the outage from a quarter of an hour to 14 days, the fuel
// store from nearly none to a farm's, the price of a module from a tenth to five times.
func (c *Case) dials() []dial {
	out := []dial{{"outage.length", "h", float64(c.duty.Home.Outage.Length), 0.25, longestFlipH,
		func(c *Case, v float64) *Case { return c.WithLength(units.Hours(v)) }}}
	if c.storesFuel() {
		now := min(c.duty.Home.Limits.FuelStore.Most(), unlimitedL)
		out = append(out, dial{"limits.fuel_store", "L", now, 1, unlimitedL,
			func(c *Case, v float64) *Case { return c.WithStore(units.AtMost(v)) }})
	}
	price := c.ModulePrice()
	return append(out, dial{"prices.battery_per_kwh", "USD/kWh", price, price / 10, price * 5, (*Case).WithModulePrice})
}

// longestFlipH is the longest outage looked at for a flip, h. An outage planned longer has no flip above it.
const longestFlipH = 14 * 24

// unlimitedL stands for a fuel store without end, L: no house burns more in 30 days.
const unlimitedL = 20000.0

func (c *Case) storesFuel() bool {
	for _, m := range c.Machines {
		if m.Fuel.Stored {
			return true
		}
	}
	return false
}

// An Unsettled quantity is one in which no flip was found up to a value, and beyond it nothing is proven: the search ended at
// its budget of work.
type Unsettled struct {
	Quantity, Unit string
	Now            float64 // the value planned for
	UpTo           float64 // the choice is proven to stay the same up to here
}

// FlipPoints finds, for each quantity, the nearest point below and above at which the choice changes from what it is now. The
// bracket grows by a factor until the choice differs, and is then halved until it is narrower than one part in two thousand.
func (c *Case) FlipPoints(chosen Kind) (flips []Flip, unsettled []Unsettled) {
	shared := *c
	shared.known = known{} // neither fuel nor price changes what a battery carries at best
	c = &shared
	type way struct {
		dial
		end, factor float64
	}
	var ways []way
	for _, d := range c.dials() {
		if d.low < d.now {
			ways = append(ways, way{d, d.low, 1 / growth})
		}
		if d.high > d.now {
			ways = append(ways, way{d, d.high, growth})
		}
	}
	for i, w := range ways {
		c.meter.Part(1/float64(len(ways)-i), func(m *effort.Meter) {
			flip, found, upTo := c.Within(m).flip(w.dial, chosen, w.end, w.factor)
			switch {
			case found:
				flips = append(flips, flip)
			case upTo != w.end:
				unsettled = append(unsettled, Unsettled{w.quantity, w.unit, w.now, upTo})
			}
		})
	}
	return flips, unsettled
}

// growth is by how much the bracket grows; narrow is when it is narrow enough; oneLook is the share of the work still allowed
// that may go into the answer at one value.
const growth, narrow, oneLook = 1.25, 1.0005, 0.25

// flip looks from the present value towards an end, a factor at a time, for the first change, and closes in on it. upTo is how
// far the choice is proven to stay the same: the end, where there is no flip.
func (c *Case) flip(d dial, chosen Kind, end, factor float64) (flip Flip, found bool, upTo float64) {
	look := c.looker(d)
	near := d.now
	for near != end {
		far := near * factor
		if (factor > 1) == (far > end) {
			far = end
		}
		other, proven := look(far)
		if !proven {
			return flip, false, near
		}
		if other == chosen {
			near = far
			continue
		}
		flip = Flip{d.quantity, d.unit, d.now, far, chosen, other, true}
		for flip.Proven && max(flip.At/near, near/flip.At) > narrow {
			middle := math.Sqrt(near * flip.At)
			kind, proven := look(middle)
			switch {
			case !proven:
				flip.Proven = false
			case kind == chosen:
				near = middle
			default:
				flip.At, flip.To = middle, kind
			}
		}
		return flip, true, near
	}
	return flip, false, end
}

// looker gives the choice at other values of a quantity, and whether it is proven. The hybrid that was the answer last is tried
// first.
func (c *Case) looker(d dial) func(value float64) (Kind, bool) {
	var last Design
	return func(value float64) (kind Kind, proven bool) {
		c.meter.Part(oneLook, func(m *effort.Meter) {
			var best Outcome
			kind, best = d.turn(c, value).Within(m).ChosenKind(last)
			proven = best.Proven
			if kind == Hybrid {
				last = best.Design
			}
		})
		return kind, proven
	}
}
