// Package edit answers one question: how is one value of a YAML text changed while every other byte stays as its
// writer left it?
//
// A home file is written by hand and by the screens alike, so comments, order, blank lines, alignment, quoting and line
// ends must survive an edit. An encoder writes the whole text anew and loses them. This package asks the YAML parser only
// where things stand, then cuts and pastes in the source text: see [Set], [Delete], [Insert] and [Move]; [Quote] writes a
// string as a scalar.
//
// Every edit is checked before it is handed back: the new text is parsed again and must hold exactly the tree that was
// asked for, else the edit is an error and nothing is returned. In a long text, items of long sequences that lie far from
// the edit are left out of both parses (see [thin]); they are copied byte for byte.
//
// Not accepted, always as an error: anchors and aliases, more than one document, "? " keys, text that is not UTF-8.
package edit

import (
	"errors"
	"fmt"
)

// A Path leads to a node: string keys into mappings, int indexes (from 0) into sequences.
type Path []any

// An Entry is one key of a new item. Value is a YAML fragment on one line, quoted where it needs to be (see [Quote]).
type Entry struct{ Key, Value string }

// Set puts value at path and returns the new text. The value is a YAML fragment on one line: a scalar or a flow
// collection, quoted where it needs to be. A last key that its mapping does not have yet is added after the last entry,
// in the mapping's own style; missing mappings above it are made. A comment behind the old value stays.
func Set(src []byte, path Path, value string) ([]byte, error) {
	if len(path) == 0 {
		return nil, errors.New("the path is empty")
	}
	return run(src, edit{verb: set, path: path, value: value})
}

// Delete takes out a key with its value, or an item of a sequence, together with the comment lines directly above it
// and the comment behind it. The last entry of a collection leaves {} or [].
func Delete(src []byte, path Path) ([]byte, error) {
	if len(path) == 0 {
		return nil, errors.New("the path is empty")
	}
	return run(src, edit{verb: remove, path: path})
}

// Insert adds an item to the sequence at path, before the item that now has this index; index 0 to length, and length
// appends. A sequence that is missing, null or empty is made.
func Insert(src []byte, path Path, index int, item []Entry) ([]byte, error) {
	return run(src, edit{verb: insert, path: path, from: index, item: item})
}

// Move takes the item at index from of the sequence at path, with its comments, to index to, counted after it was taken
// out. Blank lines travel with the item; a comment that stands alone between blank lines stays where it is.
func Move(src []byte, path Path, from, to int) ([]byte, error) {
	return run(src, edit{verb: move, path: path, from: from, to: to})
}

type verb int

const (
	set verb = iota
	remove
	insert
	move
)

// edit is what was asked for, in one value, so that it can be done twice: on the text and on the tree.
type edit struct {
	verb  verb
	path  Path
	value string
	from  int // insert: where; move: whence
	to    int
	item  []Entry
}

// longTextBytes is the size from which leaving far items out pays; a full parse of this much takes a few milliseconds.
const longTextBytes = 16 << 10

func run(src []byte, e edit) ([]byte, error) {
	if err := e.check(); err != nil {
		return nil, err
	}
	if len(src) >= longTextBytes {
		if out, ok := runThin(src, e); ok {
			return out, nil
		}
	}
	patches, err := patchesFor(src, e, nil)
	if err != nil {
		return nil, err
	}
	return apply(src, patches), nil
}

// runThin does the edit on a shortened text. Not ok says nothing about the edit: the caller then does it in full, which
// also gives errors with the line numbers and counts of the whole text.
func runThin(src []byte, e edit) (out []byte, ok bool) {
	t, ok := thin(src, e)
	if !ok {
		return nil, false
	}
	patches, err := patchesFor(t.text, t.edit, t.seams)
	if err != nil {
		return nil, false
	}
	for i := range patches {
		patches[i] = t.inFull(patches[i])
	}
	return apply(src, patches), true
}

// patchesFor works out the cuts and pastes of an edit and proves them on the tree.
func patchesFor(src []byte, e edit, seams []seam) ([]patch, error) {
	d, err := read(src)
	if err != nil {
		return nil, err
	}
	if err := d.checkItems(seams); err != nil {
		return nil, err
	}
	patches, err := d.write(e)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", e.path, err)
	}
	patches = tidy(patches)
	after, err := read(apply(src, patches))
	if err != nil {
		return nil, fmt.Errorf("%s: the edit would spoil the text: %w", e.path, err)
	}
	wanted, err := e.onTree(d.root)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", e.path, err)
	}
	if !equal(after.root, wanted) {
		return nil, fmt.Errorf("%s: the text at this place cannot be edited without changing something else", e.path)
	}
	if err := after.checkSeams(seams, patches); err != nil {
		return nil, err
	}
	return patches, nil
}

func (d *document) write(e edit) ([]patch, error) {
	switch e.verb {
	case set:
		return d.set(e.path, e.value)
	case remove:
		return d.remove(e.path)
	case insert:
		return d.insert(e.path, e.from, e.item)
	default:
		return d.move(e.path, e.from, e.to)
	}
}
