package edit

import (
	"bytes"
	"errors"

	"gopkg.in/yaml.v3"
)

// brackets returns the byte offsets of the opening bracket of a flow collection and of the text behind the closing one.
func (d *document) brackets(p place) (open, end int, err error) {
	if open, err = d.begin(p.node); err != nil {
		return 0, 0, err
	}
	open, _ = d.afterTag(open)
	if open == len(d.src) || isPair(d.src, open) {
		return 0, 0, errUnknownForm
	}
	end, err = d.end(p.node, -1)
	return open, end, err
}

// flowInsert puts text before the entry with this index, or behind the last one.
func (d *document) flowInsert(p place, index int, text string) ([]patch, error) {
	open, end, err := d.brackets(p)
	if err != nil {
		return nil, err
	}
	n := count(p.node)
	if n == 0 {
		inside := d.src[open+1 : end-1]
		if len(bytes.Trim(inside, " ")) == 0 {
			return []patch{{open + 1, end - 1, text}}, nil
		}
		return []patch{{open + 1, open + 1, text}}, nil
	}
	if index == n {
		last, err := d.entry(p.node, n-1)
		return d.flowAppend(last, end, text), err
	}
	e, err := d.entry(p.node, index)
	return []patch{{e.start, e.start, text + "," + d.flowGap(e)}}, err
}

// flowGap is what stands before an entry: a space, or a new line where it begins its own.
func (d *document) flowGap(e entry) string {
	if !d.startsLine(e.start) {
		return " "
	}
	return d.eol + spaces(d.column(e.start))
}

func (d *document) flowAppend(last entry, end int, text string) []patch {
	gap := d.flowGap(last)
	ownLine := gap != " "
	at := d.skipGap(last.end)
	closer := end - 1
	if at < closer && d.src[at] == ',' {
		if ownLine && d.lineAt(at) != d.lineAt(closer) {
			lineEnd := d.lineEnd(at)
			return []patch{{lineEnd, lineEnd, gap + text + ","}}
		}
		return []patch{{at + 1, at + 1, gap + text + ","}}
	}
	comma := ","
	if last.colon && last.end == last.anchor {
		comma = " ," // "a:," would be one key
	}
	if ownLine && d.lineAt(last.end) != d.lineAt(closer) {
		lineEnd := d.lineEnd(last.end)
		return []patch{{last.end, last.end, comma}, {lineEnd, lineEnd, gap + text}}
	}
	return []patch{{last.end, last.end, comma + gap + text}}
}

func (d *document) flowRemove(p place, index int) ([]patch, error) {
	open, end, err := d.brackets(p)
	if err != nil {
		return nil, err
	}
	n := count(p.node)
	if n == 1 {
		return []patch{{open + 1, end - 1, ""}}, nil
	}
	e, err := d.entry(p.node, index)
	if err != nil {
		return nil, err
	}
	if index < n-1 {
		next, err := d.entry(p.node, index+1)
		if err != nil {
			return nil, err
		}
		return d.flowRemoveInner(e, next)
	}
	before, err := d.entry(p.node, index-1)
	if err != nil {
		return nil, err
	}
	return d.flowRemoveLast(e, before, end-1)
}

// flowRemoveInner takes out an entry with the comma behind it, and with its whole lines where it has them to itself.
func (d *document) flowRemoveInner(e, next entry) ([]patch, error) {
	comma := d.skipGap(e.end)
	if comma == len(d.src) || d.src[comma] != ',' {
		return nil, errUnknownForm
	}
	sameLine := d.lineAt(next.start) == d.lineAt(comma)
	if d.startsLine(e.start) && !sameLine {
		start, err := d.headStart(e)
		return []patch{{start, d.lines[d.lineAt(comma)].next, ""}}, err
	}
	switch {
	case sameLine:
		return []patch{{e.start, next.start, ""}}, nil
	case e.index == 0: // behind the bracket: a comment behind the comma can only be on this entry
		return []patch{{e.start, d.lineEnd(comma), ""}}, nil
	}
	start := len(bytes.TrimRight(d.src[:e.start], " "))
	return []patch{{start, comma + 1, ""}}, nil
}

// flowRemoveLast takes out the last entry and the comma before it; a comma behind it then serves the one before.
func (d *document) flowRemoveLast(e, before entry, closer int) ([]patch, error) {
	comma := d.skipGap(before.end)
	if comma == len(d.src) || d.src[comma] != ',' {
		return nil, errUnknownForm
	}
	if len(bytes.TrimSpace(d.src[comma+1:e.start])) == 0 && d.lineAt(e.end) == d.lineAt(closer) ||
		d.lineAt(before.end) == d.lineAt(e.start) {
		return []patch{{before.end, e.end, ""}}, nil
	}
	if !d.startsLine(e.start) {
		return nil, errUnknownForm
	}
	start, err := d.headStart(e)
	patches := []patch{{comma, comma + 1, ""}}
	end := d.lines[d.lineAt(e.end)].next
	if trailing := d.skipGap(e.end); d.src[trailing] == ',' {
		patches = nil
		end = d.lines[d.lineAt(trailing)].next
	}
	if end > closer { // the bracket stands on the entry's line and stays
		return append(patches, patch{start, closer, spaces(d.column(e.start))}), err
	}
	return append(patches, patch{start, end, ""}), err
}

// flowMove shifts the texts of items and leaves what stands between them. Which item a comment in between belongs to
// cannot be told, so that is an error.
func (d *document) flowMove(n *yaml.Node, from, to int) ([]patch, error) {
	entries := make([]entry, count(n))
	order := make([]int, count(n))
	for i := range entries {
		e, err := d.entry(n, i)
		if err != nil {
			return nil, err
		}
		entries[i], order[i] = e, i
	}
	step := sign(to - from)
	for i := from; i != to; i += step {
		order[i], order[i+step] = order[i+step], order[i]
	}
	var patches []patch
	for i, e := range entries {
		if i > 0 && bytes.ContainsRune(d.src[entries[i-1].end:e.start], '#') {
			return nil, errors.New("there are comments between the items, and it cannot be told to which they belong")
		}
		if order[i] != i {
			o := entries[order[i]]
			patches = append(patches, patch{e.start, e.end, string(d.src[o.start:o.end])})
		}
	}
	return patches, nil
}
