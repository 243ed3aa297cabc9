package edit

import (
	"bytes"
	"strings"

	"gopkg.in/yaml.v3"
)

// entry is one key with its value, or one item, and where they stand in the text (byte offsets).
type entry struct {
	in     *yaml.Node // the collection
	index  int
	value  *yaml.Node
	column int // of the block collection, in characters from 0; -1 in a flow collection
	start  int // of the key, the dash, or the flow item
	anchor int // behind the colon or the dash, where a value may follow
	colon  bool
	begin  int // of the value, its tag included; the anchor where there is no text
	end    int // of the value
}

// entry finds the entry of a collection with this index.
func (d *document) entry(n *yaml.Node, index int) (entry, error) {
	e := entry{in: n, index: index, column: -1}
	var err error
	switch {
	case n.Kind == yaml.MappingNode:
		err = d.findKey(&e)
	case isFlow(n):
		e.value = n.Content[index]
		e.start, err = d.begin(e.value)
		e.anchor = e.start
	default:
		err = d.findDash(&e)
	}
	if err != nil {
		return e, err
	}
	if isBlank(e.value) {
		e.begin, e.end = e.anchor, e.anchor
		return e, nil
	}
	if e.begin, err = d.begin(e.value); err != nil {
		return e, err
	}
	e.end, err = d.end(e.value, e.column)
	return e, err
}

func (d *document) findKey(e *entry) error {
	key := e.in.Content[2*e.index]
	e.value = e.in.Content[2*e.index+1]
	if !isFlow(e.in) {
		e.column = e.in.Content[0].Column - 1
	}
	var err error
	if e.start, err = d.begin(key); err != nil {
		return err
	}
	if d.hasQuestionMark(e.start) {
		return errUnknownForm
	}
	keyEnd, err := d.end(key, e.column)
	if err != nil {
		return err
	}
	e.anchor = keyEnd
	if at := d.skipGap(keyEnd); at < len(d.src) && d.src[at] == ':' {
		e.anchor, e.colon = at+1, true
	} else if e.column >= 0 {
		return errUnknownForm
	}
	return nil
}

// hasQuestionMark tells whether a key is written in the long form "? key".
func (d *document) hasQuestionMark(key int) bool {
	before := bytes.TrimRight(d.src[:key], " \t")
	return bytes.HasSuffix(before, []byte("?"))
}

// findDash looks for the dash of an item upwards from its value, which may stand some lines below it.
func (d *document) findDash(e *entry) error {
	e.value = e.in.Content[e.index]
	first, err := d.begin(e.in)
	if err != nil {
		return err
	}
	first, _ = d.afterTag(first)
	e.column = d.column(first)
	e.start = first
	if e.index > 0 {
		if e.start, err = d.dashAbove(e.value.Line, e.column, first); err != nil {
			return err
		}
	}
	if e.start == len(d.src) || d.src[e.start] != '-' {
		return errUnknownForm
	}
	e.anchor = e.start + 1
	return nil
}

func (d *document) dashAbove(lineNumber, column, first int) (int, error) {
	for i := lineNumber - 1; i >= 0 && i < len(d.lines) && d.lines[i].start > first; i-- {
		t := d.text(i)
		if d.indent(i) != column || len(t) <= column || t[column] != '-' {
			continue
		}
		if len(t) == column+1 || strings.IndexByte(" \t", t[column+1]) >= 0 {
			return d.lines[i].start + column, nil
		}
	}
	return 0, errUnknownForm
}

// isInline tells whether a block entry shares its first line with a dash before it: "- key: value".
func (d *document) isInline(e entry) bool { return !d.startsLine(e.start) }

// extent returns the text that belongs to a block entry: from the comment lines directly above it, or from its first
// character if it is inline, to the start of the line behind it. Deeper comment lines directly below are part of it:
// they go on with the comment behind the value, or stand inside the value's own indentation.
func (d *document) extent(e entry) (start, end int, err error) {
	start = e.start
	if !d.isInline(e) {
		if start, err = d.headStart(e); err != nil {
			return 0, 0, err
		}
	}
	last := d.lineAt(e.end)
	for last+1 < len(d.lines) && d.isCommentLine(last+1) && d.indent(last+1) > e.column {
		last++
	}
	return start, d.lines[last].next, nil
}

func (d *document) headStart(e entry) (int, error) {
	floor := -1
	if e.index > 0 {
		before, err := d.entry(e.in, e.index-1)
		if err != nil {
			return 0, err
		}
		floor = d.lineAt(before.end)
	}
	first := d.lineAt(e.start)
	for first-1 > floor && d.isCommentLine(first-1) && (e.column < 0 || d.indent(first-1) <= e.column) {
		first--
	}
	return d.lines[first].start, nil
}

// place is where a path leads as far as the text has it.
type place struct {
	node  *yaml.Node
	entry *entry // that holds the node; nil for the root
	rest  Path   // steps that the text does not have
}

func (d *document) find(path Path) (place, error) {
	p := place{node: d.root}
	for i, step := range path {
		if isNull(p.node) {
			p.rest = path[i:]
			break
		}
		index, err := indexIn(p.node, step)
		if err != nil {
			return p, err
		}
		if index < 0 {
			p.rest = path[i:]
			break
		}
		e, err := d.entry(p.node, index)
		if err != nil {
			return p, err
		}
		p.entry, p.node = &e, e.value
	}
	return p, nil
}
