// Package queue answers: which of all that is still open comes first? It is [container/heap] for any type.
package queue

import "container/heap"

// A Queue gives first what comes before all else in it.
type Queue[T any] struct{ open open[T] }

// New makes a queue of some items by an order, which is kept for good.
func New[T any](before func(a, b T) bool, items ...T) *Queue[T] {
	q := &Queue[T]{open[T]{before, items}}
	heap.Init(&q.open)
	return q
}

// Len is how many there are.
func (q *Queue[T]) Len() int { return q.open.Len() }

// First is the one that comes first; there must be one.
func (q *Queue[T]) First() T { return q.open.items[0] }

// Push adds one.
func (q *Queue[T]) Push(item T) { heap.Push(&q.open, item) }

// Pop takes the first out; there must be one.
func (q *Queue[T]) Pop() T { return heap.Pop(&q.open).(T) }

// Fix puts the first where it belongs, now that it has changed.
func (q *Queue[T]) Fix() { heap.Fix(&q.open, 0) }

// open implements [heap.Interface].
type open[T any] struct {
	before func(a, b T) bool
	items  []T
}

// Len, Less, Swap, Push and Pop are those of a heap.
func (o *open[T]) Len() int           { return len(o.items) }
func (o *open[T]) Less(a, b int) bool { return o.before(o.items[a], o.items[b]) }
func (o *open[T]) Swap(a, b int)      { o.items[a], o.items[b] = o.items[b], o.items[a] }

// Push adds an item at the end.
func (o *open[T]) Push(item any) { o.items = append(o.items, item.(T)) }

// Pop takes the last item.
func (o *open[T]) Pop() any {
	last := len(o.items) - 1
	item := o.items[last]
	var none T
	o.items[last] = none
	o.items = o.items[:last]
	return item
}
