package screens

import (
	"math"
	"testing"

	"github.com/gdamore/tcell/v2"
	"github.com/stretchr/testify/require"
)

// Source: Web Content Accessibility Guidelines 2.1, relative luminance and contrast ratio (from memory). They ask 3 of
// large or bold text, 4.5 of small; against black and white at once 4.58 is the most there is.
func TestColours_AreReadableOnLightAndDark(t *testing.T) {
	for _, c := range []tcell.Color{teal, green, ochre, crimson} {
		l := luminance(c)
		require.GreaterOrEqual(t, 1.05/(l+0.05), 3.6, "on white: %06x", c.Hex())
		require.GreaterOrEqual(t, (l+0.05)/0.05, 3.6, "on black: %06x", c.Hex())
	}
}

func luminance(c tcell.Color) float64 {
	r, g, b := c.RGB()
	linear := func(channel int32) float64 {
		v := float64(channel) / 255
		if v <= 0.03928 {
			return v / 12.92
		}
		return math.Pow((v+0.055)/1.055, 2.4)
	}
	return 0.2126*linear(r) + 0.7152*linear(g) + 0.0722*linear(b)
}

func TestMarks_StyleAndTagAgree(t *testing.T) {
	for _, noColor := range []bool{false, true} {
		l := newLook(noColor, false)
		for _, m := range []mark{l.quiet, l.strong, l.heading, l.good, l.warn, l.bad, l.danger, l.chosen} {
			screen := tcell.NewSimulationScreen("UTF-8")
			require.NoError(t, screen.Init())
			printLine(screen, m.on("x"), 0, 0, 1)
			_, style, _ := screen.Get(0, 0)
			require.Equal(t, m.style, style, m.tag)
			screen.Fini()
		}
	}
}
