package screens

import (
	"strings"
	"unicode"

	"github.com/gdamore/tcell/v2"
	"github.com/rivo/tview"

	"holdover/loads/visible"
	"holdover/ui/screens/draft"
)

// A form is a list of fields of the home file, one a row, under headings. tview's own form marks its fields by colour
// alone, and so shows none without colour; this one puts brackets around them. What is typed is tried with every key, its
// fault shown beside it, and it goes into the home file when the field is left.
type form struct {
	*tview.Box
	app    *app
	title  func() string
	model  *draft.Form
	field  *tview.InputField // of the active row, when it is typed and not chosen
	active int
	offset int          // first line in sight, headings counted
	height int          // lines of fields in sight at the last drawing
	turn   func(by int) // next or previous circuit; nil where there is none
	foot   string       // heads the notes; empty for the verdict on the whole home
}

func newForm(a *app, title string, fields []draft.FormField) *form {
	f := &form{Box: tview.NewBox(), app: a, title: func() string { return title }}
	f.show(fields)
	return f
}

// show puts other fields in.
func (f *form) show(fields []draft.FormField) {
	f.model = draft.NewForm(f.app.draft, fields)
	f.active, f.offset = 0, 0
	f.enter(0)
}

// enter makes row i the active one.
func (f *form) enter(i int) {
	f.active = max(0, min(i, len(f.model.Fields)-1))
	f.field = newField(f.app.look)
	inherited, _ := f.model.Inherited(f.active)
	if inherited != "" {
		f.field.SetPlaceholder("(" + visible.Text(inherited) + ")")
	}
	f.field.SetText(f.model.Text(f.active))
	at := f.active
	f.field.SetChangedFunc(func(text string) { f.model.Type(at, text) })
}

// leave puts in what is accepted and goes to another row.
func (f *form) leave(to int) {
	f.model.Commit()
	f.enter(to)
}

func (f *form) settle() bool {
	waiting := !f.model.Commit()
	f.enter(f.active)
	return waiting
}

func (f *form) keys() []hint {
	hints := []hint{keyHint(tcell.KeyTab, "Tab", "next"), keyHint(tcell.KeyBacktab, "Shift-Tab", "before")}
	if f.model.Fields[f.active].Choices != nil {
		hints = append(hints, letterHint(' ', "next choice").named("space"))
	}
	hints = append(hints, keyHint(tcell.KeyEscape, "Esc", "done"))
	if f.turn != nil {
		hints = append(hints, keyHint(tcell.KeyCtrlN, "Ctrl-N", "next circuit"), keyHint(tcell.KeyCtrlP, "Ctrl-P", "before"))
	}
	return append(hints, keyHint(tcell.KeyCtrlS, "Ctrl-S", "save"))
}

// InputHandler implements [tview.Primitive].
func (f *form) InputHandler() func(*tcell.EventKey, func(tview.Primitive)) {
	return f.WrapInputHandler(func(event *tcell.EventKey, setFocus func(tview.Primitive)) {
		switch event.Key() {
		case tcell.KeyEscape:
			f.close()
		case tcell.KeyTab, tcell.KeyDown, tcell.KeyEnter:
			f.leave(f.active + 1)
		case tcell.KeyBacktab, tcell.KeyUp:
			f.leave(f.active - 1)
		case tcell.KeyPgDn:
			f.leave(f.active + f.height - 2)
		case tcell.KeyPgUp:
			f.leave(f.active - f.height + 2)
		case tcell.KeyCtrlN:
			f.turnBy(1)
		case tcell.KeyCtrlP:
			f.turnBy(-1)
		default:
			f.typeInto(event, setFocus)
		}
	})
}

func (f *form) typeInto(event *tcell.EventKey, setFocus func(tview.Primitive)) {
	if choices := f.model.Fields[f.active].Choices; choices != nil {
		if text, ok := chosenBy(event, choices, f.shownChoice()); ok {
			f.model.Type(f.active, text)
			f.model.Commit()
		}
		return
	}
	f.field.InputHandler()(event, setFocus)
}

