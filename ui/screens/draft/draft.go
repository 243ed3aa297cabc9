// Package draft answers: what is being edited, is it saved, and how does one take a step back?
//
// A [Draft] is the text of a home file with the home and the plan that follow from it. [Open] reads a file and [New]
// starts from a text without one; [Draft.Apply] and its neighbours change it, and every change is a splice on the text,
// so comments and order survive. A change that would make the file faulty is refused and changes nothing; a [Form]
// keeps what was typed until it is good. Nothing here knows a widget.
package draft

import (
	"context"
	"path/filepath"

	"gopkg.in/yaml.v3"

	"holdover/loads"
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

	home   *loads.Home
	result *planner.Result
	tree   *yaml.Node

	session       *session.Session
	around        session.Around // what other sessions had here when it was opened
	recoveryError error
}

// Open reads the home file at path. The error is a [loads.Faults] when the file cannot be read or is faulty; such a file
// is never written by this package.
func Open(path string) (*Draft, error) {
	text, err := loads.TextOf(path)
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
	home, err := loads.Read(text, d.Name())
	if err != nil {
		return err
	}
	var doc yaml.Node
	if err := yaml.Unmarshal(text, &doc); err != nil {
		return err
	}
	d.text, d.home, d.tree = text, home, doc.Content[0]
	d.result, _ = planner.Plan(context.Background(), home, planner.Everything())
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
func (d *Draft) Home() *loads.Home { return d.home }

// Result is the plan of the home.
func (d *Draft) Result() *planner.Result { return d.result }

// Unsaved says whether the text differs from the file.
func (d *Draft) Unsaved() bool { return string(d.text) != string(d.saved) }
