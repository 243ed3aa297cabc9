package draft

import (
	"fmt"
	"slices"

	"gopkg.in/yaml.v3"

	"holdover/loads/home"
	"holdover/loads/home/edit"
)

// A Path leads to a value of the home file: keys and indexes, such as {"circuits", 2, "running"}.
type Path = edit.Path

// A Change gives one field of the home file a value as a person types it. An empty text takes the key out, so that the
// profile's or the assumed value holds again.
type Change struct {
	Path Path
	Text string
}

// stepsBack bounds the memory of undo: with a thousand circuits a text is about 300 kB.
const stepsBack = 100

// Apply makes changes as one step, or none of them: the error is a [home.Faults] when the file would be faulty.
func (d *Draft) Apply(changes ...Change) error {
	text, err := d.with(changes)
	if err != nil {
		return err
	}
	return d.commit(text)
}

// with gives the text as changes would make it.
func (d *Draft) with(changes []Change) ([]byte, error) {
	text := d.text
	for _, c := range append(slices.Clone(changes), d.renames(changes)...) {
		current, given := d.Typed(c.Path)
		if given == (c.Text != "") && current == c.Text {
			continue
		}
		var err error
		if text, err = d.edit(text, c); err != nil {
			return nil, err
		}
	}
	return text, nil
}

func (d *Draft) edit(text []byte, c Change) ([]byte, error) {
	if c.Text == "" {
		return edit.Delete(text, emptied(text, c.Path))
	}
	value, err := fragment(c.Path[len(c.Path)-1], c.Text)
	if err != nil {
		return nil, home.Faults{{File: d.Name(), Field: FieldName(c.Path), Message: err.Error()}}
	}
	return edit.Set(text, c.Path, value)
}

// emptied widens the deletion of the last key of a circuit's needs or heater to the whole of it: an empty heater would
// still say that there is one.
func emptied(text []byte, path Path) Path {
	var doc yaml.Node
	if len(path) < 4 || yaml.Unmarshal(text, &doc) != nil {
		return path
	}
	parent := path[:len(path)-1]
	if n := find(doc.Content[0], parent); n != nil && len(n.Content) == 2 {
		return parent
	}
	return path
}

// renames carries a circuit's new name to the circuit that shares its neutral.
func (d *Draft) renames(changes []Change) []Change {
	var more []Change
	for _, c := range changes {
		if len(c.Path) != 3 || c.Path[0] != "circuits" || c.Path[2] != "name" || c.Text == "" {
			continue
		}
		old := d.home.Circuits[c.Path[1].(int)].Name
		for _, i := range d.sharing(old) {
			more = append(more, Change{Path{"circuits", i, "shares_neutral_with"}, c.Text})
		}
	}
	return more
}

// sharing lists the circuits that name another as the one they share a neutral with.
func (d *Draft) sharing(name string) []int {
	var at []int
	for i, c := range d.home.Circuits {
		if c.SharesWith == name {
			at = append(at, i)
		}
	}
	return at
}

// commit makes text the current one as a step that can be undone.
func (d *Draft) commit(text []byte) error {
	before := d.text
	if string(text) == string(before) {
		return nil
	}
	if err := d.settle(text); err != nil {
		return err
	}
	d.past = append(d.past, before)
	if len(d.past) > stepsBack {
		d.past = slices.Delete(d.past, 0, 1)
	}
	d.future = nil
	d.keepRecovery()
	return nil
}

// Undo goes one step back; false when there is none.
func (d *Draft) Undo() bool { return d.step(&d.past, &d.future) }

// Redo takes back an undo; false when there is none.
func (d *Draft) Redo() bool { return d.step(&d.future, &d.past) }

func (d *Draft) step(from, to *[][]byte) bool {
	if len(*from) == 0 {
		return false
	}
	last := len(*from) - 1
	before, text := d.text, (*from)[last]
	if err := d.settle(text); err != nil {
		panic("draft: a text that was good no longer reads: " + err.Error())
	}
	*from = (*from)[:last]
	*to = append(*to, before)
	d.keepRecovery()
	return true
}

// FieldName writes a path as faults name it, such as "circuits[2].running".
func FieldName(path Path) string {
	text := ""
	for _, step := range path {
		switch step := step.(type) {
		case int:
			text += fmt.Sprintf("[%d]", step)
		case string:
			if text != "" {
				text += "."
			}
			text += step
		}
	}
	return text
}