// shownChoice is the choice the active row stands at: its own, or the one it inherits.
func (f *form) shownChoice() string {
	if text := f.model.Text(f.active); text != "" {
		return text
	}
	inherited, _ := f.model.Inherited(f.active)
	return inherited
}

// chosenBy is the choice a key leads to: the next or previous one, one by its first letter, or with Delete none.
func chosenBy(event *tcell.EventKey, choices []string, now string) (text string, ok bool) {
	at := -1
	for i, c := range choices {
		if c == now {
			at = i
		}
	}
	step := func(by int) (string, bool) {
		if len(choices) == 0 {
			return "", false
		}
		from := at // -1 when none stands there yet: then the first is next, and the last is before
		if by < 0 {
			from = max(at, 0)
		}
		return choices[(from+by+len(choices)*max(by, 1))%len(choices)], true
	}
	switch event.Key() {
	case tcell.KeyRight:
		return step(1)
	case tcell.KeyLeft:
		return step(-1)
	case tcell.KeyBackspace, tcell.KeyBackspace2, tcell.KeyDelete:
		return "", true
	case tcell.KeyRune:
		if event.Rune() == ' ' {
			return step(1)
		}
		for i := range choices {
			c := choices[(at+1+i)%len(choices)]
			if unicode.ToLower([]rune(c + " ")[0]) == unicode.ToLower(event.Rune()) {
				return c, true
			}
		}
	}
	return "", false
}

// close puts in what is accepted and goes back; what is not accepted is first asked about.
func (f *form) close() {
	f.whenSettled(f.app.back)
}

func (f *form) turnBy(by int) {
	if f.turn != nil {
		f.whenSettled(func() { f.turn(by) })
	}
}

func (f *form) whenSettled(then func()) {
	if !f.settle() {
		then()
		return
	}
	f.app.ask("What is typed in a field marked ! is not accepted. "+f.faultText(f.firstFault()),
		choice{'m', "stay and mend it", f.mend},
		choice{'x', "give up what is typed there", func() { f.model.Drop(); f.enter(f.active); then() }},
		choice{'b', "back to the form", nil})
}

func (f *form) mend() { f.enter(f.firstFault()) }

func (f *form) firstFault() int {
	for i := range f.model.Fields {
		if f.model.Fields[i].Fault != "" {
			return i
		}
	}
	return f.active
}

// PasteHandler implements [tview.Primitive]. A field is one line, so what is pasted becomes one.
func (f *form) PasteHandler() func(string, func(tview.Primitive)) {
	if f.model.Fields[f.active].Choices != nil {
		return func(string, func(tview.Primitive)) {}
	}
	return func(text string, setFocus func(tview.Primitive)) {
		f.field.PasteHandler()(strings.Join(strings.Fields(text), " "), setFocus)
	}
}

// MouseHandler implements [tview.Primitive].
func (f *form) MouseHandler() func(tview.MouseAction, *tcell.EventMouse, func(tview.Primitive)) (bool, tview.Primitive) {
	return f.WrapMouseHandler(func(action tview.MouseAction, event *tcell.EventMouse, _ func(tview.Primitive)) (bool, tview.Primitive) {
		x, y := event.Position()
		if !f.InRect(x, y) {
			return false, nil
		}
		_, top, _, _ := f.GetInnerRect()
		row, onField := f.fieldAt(y - top - 1)
		switch {
		case wheel(action) != 0:
			f.leave(f.active + wheel(action)/3)
		case action == tview.MouseLeftClick && onField && row != f.active:
			f.leave(row)
		case onField && row == f.active && f.model.Fields[row].Choices == nil:
			f.field.MouseHandler()(action, event, func(tview.Primitive) {})
		case action == tview.MouseLeftClick && onField:
			f.typeInto(tcell.NewEventKey(tcell.KeyRune, ' ', tcell.ModNone), nil)
		}
		return true, nil
	})
}
