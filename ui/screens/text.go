package screens

import (
	"slices"
	"strings"

	"github.com/gdamore/tcell/v2"
	"github.com/rivo/tview"

	"holdover/loads/visible"
	"holdover/ui/document"
	"holdover/ui/text"
)

// shown makes text from outside fit to draw: no tags of tview, no hidden characters.
func shown(text string) string { return tview.Escape(visible.Text(text)) }

// A seenScreen draws what is typed into a field. A field edits its text as it is, so hidden characters stay in it; none of them
// reaches the terminal.
type seenScreen struct{ tcell.Screen }

// SetContent implements [tcell.Screen].
func (s seenScreen) SetContent(x, y int, main rune, marks []rune, style tcell.Style) {
	letter := []rune(visible.Text(string(append([]rune{main}, marks...))))
	if visible.Hidden(main) {
		letter = []rune{'?'}
	}
	marks = slices.DeleteFunc(slices.Clone(marks), func(r rune) bool { return !slices.Contains(letter, r) })
	s.Screen.SetContent(x, y, letter[0], marks, style)
}

// fit cuts or pads text, which is plain and not escaped, to a width in cells and escapes it.
func (g glyphs) fit(plain string, width int) string {
	return tview.Escape(text.Pad(g.Cut(plain, width), width, false))
}

// right is fit against the right edge.
func (g glyphs) right(plain string, width int) string {
	return tview.Escape(text.Pad(g.Cut(plain, width), width, true))
}

// say wraps plain text in a tone to tagged lines of a width.
func (l look) say(tone document.Tone, plain string, width int) []string {
	return l.lay(document.Document{document.Paragraph{Text: plain, Tone: tone}}, width, 0)
}

// lay lays a document out in tagged lines of a width, with charts and bars of a height.
func (l look) lay(d document.Document, width, height int) []string {
	laid := text.Lines(d, text.Style{Width: width, Height: height, Glyphs: l.glyphs.Glyphs, Breaks: true})
	lines := make([]string, len(laid))
	for i, line := range laid {
		for _, piece := range line {
			lines[i] += l.tone(piece.Tone).on(tview.Escape(piece.Text))
		}
	}
	return lines
}

// printLine draws one tagged line.
func printLine(screen tcell.Screen, text string, x, y, width int) {
	if width > 0 {
		tview.Print(screen, text, x, y, width, tview.AlignLeft, tcell.ColorDefault)
	}
}

// rule is a line across the screen with a word in it.
func (l look) rule(word string, width int) string {
	g := l.glyphs
	if word != "" {
		word = " " + g.Cut(word, width-6) + " "
	}
	head := strings.Repeat(g.Line, 2)
	tail := strings.Repeat(g.Line, max(0, width-2-text.Cells(word)))
	return l.quiet.on(head) + l.heading.on(tview.Escape(word)) + l.quiet.on(tail)
}
