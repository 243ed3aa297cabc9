package screens

import (
	"strings"

	"github.com/gdamore/tcell/v2"
	"github.com/rivo/tview"

	"holdover/loads/units"
	"holdover/loads/visible"
	"holdover/ui/document"
	"holdover/ui/screens/draft"
)

// This file draws a form: title, rows, and at the foot what is to be said of the active field.

const (
	labelWidth = 26 // of a form's rows, pointer included
	entryWidth = 26 // of what is typed, brackets included
	notesLines = 4  // rule and three lines; more where faults need them
)

// A formLine is one line of a form: a heading, or a field.
type formLine struct {
	heading string
	field   int
}

// formLines lists headings and fields in order.
func formLines(fields []draft.FormField) []formLine {
	var lines []formLine
	group := ""
	for i, field := range fields {
		if field.Group != group {
			group = field.Group
			lines = append(lines, formLine{heading: group})
		}
		lines = append(lines, formLine{field: i})
	}
	return lines
}

// fieldAt is the field on a line in sight.
func (f *form) fieldAt(row int) (field int, ok bool) {
	lines := formLines(f.model.Fields)
	if row < 0 || row >= f.height || f.offset+row >= len(lines) || lines[f.offset+row].heading != "" {
		return 0, false
	}
	return lines[f.offset+row].field, true
}

// Draw implements [tview.Primitive].
func (f *form) Draw(screen tcell.Screen) {
	f.DrawForSubclass(screen, f)
	x, y, width, height := f.GetInnerRect()
	l := f.app.look
	printLine(screen, l.heading.on(l.glyphs.fit(f.title(), width)), x, y, width)
	notes := f.notes(width, max(notesLines, (height-1)/2))
	f.height = max(1, height-1-len(notes))
	lines := formLines(f.model.Fields)
	f.scrollTo(lines)
	for row := 0; row < f.height && f.offset+row < len(lines); row++ {
		line := lines[f.offset+row]
		if line.heading != "" {
			printLine(screen, l.strong.on(shown(line.heading)), x, y+1+row, width)
			continue
		}
		f.drawField(screen, line.field, x, y+1+row, width)
	}
	for row, line := range notes {
		printLine(screen, line, x, y+height-len(notes)+row, width)
	}
}

// scrollTo keeps the active field in sight, and the heading above the first.
func (f *form) scrollTo(lines []formLine) {
	at := 0
	for i, line := range lines {
		if line.heading == "" && line.field == f.active {
			at = i
		}
	}
	if at == 1 {
		at = 0
	}
	f.offset = min(f.offset, at)
	f.offset = max(f.offset, at-f.height+1, 0)
}

func (f *form) drawField(screen tcell.Screen, i, x, y, width int) {
	l, g := f.app.look, f.app.look.glyphs
	active := i == f.active
	pointer := "  "
	if active {
		pointer = g.pointer + " "
	}
	label := pointer + g.fit(f.label(i), labelWidth-3)
	if active {
		label = l.strong.on(label)
	}
	printLine(screen, label, x, y, labelWidth)
	f.drawEntry(screen, i, active, x+labelWidth, y)
	at := labelWidth + entryWidth + 1
	printLine(screen, f.remark(i, width-at), x+at, y, width-at)
}

// drawEntry draws what is typed, in brackets; a choice in angle brackets; an inherited value in round ones.
func (f *form) drawEntry(screen tcell.Screen, i int, active bool, x, y int) {
	l, g := f.app.look, f.app.look.glyphs
	open, shut := "[", "]"
	if f.model.Fields[i].Choices != nil {
		open, shut = "<", ">"
	}
	printLine(screen, tview.Escape(open), x, y, 1)
	printLine(screen, tview.Escape(shut), x+entryWidth-1, y, 1)
	if active && open == "[" {
		if f.HasFocus() {
			f.field.Focus(nil)
		} else {
			f.field.Blur()
		}
		f.field.SetRect(x+1, y, entryWidth-2, 1)
		f.field.Draw(seenScreen{screen})
		return
	}
	text := f.model.Text(i)
	inherited, _ := f.model.Inherited(i)
	switch {
	case text == "" && inherited != "":
		text = l.quiet.on(g.fit("("+inherited+")", entryWidth-2))
	default:
		text = g.fit(text, entryWidth-2)
	}
	if active {
		text = l.chosen.on(text)
	}
	printLine(screen, text, x+1, y, entryWidth-2)
}

