package screens

import (
	"fmt"

	"github.com/gdamore/tcell/v2"
	"github.com/rivo/tview"

	"holdover/ui/document"
	"holdover/ui/text"
)

// A look is how things are drawn: semantic styles and the characters for lines and bars. Colour never says anything alone;
// each style differs in weight or comes with a word or a sign too, so that a terminal without colour shows as much.
type look struct {
	quiet, strong, heading, good, warn, bad, danger, chosen mark
	field, fieldActive                                      tcell.Style
	glyphs                                                  glyphs
}

// A mark is one style, for cells and as a tag around text.
type mark struct {
	style tcell.Style
	tag   string
}

// on puts text, which must be escaped already, in the mark's style.
func (m mark) on(text string) string {
	if m.tag == "" {
		return text
	}
	return m.tag + text + "[-:-:-]"
}

// tone is the mark in which what a document says is shown.
func (l look) tone(t document.Tone) mark {
	return [...]mark{document.Plain: {}, document.Quiet: l.quiet, document.Strong: l.strong, document.Title: l.heading, document.Good: l.good,
		document.Warn: l.warn, document.Bad: l.bad, document.Danger: l.danger, document.Chosen: l.chosen}[t]
}

// glyphs are the characters that a terminal may lack.
type glyphs struct {
	text.Glyphs
	pointer    string
	becomes    string // between what is typed and what was understood
	dash, dots string
}

var unicodeGlyphs = glyphs{Glyphs: branched(text.Blocks, "├─ ", "└─ ", "│  "), pointer: "▸", becomes: "→", dash: "–", dots: " · "}

var asciiGlyphs = glyphs{Glyphs: branched(text.ASCII, "|- ", "`- ", "|  "), pointer: ">", becomes: "->", dash: "-", dots: " - "}

// branched draws derivations as trees: what sees a screen sees lines.
func branched(g text.Glyphs, tee, corner, trunk string) text.Glyphs {
	g.Tee, g.Corner, g.Trunk = tee, corner, trunk
	return g
}

// The colours, each of middling lightness: a terminal does not say whether it is light or dark, so a test holds each to a
// contrast against both.
var (
	teal    = tcell.NewHexColor(0x0087af)
	green   = tcell.NewHexColor(0x008700)
	ochre   = tcell.NewHexColor(0xaf5f00)
	crimson = tcell.NewHexColor(0xd70000)
)

// newLook makes the look, on the terminal's own background.
func newLook(noColor, ascii bool) look {
	plain := tcell.StyleDefault
	l := look{
		quiet:   mark{plain.Dim(true), "[::d]"},
		strong:  mark{plain.Bold(true), "[::b]"},
		heading: mark{plain.Bold(true).Foreground(teal), tag(teal, "b")},
		good:    mark{plain.Foreground(green), tag(green, "")},
		warn:    mark{plain.Foreground(ochre), tag(ochre, "")},
		bad:     mark{plain.Bold(true).Foreground(crimson), tag(crimson, "b")},
		danger:  mark{plain.Bold(true).Foreground(tcell.NewHexColor(0xffffff)).Background(crimson), "[#ffffff:#d70000:b]"},
		chosen:  mark{plain.Reverse(true), "[::r]"},
		field:   plain.Underline(true), fieldActive: plain.Bold(true).Underline(true),
		glyphs: unicodeGlyphs,
	}
	if noColor {
		l.heading = mark{plain.Bold(true), "[::b]"}
		l.good = mark{plain, ""}
		l.warn = mark{plain, ""}
		l.bad = mark{plain.Bold(true), "[::b]"}
		l.danger = mark{plain.Bold(true).Reverse(true), "[::br]"}
	}
	if ascii {
		l.glyphs = asciiGlyphs
	}
	return l
}

// tag is tview's way to write a colour with attributes.
func tag(colour tcell.Color, attributes string) string {
	return fmt.Sprintf("[#%06x::%s]", colour.Hex(), attributes)
}

// useTerminalColours has tview draw on the terminal's own background. tview reads these when it makes a widget.
func useTerminalColours() {
	tview.Styles = tview.Theme{
		PrimitiveBackgroundColor: tcell.ColorDefault, ContrastBackgroundColor: tcell.ColorDefault,
		MoreContrastBackgroundColor: tcell.ColorDefault, BorderColor: tcell.ColorDefault, TitleColor: tcell.ColorDefault,
		GraphicsColor: tcell.ColorDefault, PrimaryTextColor: tcell.ColorDefault, SecondaryTextColor: tcell.ColorDefault,
		TertiaryTextColor: tcell.ColorDefault, InverseTextColor: tcell.ColorDefault,
		ContrastSecondaryTextColor: tcell.ColorDefault,
	}
}
