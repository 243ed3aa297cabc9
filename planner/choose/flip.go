package choose

import (
	"math"

	"holdover/loads/units"
)

// A Flip is a point at which the choice changes, other things equal: on one side of At it is From, on the other To.
type Flip struct {
	Quantity string  // path in the home file: outage.length, limits.fuel_store or prices.battery_per_kwh
	Unit     string  // of At
	Now      float64 // the value planned for
	At       float64
	From, To Kind
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
	out := []dial{{"outage.length", "h", float64(c.home.Outage.Length), 0.25, longestFlipH,
		func(c *Case, v float64) *Case { return c.WithLength(units.Hours(v)) }}}
	if c.storesFuel() {
		now := float64(c.home.Limits.FuelStore)
		if now == 0 {
			now = unlimitedL
		}
		out = append(out, dial{"limits.fuel_store", "L", now, 1, unlimitedL,
			func(c *Case, v float64) *Case { return c.WithStore(units.Litres(v)) }})
	}
	price := c.ModulePrice()
	return append(out, dial{"prices.battery_per_kwh", "USD/kWh", price, price / 10, price * 5, (*Case).WithModulePrice})
}

// longestFlipH is the longest outage looked at for a flip, h. An outage planned longer has no flip above it.
const longestFlipH = 14 * 24

// unlimitedL stands for a fuel store without limit, L: no house burns more in 30 days.
const unlimitedL = 20000

func (c *Case) storesFuel() bool {
	for _, m := range c.Machines {
		if m.Fuel.Stored {
			return true
		}
	}
	return false
}

// FlipPoints finds, for each quantity, the nearest point below and above at which the choice changes. The bracket grows by
// a factor until the choice differs, and is then halved until it is narrower than one part in two thousand.
func (c *Case) FlipPoints() []Flip {
	chosen := c.ChosenKind()
	var flips []Flip
	for _, d := range c.dials() {
		if d.low < d.now {
			flips = append(flips, c.flip(d, chosen, d.low, 1/growth)...)
		}
		if d.high > d.now {
			flips = append(flips, c.flip(d, chosen, d.high, growth)...)
		}
	}
	return flips
}

// growth is by how much the bracket grows; narrow is when it is narrow enough.
const growth, narrow = 1.25, 1.0005

// flip looks from the present value towards an end, a factor at a time, for the first change, and closes in on it.
func (c *Case) flip(d dial, chosen Kind, end, factor float64) []Flip {
	kindAt := func(v float64) Kind { return d.turn(c, v).ChosenKind() }
	for near := d.now; near != end; {
		far := near * factor
		if (factor > 1) == (far > end) {
			far = end
		}
		other := kindAt(far)
		if other == chosen {
			near = far
			continue
		}
		for max(far/near, near/far) > narrow {
			middle := math.Sqrt(near * far)
			if k := kindAt(middle); k == chosen {
				near = middle
			} else {
				far, other = middle, k
			}
		}
		return []Flip{{d.quantity, d.unit, d.now, far, chosen, other}}
	}
	return nil
}
