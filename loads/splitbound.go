package loads

import (
	"math"
	"slices"
)

// unlimited is far above what a leg can be asked for, W or VA.
const unlimited = 1e12

// caps is what a leg may give: W, which are no more than the VA, and VA.
type caps struct{ w, va float64 }

func capsOf(w, va float64) caps {
	hold := func(v float64) float64 { return min(max(v, leastLimit), unlimited) }
	return caps{hold(min(w, va)), hold(va)}
}

// A leg is what may come on top of its kept circuits.
type leg struct {
	turns   []complex128 // rotated circuits
	surges  []moment     // starts of kept circuits
	moments []moment     // of one of either or both; the first is that of nothing
}

// A moment is what comes on top of the kept circuits of a leg, and what the leg may give then.
type moment struct {
	more complex128
	caps *caps
}

// lay puts a circuit on a leg.
func (s *splitter) lay(side int, d *draw) {
	l := &s.legs[side]
	switch {
	case d.rotates:
		if d.starts != nil {
			l.add(moment{d.on + d.surge, d.starts})
		}
		if !anyAbove(l.turns, d.on) {
			l.turns = append(l.turns, d.on)
			l.add(moment{d.on, &s.running})
			for _, surge := range l.surges {
				l.add(moment{d.on + surge.more, surge.caps})
			}
		}
	case d.starts != nil:
		if start := (moment{d.surge, d.starts}); !start.below(l.surges) {
			l.surges = append(l.surges, start)
			l.add(start)
			for _, turn := range l.turns {
				l.add(moment{turn + d.surge, d.starts})
			}
		}
	}
}

// anyAbove says whether one of them asks at least as much.
func anyAbove(of []complex128, than complex128) bool {
	return slices.ContainsFunc(of, func(other complex128) bool { return less(than, other) })
}

// add adds a moment unless a harder one is there.
func (l *leg) add(m moment) {
	if !m.below(l.moments) {
		l.moments = append(l.moments, m)
	}
}

// below says whether one of them asks at least as much of the same limits.
func (m moment) below(of []moment) bool {
	return slices.ContainsFunc(of, func(other moment) bool { return m.caps == other.caps && less(m.more, other.more) })
}

// A mark is how far moments, and what makes them, have come on both legs.
type mark [2]struct{ turns, surges, moments int }

func (s *splitter) here() (at mark) {
	for side := range s.legs {
		l := &s.legs[side]
		at[side].turns, at[side].surges, at[side].moments = len(l.turns), len(l.surges), len(l.moments)
	}
	return at
}

// back takes off what came after a mark.
func (s *splitter) back(to mark) {
	for side := range s.legs {
		if l, at := &s.legs[side], &to[side]; len(l.moments) > at.moments || len(l.surges) > at.surges || len(l.turns) > at.turns {
			l.turns, l.surges, l.moments = l.turns[:at.turns], l.surges[:at.surges], l.moments[:at.moments]
		}
	}
}

// A reach is how far the choices left can move leg A from the middle: in W and in var, and along and across the direction of the
// total, which keeps the two together where power factors differ.
type reach struct {
	w, v, along, across float64
	step                float64 // the W of leg A are so many whole steps above the least; 0 where they can be anything
}

// with adds n choices that are alike.
func (r reach) with(n int, half, heading complex128) reach {
	all := scaled(half, float64(n))
	turned := all * conj(heading)
	step := commonStep(r.step, 2*math.Abs(real(half)))
	if r.w > 0 && r.step == 0 {
		step = 0
	}
	return reach{r.w + math.Abs(real(all)), r.v + math.Abs(imag(all)), r.along + math.Abs(real(turned)), r.across + math.Abs(imag(turned)), step}
}

// commonStep is the largest whole number of W that divides both, 0 where one of them is not whole.
func commonStep(a, b float64) float64 {
	if a != math.Trunc(a) || b != math.Trunc(b) || max(a, b) > 1e9 {
		return 0
	}
	for b != 0 {
		a, b = b, math.Mod(a, b)
	}
	return a
}

func conj(z complex128) complex128 { return complex(real(z), -imag(z)) }

