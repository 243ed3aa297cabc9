// Package visible answers: how is text that somebody else may have written shown, so that what is seen is what is there?
//
// A name in a home file may hold characters that a terminal acts on instead of showing, that turn the text after them
// around, or that take no room at all. [Text] and [Lines] write each of them as its code point, like <U+202E>; the screens,
// the documents, the JSON and the messages all call them, so that a name reads the same everywhere. [Cut] keeps what is quoted
// in a message to a screen's width.
package visible

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/rivo/uniseg"
)

// Width is the room in cells that a quoted value may take in a message: a screen's narrowest.
const Width = 80

// Hidden says whether r cannot be seen where it stands, or acts on its neighbours: a control or a format character (the
// direction marks among them), a separator of lines or paragraphs, a zero-width or a filling character, a variation selector, a
// tag, or a code point that Unicode has given to nobody. The default-ignorable ones are those of Unicode Standard Annex 44. A
// space of any width can be seen, by the room it takes.
func Hidden(r rune) bool {
	if unicode.In(r, unicode.Other_Default_Ignorable_Code_Point, unicode.Variation_Selector) {
		return true
	}
	return !unicode.IsPrint(r) && !unicode.Is(unicode.Zs, r)
}

// Code writes r as its code point, like <U+202E>.
func Code(r rune) string { return fmt.Sprintf("<%U>", r) }

// Text is text as one line: every hidden character as its code point, every space, tab and line feed a plain space. What joins
// an emoji out of several, and what asks for its coloured form, stays where it stands between symbols: it can be seen there.
func Text(text string) string {
	if isPlain(text, "") {
		return text
	}
	return reveal(text, func(r rune) rune {
		if r == '\t' || r == '\n' || unicode.Is(unicode.Zs, r) {
			return ' '
		}
		return r
	})
}

// Lines is [Text] for text of several lines, whose line feeds and spaces stay as they are.
func Lines(text string) string {
	if isPlain(text, "\n") {
		return text
	}
	return reveal(text, func(r rune) rune { return r })
}

// reveal writes the hidden characters of a text as their code points, after plain has had its way with each character; a line
// feed that it leaves stays.
func reveal(text string, plain func(rune) rune) string {
	runes := []rune(text)
	var b strings.Builder
	for i, r := range runes {
		switch r = plain(r); {
		case r == '\n', !Hidden(r), inEmoji(runes, i):
			b.WriteRune(r)
		default:
			b.WriteString(Code(r))
		}
	}
	return b.String()
}

// isPlain says that a text is printable ASCII, or one of a few other bytes, throughout, as nearly all are.
func isPlain(text, others string) bool {
	for i := range len(text) {
		if (text[i] < ' ' || text[i] > '~') && strings.IndexByte(others, text[i]) < 0 {
			return false
		}
	}
	return true
}

const (
	joiner  = '\u200d'
	emoji   = '\ufe0f' // asks for the coloured form of the symbol before it
	skinMin = '\U0001f3fb'
	skinMax = '\U0001f3ff'
)

// inEmoji says that runes[i] joins two symbols into one emoji, or asks for the coloured form of one.
func inEmoji(runes []rune, i int) bool {
	switch {
	case i == 0:
		return false
	case runes[i] == emoji:
		return unicode.Is(unicode.So, runes[i-1])
	case runes[i] != joiner, i+1 == len(runes), !unicode.Is(unicode.So, runes[i+1]):
		return false
	}
	before := runes[i-1]
	return unicode.Is(unicode.So, before) || (skinMin <= before && before <= skinMax) || (before == emoji && inEmoji(runes, i-1))
}

// cut stands where something is missing.
const cut = "…"

// Cut is text, or where it is wider than a number of cells as much of its beginning as has room before a sign that something is
// missing.
func Cut(text string, width int) string {
	if Leading(text, width) == text {
		return text
	}
	return Leading(text, width-1) + cut
}

// Leading is the longest beginning of text that is no wider than a number of cells. It parts no letter from its marks.
func Leading(text string, width int) string {
	if len(text) <= width {
		return text // no character is wider in cells than in bytes
	}
	at, state := 0, -1
	for rest := text; rest != ""; {
		var cluster string
		var wide int
		cluster, rest, wide, state = uniseg.FirstGraphemeClusterInString(rest, state)
		if at += wide; at > width || len(text)-len(rest) > 16*width { // a cluster of many marks on one letter has no width to stop at
			return text[:len(text)-len(rest)-len(cluster)]
		}
	}
	return text
}

// CutQuoted is a message in which what stands in double quotes, escaped as Go's %q does, is cut to [Width].
func CutQuoted(message string) string {
	if len(message) <= Width {
		return message
	}
	var b strings.Builder
	for {
		before, rest, found := strings.Cut(message, `"`)
		end := closing(rest)
		if !found || end < 0 {
			b.WriteString(message)
			return b.String()
		}
		b.WriteString(before + `"` + cutEscaped(rest[:end]) + `"`)
		message = rest[end+1:]
	}
}

// closing is where the quote that is open at the beginning of text ends, below 0 where it does not.
func closing(text string) int {
	for i := 0; i < len(text); i++ {
		switch text[i] {
		case '\\':
			i++
		case '"':
			return i
		}
	}
	return -1
}

// cutEscaped is [Cut] for what stands between quotes: it leaves no half of an escape.
func cutEscaped(text string) string {
	short := Cut(text, Width)
	if short == text {
		return text
	}
	most, end := len(short)-len(cut), 0
	for {
		step := 1
		if text[end] == '\\' {
			step = max(2, map[byte]int{'x': 4, 'u': 6, 'U': 10}[text[end+1]])
		}
		if end+step > most {
			break
		}
		end += step
	}
	for !utf8.RuneStart(text[end]) {
		end--
	}
	return text[:end] + cut
}
