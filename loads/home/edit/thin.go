package edit

import (
	"bytes"
	"errors"
	"slices"
	"unicode/utf8"

	"gopkg.in/yaml.v3"
)

// thinned is a text without some items of its long top-level sequences, and the edit as it reads for that text.
type thinned struct {
	text  []byte
	edit  edit
	seams []seam
}

// seam is the start of an item that was kept: in the short text its line begins at this byte offset. column is that of
// its dash.
type seam struct {
	key    string
	at     int
	column int
	gone   int // bytes left out before it
}

// thin leaves out items of sequences under top-level keys that lie far from the edit, since parsing a thousand circuits
// takes tens of milliseconds and an edit touches one.
//
// Why this is safe. An item is left out only if each of its lines surely opens no quote and no bracket (see [closes]);
// all else in YAML ends by itself at the next dash in the sequence's column. The parser then proves that the items of this
// very sequence in the short text are just the ones that were kept, and after the edit, that where text was left out an
// item still begins. So the parser stands in the same state before and after the text left out, and reads the rest alike
// with or without it; and the count of items, hence the edit's index, is right. What this cannot see: UTF-8 text that was not valid
// YAML inside the items left out stays as it is, without an error.
func thin(src []byte, e edit) (thinned, bool) {
	t := thinned{edit: e}
	if hasRareBreaks(src) || !utf8.Valid(src) { // what is not text is refused wherever it stands: the parser sees only what is kept
		return t, false
	}
	t.edit.path = append(Path{}, e.path...)
	at, short := 0, false // copied up to here
	for start := 0; start < len(src); {
		key, next := topKey(src, start)
		if key == "" {
			start = next
			continue
		}
		items := itemsBelow(src, next)
		if items == nil {
			start = next
			continue
		}
		start = items[len(items)-1].end
		keep, ok := wantedItems(e, key, items)
		if !ok {
			return t, false
		}
		short = short || slices.Contains(keep, false)
		at = t.leaveOut(src, at, key, items, keep)
	}
	t.text = append(t.text, src[at:]...)
	return t, short
}

// leaveOut copies the text up to the last kept item, adjusts the edit's index, and returns how far it has read.
func (t *thinned) leaveOut(src []byte, at int, key string, items []chunk, keep []bool) int {
	gone, kept := 0, make([]int, len(items)+1)
	for i, item := range items {
		kept[i+1] = kept[i]
		if !keep[i] {
			t.text = append(t.text, src[at:item.start]...)
			gone += item.end - item.start
			at = item.end
			continue
		}
		kept[i+1]++
		t.text = append(t.text, src[at:item.start]...)
		t.seams = append(t.seams, seam{key, len(t.text), item.column, gone})
		at, gone = item.start, 0
		t.text = append(t.text, src[at:item.end]...)
		at = item.end
	}
	if len(t.edit.path) == 0 || t.edit.path[0] != key {
		return at
	}
	if len(t.edit.path) > 1 {
		if index, ok := t.edit.path[1].(int); ok {
			t.edit.path[1] = kept[index]
		}
	} else if t.edit.verb == insert || t.edit.verb == move {
		t.edit.from = kept[t.edit.from]
		t.edit.to = kept[t.edit.to]
	}
	return at
}

// inFull turns a patch of the short text into one of the full text.
func (t thinned) inFull(p patch) patch {
	start, end := p.start, p.end
	for _, s := range t.seams {
		if s.at <= p.start {
			start += s.gone
		}
		if s.at <= p.start || s.at < p.end { // a cut that ends at a seam ends before the text left out there
			end += s.gone
		}
	}
	return patch{start, end, p.text}
}

// wantedItems tells which items must stay: those that the edit names, their neighbours (comments and blank lines between
// them count), the first two and last two (they show the writer's habits), and all that cannot surely be left out. Not
// ok: the edit names an item that is not there.
func wantedItems(e edit, key string, items []chunk) (keep []bool, ok bool) {
	n := len(items)
	wanted := []int{0, n - 1}
	if len(e.path) > 1 && e.path[0] == key {
		if index, isIndex := e.path[1].(int); isIndex {
			wanted = append(wanted, index)
		}
	} else if len(e.path) == 1 && e.path[0] == key {
		wanted = append(wanted, e.from, e.to)
	}
	keep = make([]bool, n)
	for i := range items {
		keep[i] = !items[i].closed
	}
	for _, w := range wanted {
		if w < 0 || w > n {
			return nil, false
		}
		for i := max(0, w-1); i <= min(n-1, w+1); i++ {
			keep[i] = true
		}
	}
	return keep, true
}

// checkItems has the parser prove that the items of the shortened sequences are the kept ones, no more and no fewer.
func (d *document) checkItems(seams []seam) error {
	for len(seams) > 0 {
		key, n := seams[0].key, 0
		dashes, err := d.dashes(key)
		if err != nil {
			return err
		}
		for n < len(seams) && seams[n].key == key {
			if !dashes[seams[n].at+seams[n].column] {
				return errSeam
			}
			n++
		}
		if n != len(dashes) {
			return errSeam
		}
		seams = seams[n:]
	}
	return nil
}

// checkSeams has the parser prove that an item still begins wherever text was left out. Patches are those that led from
// the text of the seams to this one.
func (d *document) checkSeams(seams []seam, patches []patch) error {
	proven := map[string]map[int]bool{}
	for _, s := range seams {
		if s.gone == 0 {
			continue
		}
		if proven[s.key] == nil {
			dashes, err := d.dashes(s.key)
			if err != nil {
				return err
			}
			proven[s.key] = dashes
		}
		at, ok := s.after(patches)
		if !ok || !proven[s.key][at] {
			return errSeam
		}
	}
	return nil
}

// after returns where the dash of the item stands once the patches are done; not ok where one of them touches the seam.
func (s seam) after(patches []patch) (at int, ok bool) {
	at = s.at + s.column
	for _, p := range patches {
		if p.start < s.at && p.end > s.at || p.start == s.at {
			return 0, false
		}
		if p.start < s.at {
			at += len(p.text) - (p.end - p.start)
		}
	}
	return at, true
}

var errSeam = errors.New("the text cannot be shortened for this edit")

// dashes returns the byte offsets of the dashes of a top-level sequence.
func (d *document) dashes(key string) (map[int]bool, error) {
	if d.root.Kind != yaml.MappingNode || isFlow(d.root) {
		return nil, errSeam
	}
	index, err := keyIndex(d.root, key)
	if err != nil || index < 0 {
		return nil, errSeam
	}
	n := d.root.Content[2*index+1]
	if n.Kind != yaml.SequenceNode || isFlow(n) {
		return nil, errSeam
	}
	found := map[int]bool{}
	for i := range n.Content {
		e := entry{in: n, index: i}
		if err := d.findDash(&e); err != nil {
			return nil, err
		}
		found[e.start] = true
	}
	return found, nil
}

// hasRareBreaks finds the line ends that are not worth a fast path.
func hasRareBreaks(src []byte) bool {
	for _, rare := range []string{"\u0085", "\u2028", "\u2029"} {
		if bytes.Contains(src, []byte(rare)) {
			return true
		}
	}
	return bytes.Count(src, []byte("\r")) != bytes.Count(src, []byte("\r\n"))
}
