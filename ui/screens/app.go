package screens

import (
	"fmt"
	"os"
	"sync/atomic"

	"github.com/gdamore/tcell/v2"
	"github.com/rivo/tview"
	"golang.org/x/term"

	"holdover/ui/mishap"
	"holdover/ui/screens/draft"
)

// An app is the running screens: the draft, the stack of pages, and the line that says what just happened.
type app struct {
	term  *tview.Application
	root  *tview.Flex
	pages *tview.Pages
	stack []page
	look  look
	draft *draft.Draft // nil while the file cannot be read
	path  string
	note  string // what the last key did
	wrong bool   // the note tells of a failure
	mouse bool
	small bool // the terminal is too small for the screens
	stop  func()

	was      *term.State                  // modes of the terminal before the screens; nil where there is none
	broken   chan *mishap.Mishap          // of work beside the loop
	screen   atomic.Pointer[tcell.Screen] // drawn on last
	ownStops atomic.Int32                 // stops of the whole job that we sent, and that will come back to us
	foresight
}

// A page is one screen, or a question over one.
type page interface {
	tview.Primitive
	keys() []hint
}

// An overlay is a page that leaves the one beneath in sight, and that fits into a line on a small terminal.
type overlay interface{ small() string }

// A settler is a page with something typed that may not be in the draft yet.
type settler interface {
	settle() (waiting bool) // puts in what is accepted
	mend()                  // goes to the first field that is not
}

func newApp(opts Options) *app {
	useTerminalColours()
	a := &app{term: tview.NewApplication(), pages: tview.NewPages(), look: newLook(opts.NoColor, opts.ASCII),
		path: opts.Path, mouse: opts.Mouse, broken: make(chan *mishap.Mishap, 1)}
	a.was, _ = term.GetState(int(os.Stdin.Fd()))
	a.stop = a.term.Stop
	a.foresee()
	a.root = tview.NewFlex().SetDirection(tview.FlexRow).
		AddItem(newBar(a.head), 1, 0, false).
		AddItem(a.pages, 0, 1, true).
		AddItem(newBar(a.noteLine), 1, 0, false).
		AddItem(newFooter(a), 1, 0, false)
	a.term.SetRoot(a.root, true).EnableMouse(opts.Mouse).EnablePaste(true)
	a.term.SetInputCapture(a.capture).SetBeforeDrawFunc(a.beforeDraw)
	if opts.Screen != nil {
		a.term.SetScreen(opts.Screen)
	}
	return a
}

// open puts a page on top.
func (a *app) open(p page) {
	a.stack = append(a.stack, p)
	name := fmt.Sprint(len(a.stack))
	a.pages.AddPage(name, p, true, true)
	if _, over := p.(overlay); !over {
		a.pages.SwitchToPage(name)
	}
	a.term.SetFocus(p)
}

// back takes the top page off; the first stays.
func (a *app) back() {
	last := len(a.stack)
	if last < 2 {
		return
	}
	_, over := a.stack[last-1].(overlay)
	a.pages.RemovePage(fmt.Sprint(last))
	a.stack = a.stack[:last-1]
	if !over {
		a.pages.SwitchToPage(fmt.Sprint(last - 1))
	}
	a.term.SetFocus(a.top())
}

// visit shows a page right above the first one.
func (a *app) visit(p page) {
	for len(a.stack) > 1 {
		a.back()
	}
	a.open(p)
}

func (a *app) top() page { return a.stack[len(a.stack)-1] }

// ask puts a question; each choice first closes it.
func (a *app) ask(text string, choices ...choice) {
	for i, c := range choices {
		choices[i].take = func() {
			a.back()
			if c.take != nil {
				c.take()
			}
		}
	}
	a.open(newQuestion(a.look, text, choices...))
}

// say notes what a key did.
func (a *app) say(format string, args ...any) { a.note, a.wrong = fmt.Sprintf(format, args...), false }

// fail notes why a key could not do what it is for.
func (a *app) fail(err error) { a.note, a.wrong = plainFault(err), true }

