package edit

import (
	"bytes"
	"errors"
	"fmt"
	"strings"

	"gopkg.in/yaml.v3"
)

func (d *document) insert(path Path, index int, item []Entry) ([]patch, error) {
	p, err := d.find(path)
	if err != nil {
		return nil, err
	}
	length := 0
	if len(p.rest) == 0 && !isNull(p.node) {
		if p.node.Kind != yaml.SequenceNode {
			return nil, fmt.Errorf("%s cannot take items", kindName(p.node))
		}
		length = count(p.node)
	}
	if index < 0 || index > length {
		return nil, fmt.Errorf("index %d is outside 0 to %d, where a new item can go", index, length)
	}
	l := leaf{item: item, isItem: true}
	switch {
	case len(p.rest) > 0:
		return d.grow(p, l)
	case isNull(p.node) || length == 0 && d.isBare(p):
		return d.fill(p, nil, l)
	case isFlow(p.node):
		return d.flowInsert(p, index, flowItem(item))
	case index == length:
		return d.append(p.node, func(column int) []string { return itemLines(item, column) })
	}
	return d.insertBefore(p.node, index, item)
}

// isBare tells whether an empty collection in block surroundings has nothing inside, so that it can become lines.
func (d *document) isBare(p place) bool {
	if p.entry == nil {
		return true
	}
	text := d.src[p.entry.begin:p.entry.end]
	return p.entry.column >= 0 && !bytes.ContainsAny(text, "\r\n#!")
}

func (d *document) insertBefore(n *yaml.Node, index int, item []Entry) ([]patch, error) {
	e, err := d.entry(n, index)
	if err != nil {
		return nil, err
	}
	start, _, err := d.extent(e)
	if err != nil {
		return nil, err
	}
	lines := itemLines(item, e.column)
	if d.isInline(e) {
		text := strings.TrimLeft(strings.Join(lines, d.eol), " ")
		return []patch{{start, start, text + d.eol + spaces(e.column)}}, nil
	}
	spaced, err := d.isSpaced(n)
	if err != nil {
		return nil, err
	}
	if spaced {
		lines = append(lines, "")
	}
	return []patch{d.addLines(start, lines)}, nil
}

func (d *document) move(path Path, from, to int) ([]patch, error) {
	p, err := d.find(path)
	switch {
	case err != nil:
		return nil, err
	case len(p.rest) > 0 || p.node.Kind != yaml.SequenceNode:
		return nil, errors.New("there is no sequence here")
	}
	for _, index := range []int{from, to} {
		if _, err := indexIn(p.node, index); err != nil {
			return nil, err
		}
	}
	switch {
	case from == to:
		return nil, nil
	case isFlow(p.node):
		return d.flowMove(p.node, from, to)
	}
	return d.moveLines(p.node, from, to)
}
