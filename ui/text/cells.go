package text

import (
	"strings"
	"unicode/utf8"

	"github.com/rivo/uniseg"

	"holdover/loads/visible"
)

// Cells is the width of text on a terminal.
func Cells(text string) int {
	for i := range len(text) {
		if text[i] >= utf8.RuneSelf {
			return uniseg.StringWidth(text)
		}
	}
	return len(text)
}

// Cut is text that can be seen, cut to a width with a sign that something is missing.
func (g Glyphs) Cut(text string, width int) string {
	text = visible.Text(text)
	if width <= 0 {
		return ""
	}
	if visible.Leading(text, width) == text {
		return text
	}
	return visible.Leading(text, width-1) + g.Missing
}

// Pad is text with room behind it to a width, or before it.
func Pad(text string, width int, right bool) string {
	space := strings.Repeat(" ", max(0, width-Cells(text)))
	if right {
		return space + text
	}
	return text + space
}

// Wrap breaks text at its spaces into lines of a width, one line at least. A word that is wider than a line stands out, or where
// breaks is set is broken.
func Wrap(text string, width int, breaks bool) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(visible.Text(text)) {
		if line != "" && Cells(line)+1+Cells(word) <= width {
			line += " " + word
			continue
		}
		if line != "" {
			lines = append(lines, line)
		}
		for breaks && Cells(word) > width {
			head := visible.Leading(word, width)
			if head == "" {
				head = string([]rune(word)[:1]) // wider than a whole line: it has to go somewhere
			}
			lines, word = append(lines, head), word[len(head):]
		}
		line = word
	}
	return append(lines, line)
}
