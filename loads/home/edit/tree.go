package edit

import (
	"errors"
	"fmt"
	"strings"
	"unicode/utf8"

	"gopkg.in/yaml.v3"
)

// fragment parses a value that is to be written on one line.
func fragment(value string) (*yaml.Node, error) {
	if strings.TrimSpace(value) == "" {
		return nil, errors.New("the value is empty; an empty text is written \"\"")
	}
	d, err := read([]byte(value))
	if err != nil {
		return nil, fmt.Errorf("the value %q: %w", value, err)
	}
	if len(d.lines) > 1 || isBlock(d.root) || d.root.Style&(yaml.LiteralStyle|yaml.FoldedStyle) != 0 {
		return nil, fmt.Errorf("the value %q is not a scalar or a flow collection on one line", value)
	}
	quoted := d.root.Style&(yaml.SingleQuotedStyle|yaml.DoubleQuotedStyle) != 0
	begin, err := d.begin(d.root)
	if err != nil || d.root.Line == 0 || (d.root.Kind == yaml.ScalarNode && d.root.Value == "" && !quoted) { // a tag alone
		return nil, fmt.Errorf("the value %q holds no value", value)
	}
	end, err := d.end(d.root, -1)
	if err != nil {
		return nil, fmt.Errorf("the value %q: %w", value, err)
	}
	if begin != 0 || end != len(value) {
		return nil, fmt.Errorf("the value %q has spaces, a comment or a marker around it", value)
	}
	return d.root, nil
}

// check refuses an edit whose parts are wrong whatever the text.
func (e edit) check() error {
	for _, step := range e.path {
		if key, isKey := step.(string); isKey && !utf8.ValidString(key) {
			return fmt.Errorf("the key %q is not UTF-8", key)
		}
	}
	if e.verb == set {
		if _, err := fragment(e.value); err != nil {
			return err
		}
	}
	_, err := itemNode(e.item)
	return err
}

func itemNode(item []Entry) (*yaml.Node, error) {
	n := &yaml.Node{Kind: yaml.MappingNode, Tag: "!!map"}
	seen := map[string]bool{}
	for _, entry := range item {
		if seen[entry.Key] {
			return nil, fmt.Errorf("the item has the key %q twice", entry.Key)
		}
		seen[entry.Key] = true
		if !utf8.ValidString(entry.Key) {
			return nil, fmt.Errorf("the key %q is not UTF-8", entry.Key)
		}
		value, err := fragment(entry.Value)
		if err != nil {
			return nil, fmt.Errorf("the item's %s: %w", entry.Key, err)
		}
		n.Content = append(n.Content, keyNode(entry.Key), value)
	}
	return n, nil
}

func keyNode(key string) *yaml.Node {
	return &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!str", Value: key}
}

// onTree does the edit on a tree, which it changes, and returns the new root. It knows nothing of the text, so that it
// can judge what was done there.
func (e edit) onTree(root *yaml.Node) (*yaml.Node, error) {
	holder := &yaml.Node{Kind: yaml.SequenceNode, Content: []*yaml.Node{root}}
	slot, err := slotFor(&holder.Content[0], e.path, e.verb)
	if err != nil {
		return nil, err
	}
	switch e.verb {
	case set:
		*slot, err = fragment(e.value)
	case insert:
		if isNull(*slot) {
			*slot = &yaml.Node{Kind: yaml.SequenceNode, Tag: "!!seq"}
		}
		var item *yaml.Node
		item, err = itemNode(e.item)
		(*slot).Content = insertAt((*slot).Content, e.from, item)
	case move:
		c := (*slot).Content
		item := c[e.from]
		(*slot).Content = insertAt(append(c[:e.from:e.from], c[e.from+1:]...), e.to, item)
	}
	return holder.Content[0], err
}

// slotFor leads to the place of a path in the tree and makes what is missing on the way; for a removal it takes the
// last step out.
func slotFor(slot **yaml.Node, path Path, v verb) (**yaml.Node, error) {
	for i, step := range path {
		n := *slot
		if isNull(n) {
			n = &yaml.Node{Kind: yaml.MappingNode, Tag: "!!map"}
			*slot = n
		}
		index, err := indexIn(n, step)
		if err != nil {
			return nil, err
		}
		if index < 0 {
			n.Content = append(n.Content, keyNode(step.(string)), &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!null"})
			index = count(n) - 1
		}
		width := len(n.Content) / count(n)
		at := index*width + width - 1
		if v == remove && i == len(path)-1 {
			n.Content = append(n.Content[:index*width:index*width], n.Content[at+1:]...)
			return nil, nil
		}
		slot = &n.Content[at]
	}
	return slot, nil
}

func insertAt(items []*yaml.Node, index int, item *yaml.Node) []*yaml.Node {
	out := append([]*yaml.Node{}, items[:index]...)
	return append(append(out, item), items[index:]...)
}

// equal compares what two trees hold; style, comments and places do not count.
func equal(a, b *yaml.Node) bool {
	if a.Kind != b.Kind || a.Tag != b.Tag || a.Value != b.Value || len(a.Content) != len(b.Content) {
		return false
	}
	for i := range a.Content {
		if !equal(a.Content[i], b.Content[i]) {
			return false
		}
	}
	return true
}
