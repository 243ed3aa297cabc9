package screens

import (
	"testing"

	"github.com/gdamore/tcell/v2"
)

func TestScope_TheJobSheetFollowsTheCircuits(t *testing.T) {
	r := newRig(t, Options{Path: demoFile(t)}, 80, 70)
	r.press("T").has("job sheet for the transfer equipment").has("Standard method").has("Panel schedule").has("1 Gas furnace")
	r.press(tcell.KeyEnd).has("NEC means the 2020 edition")
	r.press(tcell.KeyEscape, "  ", "T").has("Stay on the main panel: Gas furnace")
}

func TestScope_AtEverySize(t *testing.T) {
	for _, size := range [][2]int{{1, 1}, {20, 5}, {80, 24}, {200, 60}} {
		newRig(t, Options{Path: demoFile(t)}, size[0], size[1]).press("T", tcell.KeyPgDn, tcell.KeyEnd)
	}
}
