package edit

import (
	"bytes"
	"strings"

	"gopkg.in/yaml.v3"
)

// stretch is an item with the text that moves with it, in byte offsets.
type stretch struct {
	entry
	from, to int
}

func (d *document) stretch(n *yaml.Node, index int) (stretch, error) {
	e, err := d.entry(n, index)
	if err != nil {
		return stretch{}, err
	}
	start, end, err := d.extent(e)
	return stretch{e, start, end}, err
}

// moveLines cuts an item out and pastes it beside the one whose place it takes. Only these two spots change.
func (d *document) moveLines(n *yaml.Node, from, to int) ([]patch, error) {
	item, err := d.stretch(n, from)
	if err != nil {
		return nil, err
	}
	target, err := d.stretch(n, to)
	if err != nil {
		return nil, err
	}
	neighbour, err := d.stretch(n, from+sign(to-from))
	if err != nil {
		return nil, err
	}
	spaced, err := d.isSpaced(n)
	if err != nil {
		return nil, err
	}
	if from < to {
		return d.moveDown(item, neighbour, target, spaced)
	}
	return d.moveUp(item, neighbour, target, spaced)
}

func sign(n int) int {
	if n < 0 {
		return -1
	}
	return 1
}

func (d *document) moveDown(item, next, target stretch, spaced bool) ([]patch, error) {
	text := d.withLineEnd(string(d.src[item.from:item.to]))
	cut := []patch{{item.from, item.to, ""}}
	gap := d.gapText(d.src[item.to:next.from], spaced)
	if d.isInline(item.entry) {
		text = spaces(item.column) + text
		cut, gap = d.cutInline(item, next), ""
	} else if blank(d.src[item.to:next.from]) {
		cut[0].end = next.from
	}
	text = gap + text
	if breakBefore(d.src, target.to) == 0 { // the target is the last line of a text without a final line end
		text = d.eol + strings.TrimSuffix(text, d.eol)
	}
	return append(cut, patch{target.to, target.to, text}), nil
}

func (d *document) moveUp(item, before, target stretch, spaced bool) ([]patch, error) {
	text := d.withLineEnd(string(d.src[item.from:item.to]))
	cut := patch{item.from, item.to, ""}
	gap := d.src[before.to:item.from]
	if blank(gap) {
		cut.start = before.to
	}
	if !d.isInline(target.entry) {
		return []patch{{target.from, target.from, text + d.gapText(gap, spaced)}, cut}, nil
	}
	if d.lines[d.lineAt(item.start)].start == item.from { // no comment above it
		return []patch{{target.from, target.from, strings.TrimLeft(text, " ") + spaces(item.column)}, cut}, nil
	}
	at := len(bytes.TrimRight(d.src[:target.from], " "))
	return []patch{{at, target.from, d.eol + text + spaces(item.column)}, cut}, nil
}

// gapText is what parts the moved item from its new neighbour: the blank lines it had, or a blank line where the writer
// uses them and a lone comment stays behind with its own.
func (d *document) gapText(gap []byte, spaced bool) string {
	switch {
	case blank(gap):
		return string(gap)
	case spaced:
		return d.eol
	}
	return ""
}

func blank(text []byte) bool { return len(bytes.TrimSpace(text)) == 0 }

func (d *document) withLineEnd(text string) string {
	if breakBefore([]byte(text), len(text)) == 0 {
		return text + d.eol
	}
	return text
}

// breakBefore returns the length in bytes of the line break that ends at a byte offset, 0 for none.
func breakBefore(src []byte, at int) int {
	for n := 3; n > 0; n-- {
		if at >= n && breakAt(src, at-n) == n {
			return n
		}
	}
	return 0
}
