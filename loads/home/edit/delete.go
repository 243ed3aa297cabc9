package edit

import (
	"bytes"
	"errors"
	"fmt"

	"gopkg.in/yaml.v3"
)

func (d *document) remove(path Path) ([]patch, error) {
	last := len(path) - 1
	p, err := d.find(path[:last])
	if err != nil {
		return nil, err
	}
	if len(p.rest) > 0 || isNull(p.node) {
		return nil, errors.New("there is nothing here to delete")
	}
	index, err := indexIn(p.node, path[last])
	if err != nil {
		return nil, err
	}
	if index < 0 {
		return nil, fmt.Errorf("there is no key %q to delete", path[last])
	}
	if isFlow(p.node) {
		return d.flowRemove(p, index)
	}
	item, err := d.stretch(p.node, index)
	if err != nil {
		return nil, err
	}
	switch {
	case count(p.node) == 1:
		return d.empty(p, item)
	case d.isInline(item.entry):
		next, err := d.stretch(p.node, index+1)
		return d.cutInline(item, next), err
	}
	return []patch{{item.from, item.to, ""}}, nil
}

// cutInline takes out an entry that stands behind a dash. The next one takes its place there, unless comments or blank
// lines stand between: then the dash keeps a line of its own.
func (d *document) cutInline(item, next stretch) []patch {
	if d.lineAt(next.start) == d.lineAt(item.to) {
		return []patch{{item.from, next.start, ""}}
	}
	at := len(bytes.TrimRight(d.src[:item.from], " "))
	return []patch{{at, item.to, d.eol}}
}

// empty takes out the only entry of a block collection and leaves {} or [].
func (d *document) empty(p place, item stretch) ([]patch, error) {
	text := "{}"
	if p.node.Kind == yaml.SequenceNode {
		text = "[]"
	}
	lineEnd := string(d.src[item.to-breakBefore(d.src, item.to) : item.to])
	if p.entry == nil || d.isInline(item.entry) {
		return []patch{{item.from, item.to, text + lineEnd}}, nil
	}
	_, at := d.afterTag(p.entry.begin)
	if d.lineAt(at) != d.lineAt(p.entry.anchor) {
		at = p.entry.anchor
	}
	return []patch{d.replace(at, at, " "+text), {item.from, item.to, ""}}, nil
}