// remark is what stands beside a field: its fault, the hidden characters in it, where an inherited value comes from, or what its
// text was understood as.
func (f *form) remark(i, width int) string {
	l, g := f.app.look, f.app.look.glyphs
	field := f.model.Fields[i]
	if field.Fault != "" {
		return l.bad.on(g.fit("! "+field.Fault, width))
	}
	text := f.model.Text(i)
	if seen := visible.Text(text); seen != text {
		return l.quiet.on(g.fit("reads "+seen, width))
	}
	if text == "" {
		_, source := f.model.Inherited(i)
		return l.quiet.on(g.fit(source, width))
	}
	if says := f.model.Says(i); says != "" {
		return g.fit(g.becomes+" "+says, width)
	}
	return ""
}

// notes says under a rule with the verdict what is wrong with any field, in full, and what the active one means and accepts.
// They have a fixed height, so that the fields stay where they are; only faults make it grow, as far as most lines.
func (f *form) notes(width, most int) []string {
	foot := f.foot
	if foot == "" {
		foot = choiceWords(f.app.draft.Result())
	}
	lines := append([]string{f.app.look.rule(foot, width)}, f.faultNotes(width, most-1)...)
	height := max(notesLines, len(lines))
	about := f.about(width)
	if f.model.Fields[f.active].Fault == "" && len(lines) > 1 {
		height = max(height, len(lines)+len(about)) // the active field's own meaning does not give way to another's fault
	}
	lines = append(lines, about...)
	for len(lines) < height {
		lines = append(lines, "")
	}
	return lines[:min(height, most)]
}

// faultNotes are the faults of all fields, the active one's first; where there is no room for all it says how many are left.
func (f *form) faultNotes(width, most int) []string {
	l := f.app.look
	var lines []string
	for n := range f.model.Fields {
		i := (f.active + n) % len(f.model.Fields)
		if f.model.Fields[i].Fault == "" {
			continue
		}
		fault := l.say(document.Bad, "! "+f.faultText(i), width)
		if len(lines) > 0 && len(lines)+len(fault) > most {
			lines[len(lines)-1] = l.bad.on("! and more in the fields marked !")
			break
		}
		lines = append(lines, fault...)
	}
	return lines
}

// faultText says what is wrong with field i under the field's name.
func (f *form) faultText(i int) string { return f.label(i) + ": " + f.model.Fields[i].Fault }

func (f *form) label(i int) string { return strings.ReplaceAll(f.model.Fields[i].Key, "_", " ") }

// about says what the active field means, what it accepts and what it comes to when empty.
func (f *form) about(width int) []string {
	field := f.model.Fields[f.active]
	lines := f.app.look.say(document.Plain, field.Doc+acceptedText(field, f.app.draft.Home().House.Units), width)
	if says := f.model.Says(f.active); says != "" {
		text := f.model.Text(f.active) + " " + f.app.look.glyphs.becomes + " " + says
		lines = append(f.app.look.say(document.Plain, text, width), lines...)
	}
	if inherited, source := f.model.Inherited(f.active); inherited != "" {
		if source != "" {
			inherited += ", " + source
		}
		lines = append(lines, f.app.look.say(document.Quiet, "when empty: "+inherited, width)...)
	}
	return lines
}

// acceptedText says what a field accepts in the units of the home, where its description does not.
func acceptedText(field draft.FormField, s units.System) string {
	if len(field.Choices) > 0 || !field.Bounded {
		return ""
	}
	text := "; " + field.Accepts(s)
	if field.Dimension != nil {
		text += ", typed like " + field.Dimension.ExampleIn(s)
	}
	return text
}
