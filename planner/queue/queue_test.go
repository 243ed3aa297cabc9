package queue

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// Whatever is pushed, taken and changed, the queue gives what a sorted list gives.
func TestQueue_GivesTheLeast(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		list := rapid.SliceOfN(rapid.IntRange(0, 20), 0, 20).Draw(t, "begin")
		items := make([]*int, len(list))
		for i := range list {
			items[i] = &[]int{list[i]}[0]
		}
		q := New(func(a, b *int) bool { return *a < *b }, items...)
		for range rapid.IntRange(0, 60).Draw(t, "steps") {
			slices.Sort(list)
			require.Equal(t, len(list), q.Len())
			if len(list) > 0 {
				require.Equal(t, list[0], *q.First())
			}
			value := rapid.IntRange(0, 20).Draw(t, "value")
			switch what := rapid.IntRange(0, 2).Draw(t, "what"); {
			case what == 0 || len(list) == 0:
				list = append(list, value)
				q.Push(&value)
			case what == 1:
				require.Equal(t, list[0], *q.Pop())
				list = list[1:]
			default:
				list[0], *q.First() = value, value
				q.Fix()
			}
		}
	})
}
