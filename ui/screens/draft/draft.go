// Package draft answers: what is being edited, is it saved, and how does one take a step back?
//
// A [Draft] is the text of a home file with the home that follows from it. [Open] reads a file and [New] starts from a text
// without one; [Draft.Apply] and its neighbours change it, and every change is a splice on the text, so comments and order
// survive. A change that would make the file faulty is refused and changes nothing; a [Form] keeps what was typed until it
// is good. No change waits for a plan: [Draft.Result] is the plan as far as somebody has worked it out and handed it to
// [Draft.Take]. Nothing here knows a widget or a goroutine.
package draft

import (
	"context"
	"path/filepath"

	"gopkg.in/yaml.v3"

	"holdover/loads/home"
	"holdover/planner"
	"holdover/ui/screens/session"
)

// A Draft is one home file being edited. Its text always reads without fault.
type Draft struct {
	path   string // where it is saved; empty until it has a name
	title  string // what messages call it until then; empty for the demo home
	text   []byte
	saved  []byte // what the file held when last read or written; nil when there is no file
	past   [][]byte
	future [][]byte

	home   *home.Home
	result *planner.Result // of home; nil until somebody asks for it
	tree   *yaml.Node

	session       *session.Session
	around        session.Around // what other sessions had here when it was opened
	recoveryError error
}

// Open reads the home file at path. The error is a [home.Faults] when the file cannot be read or is faulty; such a file
// is never written by this package.
func Open(path string) (*Draft, error) {
	text, err := home.TextOf(path)
	if err != nil {
		return nil, err
	}
	d := &Draft{path: path, saved: text}
	if err := d.settle(text); err != nil {
		return nil, err
	}
	d.meet(session.At(path))
	return d, nil
}

// New starts from a text that has no file yet, such as the demo home.
func New(text []byte) (*Draft, error) {
	d := &Draft{}
	if err := d.settle(text); err != nil {
		return nil, err
	}
	d.saved = text
	d.meet(session.Without("demo"))
	return d, nil
}

// settle makes text the current one, if it is good.
func (d *Draft) settle(text []byte) error {
	house, tree, err := home.ReadTree(text, d.Name())
	if err != nil {
		return err
	}
	d.text, d.home, d.tree, d.result = text, house, tree, nil
	return nil
}

// Name is what messages call the file.
func (d *Draft) Name() string {
	switch {
	case d.path == "" && d.title != "":
		return d.title
	case d.path == "":
		return "demo home"
	}
	return filepath.Base(d.path)
}

// Path is where the home is saved, empty while it has no name yet.
func (d *Draft) Path() string { return d.path }

// HasFile says whether there was a file at the path when it was last read or written.
func (d *Draft) HasFile() bool { return d.path != "" && d.saved != nil }

// Text is the home file as it would be saved. It must not be changed.
func (d *Draft) Text() []byte { return d.text }

// Home is the home as read from the text.
func (d *Draft) Home() *home.Home { return d.home }

// Result is the plan of the home as far as it is there; see [planner.Result.Has]. The demand always is.
func (d *Draft) Result() *planner.Result {
	if d.result == nil {
		d.result, _ = planner.Plan(context.Background(), d.home, planner.Want{})
	}
	return d.result
}

// Take makes r the plan of the home. One of another home, such as this one before an edit, is left.
func (d *Draft) Take(r *planner.Result) {
	if r.Home == d.home {
		d.result = r
	}
}

// Unsaved says whether the text differs from the file.
func (d *Draft) Unsaved() bool { return string(d.text) != string(d.saved) }
