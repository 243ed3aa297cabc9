package screens

import (
	"strings"
	"testing"

	"github.com/gdamore/tcell/v2"
	"github.com/stretchr/testify/require"
)

// squeezed is the screen as one line, so that a wrapped text can be looked for.
func (r *rig) squeezed() string { return strings.Join(strings.Fields(r.text()), " ") }

const noSuchUnit = `! running: "2 lm" has the unknown unit "lm"; power in W, kW, MW, Btu/h, kBtu/h is wanted, like "1.5 kW"`

// faulty opens the first circuit's form and types what is no power into the running draw.
func faulty(t *testing.T, width, height int) *rig {
	r := newRig(t, Options{Path: demoFile(t)}, width, height)
	return r.press("e", tcell.KeyTab, tcell.KeyTab, tcell.KeyTab, tcell.KeyTab, tcell.KeyCtrlU, "2 lm")
}

// Wherever the cursor is, also where the field itself is out of sight, its fault is there in full.
func TestFormFault_IsReadWholeFromEveryField(t *testing.T) {
	r := faulty(t, 80, 24)
	for i := range circuitFields(0) {
		require.Contains(t, r.squeezed(), noSuchUnit, i)
		require.Contains(t, r.text(), "▸", "and the cursor is in sight")
		r.press(tcell.KeyTab)
	}
	for range 3 { // without faults nothing is in the way
		r.press(tcell.KeyBacktab)
	}
	r.press(tcell.KeyEscape, "x").hasNot("lm")
}

// The field under the cursor keeps its own explanation beside the fault of another.
func TestFormFault_LeavesTheActiveFieldItsMeaning(t *testing.T) {
	r := faulty(t, 80, 24).press(tcell.KeyTab, tcell.KeyTab, tcell.KeyTab).has("▸ use")
	require.Contains(t, r.squeezed(), noSuchUnit)
	require.Contains(t, r.squeezed(), "heating or cooling when empty: heating, profile furnace-gas")
}

func TestFormFault_SeveralAreAllSaid(t *testing.T) {
	r := faulty(t, 80, 24).press(tcell.KeyUp, tcell.KeyCtrlU, "many", tcell.KeyTab, tcell.KeyTab)
	require.Contains(t, r.squeezed(), noSuchUnit)
	r.has(`! count: "many" is not a whole number`)
}

// Where there is no room for all of them, it says that there are more.
func TestFormFault_TooManyForTheRoom(t *testing.T) {
	f := newRig(t, Options{Path: demoFile(t)}, 80, 24).press("e").app.top().(*form)
	for i := range f.model.Fields {
		f.model.Fields[i].Fault = "is not understood"
	}
	lines := f.faultNotes(80, 5)
	require.Len(t, lines, 5)
	require.Contains(t, lines[4], "and more in the fields marked !")
}

func TestFormFault_StayingJumpsToIt(t *testing.T) {
	r := faulty(t, 80, 24).press(tcell.KeyPgDn, tcell.KeyPgDn).hasNot("▸ running")
	r.press(tcell.KeyEscape).has("is not accepted")
	require.Contains(t, r.squeezed(), `running: "2 lm" has the`, "the question names the fault")
	r.press(tcell.KeyEnter).has("▸ running") // the first answer: stay and mend it
	r.press(tcell.KeyPgDn, tcell.KeyEscape, "m").has("▸ running")
	r.press(tcell.KeyPgDn).hasNot("▸ running").press(tcell.KeyCtrlC).has("unsaved edits").press("b").has("▸ running")
}
