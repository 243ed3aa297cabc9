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

// dials are the quantities tried, with how far they are turned: the outage from a quarter of an hour to 30 days, the fuel
// store from nearly none to a farm's, the price of a module from a tenth to five times.
func (c *Case) dials() []dial {
	out := []dial{{"outage.length", "h", float64(c.home.Outage.Length), 0.25, 720,
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
	chosen, _ := c.Choose()
	var flips []Flip
	for _, d := range c.dials() {
		for _, end := range []float64{d.low, d.high} {
			if f, ok := c.flip(d, chosen, end); ok {
				flips = append(flips, f)
			}
		}
	}
	return flips
}

// flip looks from the present value towards an end.
func (c *Case) flip(d dial, chosen Kind, end float64) (Flip, bool) {
	const growth, narrow = 1.5, 1.0005
	kindAt := func(v float64) Kind {
		k, _ := d.turn(c, v).Choose()
		return k
	}
	near, far := d.now, d.now
	for {
		if far == end || math.Signbit(end-d.now) != math.Signbit(end-far) {
			return Flip{}, false
		}
		near = far
		if end > d.now {
			far = min(far*growth, end)
		} else {
			far = max(far/growth, end)
		}
		if kindAt(far) != chosen {
			break
		}
	}
	other := kindAt(far)
	for max(far/near, near/far) > narrow {
		middle := math.Sqrt(near * far)
		if k := kindAt(middle); k == chosen {
			near = middle
		} else {
			far, other = middle, k
		}
	}
	return Flip{d.quantity, d.unit, d.now, far, chosen, other}, true
}
