package mishap

import (
	"errors"
	"testing"

	"github.com/stretchr/testify/assert"
)

// again recovers and panics again, as a library does that puts a terminal back first.
func again(work func()) {
	defer func() {
		if p := recover(); p != nil {
			panic(p)
		}
	}()
	work()
}

func caught(work func()) (m *Mishap) {
	defer func() {
		if p := recover(); p != nil {
			m = Of(p)
		}
	}()
	work()
	return nil
}

func TestOf_SaysWhatAndWhereItWasFirst(t *testing.T) {
	none := []int{}
	m := caught(func() { again(func() { none[len(t.Name())] = 1 }) })
	assert.Equal(t, "a mistake in this program ended it, at ui/mishap/mishap_test.go:32: runtime error: index out of range [33] with length 0", m.Error())
	assert.Contains(t, m.Trace, "mishap_test.go:32")

	m = caught(func() { panic(errors.New("own words")) })
	assert.Equal(t, "a mistake in this program ended it, at ui/mishap/mishap_test.go:36: own words", m.Error())
	assert.Nil(t, caught(func() {}))
}
