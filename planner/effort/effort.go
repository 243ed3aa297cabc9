// Package effort answers: how much more work may a search do?
//
// A [Meter] counts work in steps and not in time, so that the same home has the same answer on every machine. A search
// spends what it did, and ends when the meter is [Meter.Spent]: what it could not prove it calls not proven. The context
// that a meter was made with ends it too; then somebody has lost interest in the answer, and [Meter.Err] says so.
package effort

import "context"

// A Meter is what is left of a budget of work. The nil Meter has no end.
type Meter struct {
	ctx  context.Context
	left int
}

// New makes a meter of so many steps, which the end of ctx ends too.
func New(ctx context.Context, steps int) *Meter { return &Meter{ctx, steps} }

// Spend takes what was done off the meter.
func (m *Meter) Spend(steps int) {
	if m != nil {
		m.left -= steps
	}
}

// Spent says whether nothing is left, or nobody waits for the answer.
func (m *Meter) Spent() bool { return m != nil && (m.left <= 0 || m.ctx.Err() != nil) }

// Err is why nobody waits for the answer, nil while somebody does.
func (m *Meter) Err() error {
	if m == nil {
		return nil
	}
	return m.ctx.Err()
}

// Part gives work a meter of its own: a share, above 0 and up to 1, of what is left here. What it spends is taken off this
// one as well.
func (m *Meter) Part(share float64, work func(*Meter)) {
	if m == nil {
		work(nil)
		return
	}
	steps := int(share * float64(m.left))
	part := New(m.ctx, steps)
	work(part)
	m.Spend(steps - part.left)
}
