package screens

import (
	"github.com/gdamore/tcell/v2"
	"github.com/rivo/tview"

	"holdover/ui/text"
)

// A prompt asks for one line of text, in a strip at the foot of the screen.
type prompt struct {
	*tview.Box
	look  look
	label string
	field *tview.InputField
	take  func(text string) // Enter
	leave func()            // Esc
}

func newPrompt(l look, label, text string, take func(string), leave func()) *prompt {
	return &prompt{Box: tview.NewBox(), look: l, label: label, take: take, leave: leave,
		field: newField(l).SetText(text)}
}

// newField makes an input field that shows itself without colour.
func newField(l look) *tview.InputField {
	return tview.NewInputField().SetFieldStyle(l.fieldActive).SetPlaceholderStyle(l.quiet.style)
}

func (p *prompt) keys() []hint {
	return []hint{keyHint(tcell.KeyEnter, "Enter", "go on"), keyHint(tcell.KeyEscape, "Esc", "back")}
}

func (p *prompt) small() string { return p.label + ": " + p.field.GetText() }

// Draw implements [tview.Primitive].
func (p *prompt) Draw(screen tcell.Screen) {
	x, y, width, height := p.GetRect()
	printLine(screen, p.look.rule("", width), x, y+height-2, width)
	label := p.look.strong.on(shown(p.label)) + " "
	at := text.Cells(p.label) + 1
	printLine(screen, p.look.glyphs.fit("", width), x, y+height-1, width)
	printLine(screen, label, x, y+height-1, width)
	if p.HasFocus() {
		p.field.Focus(nil)
	}
	p.field.SetRect(x+at, y+height-1, width-at, 1)
	p.field.Draw(seenScreen{screen})
}

// InputHandler implements [tview.Primitive].
func (p *prompt) InputHandler() func(*tcell.EventKey, func(tview.Primitive)) {
	return p.WrapInputHandler(func(event *tcell.EventKey, setFocus func(tview.Primitive)) {
		switch event.Key() {
		case tcell.KeyEnter:
			p.take(p.field.GetText())
		case tcell.KeyEscape:
			p.leave()
		default:
			p.field.InputHandler()(event, setFocus)
		}
	})
}

// PasteHandler implements [tview.Primitive].
func (p *prompt) PasteHandler() func(string, func(tview.Primitive)) { return p.field.PasteHandler() }

// MouseHandler implements [tview.Primitive]. Clicks outside wait for an answer.
func (p *prompt) MouseHandler() func(tview.MouseAction, *tcell.EventMouse, func(tview.Primitive)) (bool, tview.Primitive) {
	return p.WrapMouseHandler(func(action tview.MouseAction, event *tcell.EventMouse, _ func(tview.Primitive)) (bool, tview.Primitive) {
		p.field.MouseHandler()(action, event, func(tview.Primitive) {})
		return true, nil
	})
}
