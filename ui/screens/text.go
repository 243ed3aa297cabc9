package screens

import (
	"slices"
	"sort"
	"strings"
	"unicode/utf8"

	"github.com/gdamore/tcell/v2"
	"github.com/rivo/tview"

	"holdover/loads/visible"
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
func (g glyphs) fit(text string, width int) string {
	text = g.clip(text, width)
	return tview.Escape(text) + strings.Repeat(" ", max(0, width-cells(text)))
}

// right is fit against the right edge.
func (g glyphs) right(text string, width int) string {
	text = g.clip(text, width)
	return strings.Repeat(" ", max(0, width-cells(text))) + tview.Escape(text)
}

// clip cuts plain text to a width in cells, with a sign that something is missing.
func (g glyphs) clip(text string, width int) string {
	text = visible.Text(text)
	if width <= 0 {
		return ""
	}
	if cells(text) <= width {
		return text
	}
	return leading(text, width-1) + g.cut
}

// leading is the longest beginning of a text that is no wider than a width.
func leading(text string, width int) string {
	runes := []rune(text)
	most := min(len(runes), 8*width) // no cluster is so many runes for one cell in anything but a joke
	return string(runes[:sort.Search(most, func(n int) bool { return cells(string(runes[:n+1])) > width })])
}

// cells is the width of plain text on the terminal.
func cells(text string) int {
	for i := range len(text) {
		if text[i] >= utf8.RuneSelf {
			return tview.TaggedStringWidth(tview.Escape(text))
		}
	}
	return len(text)
}

// wrap breaks plain text into escaped lines of a width, each after an indent.
func wrap(text string, width int, indent string) []string {
	lines := wrapPlain(text, max(8, width-cells(indent)))
	for i := range lines {
		lines[i] = indent + tview.Escape(lines[i])
	}
	return lines
}

// wrapPlain breaks text between words, and a word that is wider than a line within it. tview's own wrapping is for tagged
// text and would break an escaped bracket in two.
func wrapPlain(text string, width int) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(visible.Text(text)) {
		if line != "" && cells(line)+1+cells(word) <= width {
			line += " " + word
			continue
		}
		if line != "" {
			lines = append(lines, line)
		}
		for cells(word) > width {
			head := leading(word, width)
			if head == "" {
				head = string([]rune(word)[:1]) // wider than a whole line: it has to go somewhere
			}
			lines, word = append(lines, head), word[len(head):]
		}
		line = word
	}
	return append(lines, line)
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
		word = " " + g.clip(word, width-6) + " "
	}
	head := strings.Repeat(g.rule, 2)
	tail := strings.Repeat(g.rule, max(0, width-2-cells(word)))
	return l.quiet.on(head) + l.heading.on(tview.Escape(word)) + l.quiet.on(tail)
}