// capture sees every key before the pages do.
func (a *app) capture(event *tcell.EventKey) *tcell.EventKey {
	if event.Key() == tcell.KeyCtrlZ {
		a.term.Suspend(a.stopJob)
		return nil
	}
	a.note = ""
	_, over := a.top().(overlay)
	switch {
	case over && event.Key() == tcell.KeyCtrlC:
		return tcell.NewEventKey(tcell.KeyEscape, 0, tcell.ModNone)
	case over:
		return event
	case event.Key() == tcell.KeyCtrlC, a.small && !a.typing() && event.Rune() == 'q':
		a.quit()
	case event.Key() == tcell.KeyCtrlS, a.small && !a.typing() && event.Rune() == 's':
		a.save(nil)
	case a.small:
	default:
		return event
	}
	return nil
}

// typing says whether letters are text on the top page: then none may save or quit because the terminal has become too small.
func (a *app) typing() bool {
	switch a.top().(type) {
	case settler, *picker:
		return true
	}
	return false
}

// common handles the keys that mean the same on every screen that takes no text.
func (a *app) common(event *tcell.EventKey) bool {
	if event.Key() == tcell.KeyEscape {
		a.back()
		return true
	}
	if event.Key() != tcell.KeyRune {
		return false
	}
	for _, key := range a.commonKeys() {
		if key.letter == event.Rune() {
			key.do()
			return true
		}
	}
	return false
}

// A commonKey is a letter, what it does in words, and the doing.
type commonKey struct {
	letter rune
	label  string
	do     func()
}

func (a *app) commonKeys() []commonKey {
	screens := []commonKey{
		{'o', "options side by side, reasons, why not", func() { a.visit(newOptionsPage(a)) }},
		{'p', "picture of the run: battery and generator, hour by hour", func() { a.visit(newRunPage(a)) }},
		{'i', "outlook: what would change it, costs by length, chances", func() { a.visit(newOutlookPage(a)) }},
		{'f', "figures, and the working of each", func() { a.visit(newFiguresPage(a)) }},
		{'h', "draw hour by hour", func() { a.visit(newHoursPage(a)) }},
		{'t', "turns: who is on when, and how long each can wait", func() { a.visit(newTurnsPage(a)) }},
		{'g', "gear: whether units will do, by their spec sheets", func() { a.visit(newFitPage(a)) }},
		{'c', "cautions", func() { a.visit(newCautionsPage(a)) }},
		{'T', "transfer scope: the electrician's job sheet", func() { a.visit(newScopePage(a)) }},
		{'w', "where and when: home, site, outage", func() { a.visit(newForm(a, "where and when", placeFields())) }},
		{'l', "limits and assumptions", func() { a.visit(newForm(a, "limits and assumptions", termsFields())) }},
	}
	if a.draft == nil {
		screens = nil
	}
	return append(screens,
		commonKey{'u', "undo", a.undo}, commonKey{'r', "redo", a.redo},
		commonKey{'s', "save", func() { a.save(nil) }}, commonKey{'S', "save under another name", func() { a.saveUnder(nil) }},
		commonKey{'N', "new: one appliance, or a whole house", a.startNew},
		commonKey{'m', "mouse on or off (off: the terminal selects text)", a.toggleMouse},
		commonKey{'?', "all keys", func() { a.visit(newHelpPage(a)) }},
		commonKey{'q', "quit", a.quit},
	)
}

func (a *app) undo() {
	if a.draft == nil || !a.draft.Undo() {
		a.say("nothing to undo")
		return
	}
	a.say("one step undone; r takes it back")
}

func (a *app) redo() {
	if a.draft == nil || !a.draft.Redo() {
		a.say("nothing to redo")
		return
	}
	a.say("redone")
}

func (a *app) toggleMouse() {
	a.mouse = !a.mouse
	a.term.EnableMouse(a.mouse)
	if a.mouse {
		a.say("mouse on; m turns it off, so that the terminal selects text")
	} else {
		a.say("mouse off; the terminal selects text")
	}
}