func scaled(z complex128, by float64) complex128 { return complex(real(z)*by, imag(z)*by) }

func dot(a, b complex128) float64 { return real(a)*real(b) + imag(a)*imag(b) }

// least bounds the stress from below when the choices from k on can still move leg A from a; with none left it is the stress. It
// is the largest over pairs of a moment of leg A and one of leg B, of whichever turns: the kept circuits lie the same in all.
func (s *splitter) least(k int, a complex128) (worst float64) {
	r := &s.reach[k]
	s.pairs += len(s.legs[0].moments) * len(s.legs[1].moments)
	for i := range s.legs[0].moments {
		onA := &s.legs[0].moments[i]
		for j := range s.legs[1].moments {
			onB := &s.legs[1].moments[j]
			if stress := s.apparent(onA, onB, r, a); stress > worst {
				worst = stress
			}
			if s.realCounts {
				worst = max(worst, s.real(onA, onB, r, a))
			}
		}
	}
	return worst
}

// apparent bounds the larger of |a + α|/c and |T − a + β|/d over what a can still become, α and c being what comes on top of leg A
// and the VA that it may give then, β and d those of leg B, T the total. In the plane of a these are distances from −α and from
// T + β. At the point of the line between them that divides it as c : d both are l = |T + α + β|/(c + d), and with v from
// there to a and e along the line their squares are
//
//	l² + 2l(v·e)/c + |v|²/c² and l² − 2l(v·e)/d + |v|²/d², of which one is at least l² + |v|²/(cd).
func (s *splitter) apparent(onA, onB *moment, r *reach, a complex128) float64 {
	c, d := onA.caps.va, onB.caps.va
	line := scaled(s.total+onA.more+onB.more, 1/(c+d))
	v := a + onA.more - scaled(line, c)
	level := dot(line, line)
	along, spread := dot(v, line), r.w*math.Abs(real(line))+r.v*math.Abs(imag(line))
	turned := v * conj(s.heading)
	p, q := beyond(real(turned), r.along), beyond(imag(turned), r.across)
	far := p*p + q*q
	worst := level + far/(c*d)
	if onA := level + 2*(along-spread)/c + far/(c*c); onA > worst {
		worst = onA
	}
	if onB := level - 2*(along+spread)/d + far/(d*d); onB > worst {
		worst = onB
	}
	return worst
}

// beyond is how far v lies from what reaches so far to both sides of 0.
func beyond(v, reach float64) float64 {
	if v = math.Abs(v) - reach; v > 0 {
		return v
	}
	return 0
}

// real does so where the limit of one leg or both is in W. With X the W of both legs and x those of A, in W on B the stress is
// (X − x)/w and in VA on A it is √(x² + y²)/va, y being the least var that A can have: it is least where the two are equal.
func (s *splitter) real(onA, onB *moment, r *reach, a complex128) float64 {
	atA, atB := a+onA.more, s.total-a+onB.more
	both := real(atA + atB)
	worst := max(both/(onA.caps.w+onB.caps.w), (real(atA)-r.w)/onA.caps.w, (real(atB)-r.w)/onB.caps.w,
		mixed(both, max(0, imag(atA)-r.v), onA.caps.va, onB.caps.w), mixed(both, max(0, imag(atB)-r.v), onB.caps.va, onA.caps.w))
	if r.step > 0 {
		worst = max(worst, inSteps(real(atA)-r.w, r.step, both, onA.caps.w, onB.caps.w))
	}
	return worst * worst
}

// inSteps is the least that the larger of x/c and (both − x)/d can be, x being whole steps above low.
func inSteps(low, step, both, c, d float64) float64 {
	even := both * c / (c + d)
	if even <= low {
		return 0
	}
	below := low + step*math.Floor((even-low)/step)
	return min((both-below)/d, (below+step)/c)
}

// mixed is the least u with x² + y² ≤ (u·va)² and X − x ≤ u·w for some x ≥ 0.
func mixed(both, y, va, w float64) float64 {
	if y*w >= both*va {
		return y / va
	}
	return (both*both + y*y) / (both*w + math.Sqrt(both*both*va*va+(va*va-w*w)*y*y))
}
