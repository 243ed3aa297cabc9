package main

import (
	"bytes"
	"os"
	"sync"
	"testing"
	"time"

	"github.com/gdamore/tcell/v2"
	"github.com/stretchr/testify/assert"

	"holdover/ui/screens"
)

// breaks is the program on a screen that breaks down in the loop's own drawing when ! is pressed, and is long at it on ~.
func breaks() {
	screen, err := tcell.NewScreen()
	if err == nil {
		err = screens.Run(screens.Options{Path: os.Args[1], Screen: &breakingScreen{Screen: screen}})
	}
	os.Exit(conclude(os.Stderr, "holdover", err))
}

type breakingScreen struct {
	tcell.Screen
	mutex sync.Mutex
	last  rune
}

func (b *breakingScreen) PollEvent() tcell.Event {
	event := b.Screen.PollEvent()
	if key, ok := event.(*tcell.EventKey); ok {
		b.mutex.Lock()
		b.last = key.Rune()
		b.mutex.Unlock()
	}
	return event
}

func (b *breakingScreen) Show() {
	b.mutex.Lock()
	last := b.last
	b.mutex.Unlock()
	switch last {
	case '!':
		panic("broken on purpose")
	case '~':
		b.Screen.Show()
		time.Sleep(time.Minute)
	}
	b.Screen.Show()
}

// A verb that breaks says so as the screens do, and prints nothing half.
func TestAMishapOfAVerbIsExplained(t *testing.T) {
	var out, errs bytes.Buffer
	assert.Equal(t, exitMishap, run([]string{"plan", "-"}, terminal{breakingReader{}, &out, &errs}))
	assert.Empty(t, out.String())
	assert.Regexp(t, `^holdover: a mistake in this program ended it, at cmd/holdover/breaks_test.go:\d+: broken on purpose\n`+
		`Whoever mends it will want to see what follows\.\n\ngoroutine `, errs.String())
}

type breakingReader struct{}

func (breakingReader) Read([]byte) (int, error) { panic("broken on purpose") }
