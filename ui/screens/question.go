package screens

import (
	"strings"
	"unicode"

	"github.com/gdamore/tcell/v2"
	"github.com/rivo/tview"

	"holdover/ui/document"
)

// A question stands over a screen until one of its choices is taken: by its letter, by the arrows and Enter, or by a
// click. Esc takes the last choice, which is always the one that changes nothing.
type question struct {
	*tview.Box
	look    look
	text    string
	choices []choice
	at      int
	top     int // row of the first choice at the last drawing
}

// A choice is one answer.
type choice struct {
	letter rune
	label  string
	take   func()
}

func newQuestion(l look, text string, choices ...choice) *question {
	return &question{Box: tview.NewBox(), look: l, text: text, choices: choices}
}

// keys say what Enter would take now, in short.
func (q *question) keys() []hint {
	now, _, _ := strings.Cut(q.choices[q.at].label, ":")
	away, _, _ := strings.Cut(q.choices[len(q.choices)-1].label, ":")
	return []hint{keyHint(tcell.KeyEnter, "Enter", now), keyHint(tcell.KeyDown, "arrows", "choose"), keyHint(tcell.KeyEscape, "Esc", away)}
}

// small is the question in one line, for a terminal too small for more.
func (q *question) small() string {
	line := q.text
	for _, c := range q.choices {
		line += "  " + string(c.letter) + " " + c.label
	}
	return line
}

// Draw implements [tview.Primitive]. What lies beneath stays in sight.
func (q *question) Draw(screen tcell.Screen) {
	x, y, width, height := q.GetRect()
	inner := min(64, width-4)
	text := q.look.say(document.Plain, q.text, inner)
	boxHeight := len(text) + len(q.choices) + 4
	left, top := x+(width-inner-4)/2, y+max(0, (height-boxHeight)/2)
	for row := range boxHeight {
		side := q.look.quiet.on(q.look.glyphs.Side)
		printLine(screen, side+q.look.glyphs.fit("", inner+2)+side, left, top+row, inner+4)
	}
	for _, row := range []int{0, boxHeight - 1} {
		printLine(screen, q.look.rule("", inner+4), left, top+row, inner+4)
	}
	for i, line := range text {
		printLine(screen, line, left+2, top+1+i, inner)
	}
	q.top = top + 2 + len(text)
	for i, c := range q.choices {
		line := q.look.glyphs.fit(string(c.letter)+"  "+c.label, inner)
		if i == q.at {
			line = q.look.chosen.on(line)
		}
		printLine(screen, line, left+2, q.top+i, inner)
	}
}

// InputHandler implements [tview.Primitive].
func (q *question) InputHandler() func(*tcell.EventKey, func(tview.Primitive)) {
	return q.WrapInputHandler(func(event *tcell.EventKey, _ func(tview.Primitive)) {
		switch event.Key() {
		case tcell.KeyUp, tcell.KeyBacktab, tcell.KeyLeft:
			q.at = (q.at + len(q.choices) - 1) % len(q.choices)
		case tcell.KeyDown, tcell.KeyTab, tcell.KeyRight:
			q.at = (q.at + 1) % len(q.choices)
		case tcell.KeyEnter:
			q.choices[q.at].take()
		case tcell.KeyEscape:
			q.choices[len(q.choices)-1].take()
		case tcell.KeyRune:
			for _, c := range q.choices {
				if unicode.ToLower(event.Rune()) == c.letter {
					c.take()
					return
				}
			}
		}
	})
}

// MouseHandler implements [tview.Primitive]. Clicks beside the choices do nothing.
func (q *question) MouseHandler() func(tview.MouseAction, *tcell.EventMouse, func(tview.Primitive)) (bool, tview.Primitive) {
	return q.WrapMouseHandler(func(action tview.MouseAction, event *tcell.EventMouse, _ func(tview.Primitive)) (bool, tview.Primitive) {
		_, y := event.Position()
		if at := y - q.top; action == tview.MouseLeftClick && at >= 0 && at < len(q.choices) {
			q.choices[at].take()
		}
		return true, nil
	})
}
