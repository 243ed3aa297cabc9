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
		for _, k := range part.keys {
			lines = append(lines, helpLine(l, k[0], k[1]))
		}
	}
	lines = append(lines, "")
	return append(lines, wrap("Unsaved edits are kept in a hidden recovery file after every step, and offered at the next start.", width, "")...)
}

func helpLine(l look, key, label string) string {
	return l.strong.on(l.glyphs.fit("  "+key, 18)) + tview.Escape(label)
}

var helpParts = []struct {
	title string
	keys  [][2]string
}{
	{"circuits", [][2]string{
		{"space", "next care: keep, rotate, shed"}, {"Enter or e", "edit the circuit's form"}, {"a", "add a circuit from a profile, or a blank one"},
		{"d or Delete", "delete it (u brings it back)"}, {"J K, Shift-arrows", "move it down or up"}, {"/ and n", "find by name, find the next"},
		{"j k, arrows", "select"},
	}},
	{"forms", [][2]string{
		{"Tab, arrows, Enter", "next or previous field; what is typed is put in"}, {"space, left, right", "next or previous choice, where a field is a choice"},
		{"empty field", "takes the profile's or the assumed value, shown in brackets"}, {"Ctrl-N Ctrl-P", "next or previous circuit"},
		{"PgUp PgDn", "a page of fields"}, {"Esc", "put in and go back"},
	}},
	{"everywhere, forms too", [][2]string{{"Ctrl-S", "save"}, {"Ctrl-C", "quit, after a question if edits are unsaved"},
		{"Ctrl-Z", "back to the shell for a while; fg returns"}}},
}
