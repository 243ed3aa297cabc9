package units

import "math"

// A Limit is the most that there may be of something, in the base unit of its dimension: none of it, so much, or without end, which
// the zero Limit is. Nothing else says what 0 or no figure means.
type Limit struct {
	most float64
	ends bool
}

// AtMost is a limit of so much, 0 or more; of 0 it is none.
func AtMost(most float64) Limit { return Limit{most, true} }

// Ends says whether there is a limit at all.
func (l Limit) Ends() bool { return l.ends }

// None says whether nothing is allowed.
func (l Limit) None() bool { return l.ends && l.most == 0 }

// Most is how much is allowed; +Inf without end.
func (l Limit) Most() float64 {
	if !l.ends {
		return math.Inf(1)
	}
	return l.most
}

// Allows says whether so much is within the limit. A rounding error passes.
func (l Limit) Allows(amount float64) bool { return amount <= l.Most()*(1+hair) }

// Reached says whether so much is all that is allowed, but for a rounding error.
func (l Limit) Reached(amount float64) bool { return amount >= l.Most()*(1-hair) }

// hair is the share by which two figures may differ and count as the same.
const hair = 1e-9
