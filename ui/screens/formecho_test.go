package screens

import (
	"strings"
	"testing"

	"github.com/gdamore/tcell/v2"
	"github.com/stretchr/testify/require"
)

// typedInto opens a form, goes to a field and types over what it holds.
func typedInto(r *rig, open, field, text string) *rig {
	r.press(open)
	f := r.app.top().(*form)
	for f.model.Fields[f.active].Key != field {
		r.press(tcell.KeyTab)
	}
	return r.press(tcell.KeyCtrlU, text)
}

// What is typed is said back as it was understood while it is typed, beside the field and in full below.
func TestFormEcho_SaysWhatWasUnderstood(t *testing.T) {
	for _, c := range []struct{ open, field, text, says string }{
		{"l", "fuel_store", "10", "10 gal (37.9 L)"}, {"l", "fuel_store", "10 gallons", "10 gal (37.9 L)"}, {"l", "quiet", "10pm to 7am", "22:00-07:00"},
		{"l", "budget", "8k", "$8,000"}, {"l", "budget", "$8,000", "$8,000"}, {"w", "start", "6pm", "18:00"}, {"w", "length", "overnight", "12 h"}, {"w", "elevation", "5,000 feet", "5,000 ft (1,524 m)"},
		{"e", "running", "1/2 hp", "9.8 A · 120 V · power factor 0.8 = 941 W (NEC Table 430.248 for 0.5 hp)"}, {"e", "use", "3 hours a day", "3 h a day"}, {"e", "use", "half an hour a day", "0.5 h a day"},
	} {
		r := typedInto(newRig(t, Options{Path: demoFile(t)}, 80, 24), c.open, c.field, c.text)
		require.Contains(t, r.squeezed(), c.text+" → "+c.says, c.text)
		r.press(tcell.KeyTab, tcell.KeyBacktab)
		require.Contains(t, r.squeezed(), c.text+" → "+c.says, "%s, once it is put in", c.text)
		r.hasNot("!")
	}
}

// What is plain needs no echo, and a fault takes its place.
func TestFormEcho_OnlyWhereItIsNotPlain(t *testing.T) {
	r := typedInto(newRig(t, Options{Path: demoFile(t)}, 80, 24), "l", "fuel_store", "30 gal").hasNot("gal →")
	r.press(tcell.KeyCtrlU, "30 gallons of it").hasNot("it →").has("!")
	typedInto(newRig(t, Options{Path: demoFile(t), ASCII: true}, 80, 24), "l", "fuel_store", "10").has("10 -> 10 gal")
}

// The fault of one field does not silence another.
func TestFormEcho_BesideTheFaultOfAnother(t *testing.T) {
	r := typedInto(newRig(t, Options{Path: demoFile(t)}, 80, 24), "l", "quiet", "10-7").has("10am or 10pm?")
	r.press(tcell.KeyBacktab, tcell.KeyCtrlU, "10")
	require.Contains(t, r.squeezed(), "10 → 10 gal (37.9 L)")
	require.Contains(t, r.squeezed(), "10am or 10pm?")
}

// Ranges and examples are in the units of the home.
func TestForm_SpeaksTheUnitsOfTheHome(t *testing.T) {
	r := typedInto(newRig(t, Options{Path: demoFile(t)}, 80, 24), "w", "elevation", "1")
	require.Contains(t, r.squeezed(), "-1,411 to 18,045 ft, typed like 60 ft")
	r.press(tcell.KeyEscape)
	r = typedInto(r, "w", "units", "").press("s", tcell.KeyTab)
	for range 8 {
		if strings.Contains(r.text(), "▸ elevation") {
			break
		}
		r.press(tcell.KeyTab)
	}
	require.NotContains(t, r.squeezed(), "typed like 60 ft")
}
