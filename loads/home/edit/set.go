package edit

import (
	"errors"
	"fmt"
	"strings"

	"gopkg.in/yaml.v3"
)

func (d *document) set(path Path, value string) ([]patch, error) {
	p, err := d.find(path)
	if err != nil {
		return nil, err
	}
	if len(p.rest) == 0 {
		return d.overwrite(*p.entry, value)
	}
	return d.grow(p, leaf{value: value})
}

// overwrite puts a one-line value where an entry has another.
func (d *document) overwrite(e entry, value string) ([]patch, error) {
	switch {
	case e.begin == e.anchor && isBlank(e.value):
		if e.in.Kind == yaml.MappingNode && !e.colon {
			return []patch{{e.anchor, e.anchor, ": " + value}}, nil
		}
		return []patch{d.replace(e.anchor, e.anchor, " "+value)}, nil
	case isBlock(e.value):
		return d.overwriteLines(e, value)
	case e.value.Style&(yaml.LiteralStyle|yaml.FoldedStyle) != 0:
		header, _ := d.afterTag(e.begin)
		headerEnd := blockHeaderEnd(d.src, header)
		return []patch{d.replace(e.begin, headerEnd, value), d.cutLines(headerEnd, d.lines[d.lineAt(e.end)].next)}, nil
	case e.colon && e.begin == e.anchor:
		value = " " + value // {"a":1} need not have the space that another value needs
	}
	return []patch{d.replace(e.begin, e.end, value)}, nil
}

// overwriteLines replaces a block collection; a comment on the line of its key stays, those inside it go.
func (d *document) overwriteLines(e entry, value string) ([]patch, error) {
	_, end, err := d.extent(e)
	if err != nil {
		return nil, err
	}
	_, tagEnd := d.afterTag(e.begin)
	if d.lineAt(e.begin) != d.lineAt(e.anchor) {
		return []patch{d.replace(e.anchor, e.anchor, " "+value), d.cutLines(e.anchor, end)}, nil
	}
	if tagEnd == e.begin { // "- key: value": the collection begins behind the dash
		tagEnd = d.lineEnd(e.begin)
	}
	return []patch{d.replace(e.begin, tagEnd, value), d.cutLines(tagEnd, end)}, nil
}

// cutLines takes out the lines behind the one that holds at, up to end.
func (d *document) cutLines(at, end int) patch {
	start := d.lines[d.lineAt(at)].next
	return patch{start, max(start, end), ""}
}

// grow adds the missing steps of a path and what they end in.
func (d *document) grow(p place, l leaf) ([]patch, error) {
	keys, ok := p.rest.keys()
	if !ok {
		return nil, errors.New("an index can only lead to an item that exists; new items are inserted")
	}
	if isNull(p.node) {
		return d.fill(p, keys, l)
	}
	if p.node.Kind != yaml.MappingNode {
		return nil, fmt.Errorf("%s has no keys", kindName(p.node))
	}
	if p.entry == nil && count(p.node) == 0 {
		return d.fillRoot(habitOf(d.root).inLines(keys, l, 0))
	}
	if isFlow(p.node) {
		return d.flowInsert(p, count(p.node), inFlow(keys, l))
	}
	return d.append(p.node, func(column int) []string { return habitOf(d.root).inLines(keys, l, column) })
}

// append adds lines behind the last entry of a block collection.
func (d *document) append(n *yaml.Node, lines func(column int) []string) ([]patch, error) {
	last, err := d.entry(n, count(n)-1)
	if err != nil {
		return nil, err
	}
	_, end, err := d.extent(last)
	if err != nil {
		return nil, err
	}
	added := lines(last.column)
	if spaced, err := d.isSpaced(n); err != nil {
		return nil, err
	} else if spaced && !d.isBlankLine(d.lineAt(end-1)) {
		added = append([]string{""}, added...)
	}
	return []patch{d.addLines(end, added)}, nil
}

// isSpaced tells whether the writer parts the entries of a block collection by blank lines; the first two and the last
// two speak for all.
func (d *document) isSpaced(n *yaml.Node) (bool, error) {
	if count(n) < 2 {
		return false, nil
	}
	for _, i := range []int{1, count(n) - 1} {
		e, err := d.entry(n, i)
		if err != nil {
			return false, err
		}
		start, _, err := d.extent(e)
		if err != nil {
			return false, err
		}
		if !d.isBlankLine(d.lineAt(start) - 1) {
			return false, nil
		}
	}
	return true, nil
}

// fill writes a new collection where there is no value, ~, null, or an empty flow collection.
func (d *document) fill(p place, keys []string, l leaf) ([]patch, error) {
	h := habitOf(d.root)
	if p.entry == nil {
		return d.fillRoot(h.inLines(keys, l, 0))
	}
	e := *p.entry
	if e.column < 0 {
		text := inFlow(keys, l)
		if len(keys) > 0 {
			text = "{" + text + "}"
		}
		return d.overwrite(e, text)
	}
	column := e.column + usualIndentSpaces // "- " is two wide
	if e.in.Kind == yaml.MappingNode && len(keys) == 0 {
		column = e.column + h.sequence
	} else if e.in.Kind == yaml.MappingNode {
		column = e.column + h.mapping
	}
	_, end, err := d.extent(e)
	if err != nil {
		return nil, err
	}
	patches := []patch{d.addLines(end, h.inLines(keys, l, column))}
	if e.end > e.anchor {
		patches = append(patches, d.replace(e.anchor, e.end, ""))
	}
	return patches, nil
}

// fillRoot writes the first lines of a document without a value, or in the place of an empty one.
func (d *document) fillRoot(lines []string) ([]patch, error) {
	if d.root.Line > 0 && !isBlank(d.root) {
		return d.overwriteRoot(lines)
	}
	at := len(d.src)
	for i := len(d.lines) - 1; i >= 0; i-- {
		if string(d.text(i)) == "..." {
			at = d.lines[i].start
		}
	}
	above := d.lineAt(at)
	if d.lines[above].start == at {
		above--
	}
	if above >= 0 && d.isCommentLine(above) { // else the comment on the file would belong to its first key
		lines = append([]string{""}, lines...)
	}
	return []patch{d.addLines(at, lines)}, nil
}

func (d *document) overwriteRoot(lines []string) ([]patch, error) {
	start, err := d.begin(d.root)
	if err != nil {
		return nil, err
	}
	end, err := d.end(d.root, -1)
	if err != nil {
		return nil, err
	}
	if d.startsLine(start) {
		return []patch{{d.lines[d.lineAt(start)].start, end, strings.Join(lines, d.eol)}}, nil
	}
	return []patch{{start, end, d.eol + strings.Join(lines, d.eol)}}, nil
}
