package screens

import (
	"errors"
	"os"
	"path/filepath"
	"strings"

	"holdover/loads/home"
	"holdover/ui/disk"
	"holdover/ui/screens/draft"
)

// This file stands between a person's work and its loss: saving and quitting.

// reopen reads the home file, or shows what is wrong with it.
func (a *app) reopen(path string) {
	d, err := draft.Open(path)
	var faults home.Faults
	if errors.As(err, &faults) {
		a.replaceAll(newFaultsPage(a, faults))
		return
	}
	if err != nil {
		faults = home.Faults{{File: path, Message: err.Error()}}
		a.replaceAll(newFaultsPage(a, faults))
		return
	}
	a.begin(d)
}

func (a *app) replaceAll(first page) {
	for len(a.stack) > 1 {
		a.back()
	}
	a.stack = nil
	a.open(first)
}

// settle puts in what is typed and accepted; true when something typed is left that is not.
func (a *app) settle() bool {
	s, ok := a.top().(settler)
	return ok && s.settle()
}

// settleAll does so on every page, a form under a question included.
func (a *app) settleAll() {
	for _, p := range a.stack {
		if s, ok := p.(settler); ok {
			s.settle()
		}
	}
}

// quit stops, after a question if something would be lost.
func (a *app) quit() {
	waiting := a.settle()
	if a.draft == nil || (!a.draft.Unsaved() && !waiting) {
		a.leave()
		return
	}
	text := "There are unsaved edits."
	if waiting {
		text += " What is typed in a field marked ! is not accepted and would not be saved."
	}
	a.ask(text,
		choice{'s', "save and quit", func() { a.save(a.leave) }},
		choice{'x', "discard the edits and quit", func() { a.draft.Discard(); a.leave() }},
		choice{'b', "back", func() { a.mend(waiting) }},
	)
}

// leave ends the session and the screens.
func (a *app) leave() {
	a.endSession()
	a.stop()
}

// endSession says to others that the home is open here no more.
func (a *app) endSession() {
	if a.draft != nil {
		a.draft.Close()
	}
}

// mend goes to the first field that is not accepted, where there is one.
func (a *app) mend(waiting bool) {
	if s, ok := a.top().(settler); ok && waiting {
		s.mend()
	}
}

// save saves and then does what is to follow, if anything.
func (a *app) save(then func()) {
	if a.draft == nil {
		return
	}
	waiting := a.settle()
	switch err := a.draft.Save(); {
	case errors.Is(err, draft.ErrNoName):
		a.saveUnder(then)
	case errors.Is(err, draft.ErrChanged):
		a.askChanged(then)
	case err != nil:
		a.saveFailed(err, then)
	default:
		a.saved(waiting, then)
	}
}

func (a *app) saved(waiting bool, then func()) {
	name := filepath.Base(a.draft.Path())
	a.say("saved in %s", name)
	if waiting {
		a.say("saved in %s, without what is typed in fields marked !", name)
	}
	if then != nil {
		then()
	}
}

func (a *app) saveFailed(err error, then func()) {
	if errors.Is(err, disk.ErrUnconfirmed) {
		a.ask(plainFault(err)+". After a power failure the old text may be back; the edits are kept in "+a.draft.Recovery()+" too.",
			choice{'g', "go on", then},
			choice{'a', "save under another name", func() { a.saveUnder(then) }},
			choice{'b', "back", nil})
		return
	}
	a.ask(strings.TrimSuffix(plainFault(err), ".")+". The file is as it was, and your edits are still here.",
		choice{'a', "save under another name", func() { a.saveUnder(then) }},
		choice{'b', "back, save nothing", nil})
}

func (a *app) askChanged(then func()) {
	text := a.draft.Path() + " was changed by something else since it was read here."
	if !a.draft.HasFile() {
		text = a.draft.Path() + " was written by something else since this home was begun."
	}
	a.ask(text,
		choice{'a', "save under another name", func() { a.saveUnder(then) }},
		choice{'t', "take the file as it is now (u brings your edits back)", func() {
			if err := a.draft.Reread(); err != nil {
				a.fail(err)
			}
		}},
		choice{'o', "overwrite it with your edits", func() {
			if err := a.draft.Overwrite(); err != nil {
				a.saveFailed(err, then)
				return
			}
			a.saved(false, then)
		}},
		choice{'b', "back, save nothing", nil},
	)
}

// saveUnder asks for a name and saves there.
func (a *app) saveUnder(then func()) {
	if a.draft == nil {
		return
	}
	p := newPrompt(a.look, "save as", a.draft.Path(), func(text string) {
		a.back()
		a.saveAs(text, false, then)
	}, a.back)
	p.field.SetPlaceholder("(" + a.draft.Offer() + ")")
	a.open(p)
}

func (a *app) saveAs(text string, overwrite bool, then func()) {
	text = strings.TrimSpace(text)
	if rest, ok := strings.CutPrefix(text, "~/"); ok {
		if home, err := os.UserHomeDir(); err == nil {
			text = home + string(filepath.Separator) + rest
		}
	}
	path := a.draft.Completed(text)
	before := a.draft.Path()
	switch err := a.draft.SaveAs(path, overwrite); {
	case errors.Is(err, draft.ErrExists):
		a.ask("There is a file "+path+" already.",
			choice{'a', "give another name", func() { a.saveUnder(then) }},
			choice{'o', "overwrite it", func() { a.saveAs(path, true, then) }},
			choice{'b', "back, save nothing", nil})
	case err != nil:
		a.saveFailed(err, then)
	default:
		a.saved(false, then)
		if then == nil && path != before {
			a.meet()
		}
	}
}
