package screens

import (
	"holdover/ui/document"
)

func newHelpPage(a *app) page {
	return a.reading(fixed(helpDocument(a)))
}

// helpDocument lists every key. Those that mean the same everywhere come from the table that acts on them.
func helpDocument(a *app) document.Document {
	part := func(rows [][2]string) (entries document.Entries) {
		for _, row := range rows {
			entries = append(entries, document.Entry{Lead: row[0], Text: row[1], Tone: document.Strong})
		}
		return entries
	}
	var common [][2]string
	for _, k := range a.commonKeys() {
		common = append(common, [2]string{string(k.letter), k.label})
	}
	d := document.Document{document.Heading{Text: "every screen but forms"}, part(append(common, [2]string{"Esc", "back"}))}
	for _, p := range helpParts {
		d = append(d, document.Heading{Text: p.title}, part(p.rows))
	}
	return append(d, document.Paragraph{Text: "Unsaved edits are kept in a hidden recovery file after every step, and offered at the next start."})
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
		{"care", "keep: always supplied; rotate: takes turns; shed: left off"},
		{"running, starting", "the steady draw; the draw in the first moments"},
		{"worst moment", "all that is kept runs and the hardest starter starts"},
		{"cold return", "every kept motor starts at once when supply comes back"},
		{"leg", "one of the two 120 V halves of a 120/240 V service"},
		{"carried", "what is kept had supply for the whole outage"},
		{"working", "how a figure came about: formula, inputs, source"},
	}},
}
