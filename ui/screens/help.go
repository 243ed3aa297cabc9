package screens

import (
	"github.com/gdamore/tcell/v2"
	"github.com/rivo/tview"
)

func newHelpPage(a *app) page {
	return newReader(func(width int) []string { return helpLines(a, width) }, a.common,
		keyHint(tcell.KeyEscape, "Esc", "back"), keyHint(tcell.KeyDown, "arrows", "scroll"))
}

// helpLines lists every key. Those that mean the same everywhere come from the table that acts on them.
func helpLines(a *app, width int) []string {
	l := a.look
	lines := []string{l.heading.on("every screen but forms")}
	for _, k := range a.commonKeys() {
		lines = append(lines, helpLine(l, string(k.letter), k.label))
	}
	lines = append(lines, helpLine(l, "Esc", "back"))
	for _, part := range helpParts {
		lines = append(lines, "", l.heading.on(part.title))
		for _, k := range part.rows {
			lines = append(lines, helpLine(l, k[0], k[1]))
		}
	}
	lines = append(lines, "")
	return append(lines, wrap("Unsaved edits are kept in a hidden recovery file after every step, and offered at the next start.", width, "")...)
}

// helpIndent is where the meanings begin, in cells.
const helpIndent = 22

func helpLine(l look, key, label string) string {
	return l.strong.on(l.glyphs.fit("  "+key, helpIndent)) + tview.Escape(label)
}

// helpParts are the keys of single screens, and the words that are ours or that not everybody knows.
var helpParts = []struct {
	title string
	rows  [][2]string
}{
	{"circuits", [][2]string{
		{"space", "next care: keep, rotate, shed"}, {"Enter or e", "edit the circuit's form"}, {"a", "add a circuit from a profile, or a blank one"},
		{"d or Delete", "delete it (u brings it back)"}, {"J K, Shift-arrows", "move it down or up"}, {"/ and n", "find by name, find the next"},
		{"j k, arrows", "select"},
	}},
	{"forms", [][2]string{
		{"Tab, arrows, Enter", "next or previous field; what is typed is put in"}, {"space, left, right", "next or previous choice, where there are some"},
		{"empty field", "takes the profile's or assumed value, in brackets"}, {"Ctrl-N Ctrl-P", "next or previous circuit"},
		{"PgUp PgDn", "a page of fields"}, {"Esc", "put in and go back"},
	}},
	{"everywhere, forms too", [][2]string{{"Ctrl-S", "save"}, {"Ctrl-C", "quit, after a question if edits are unsaved"},
		{"Ctrl-Z", "back to the shell for a while; fg returns"}}},
	{"words", [][2]string{
		{"care", "keep: supplied throughout; rotate: takes turns, may wait;"}, {"", "shed: left off"},
		{"running, starting", "the steady draw; the draw in the first moments"},
		{"worst moment", "all that is kept runs and the hardest starter starts"},
		{"cold return", "every kept motor starts at once when supply comes back"},
		{"leg", "one of the two 120 V halves of a 120/240 V service"},
		{"carried", "what is kept had supply for the whole outage"},
		{"working", "how a figure came about: formula, inputs, source"},
	}},
}
