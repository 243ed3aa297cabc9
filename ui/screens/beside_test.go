package screens

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// A panic beside the loop ends it and gives the terminal back before the program ends of it.
func TestBeside_APanicEndsTheScreens(t *testing.T) {
	a, err := start(Options{Path: demoFile(t), Screen: newRig(t, Options{}, 80, 24).screen})
	require.NoError(t, err)
	ended := make(chan any, 1)
	go func() {
		defer func() { ended <- recover() }()
		_ = a.run()
	}()
	a.term.QueueUpdate(func() { a.beside(func() { panic("broken") }) })
	require.Contains(t, <-ended, "broken")
}
