package edit

import (
	"fmt"
	"strings"

	"gopkg.in/yaml.v3"
)

// String writes the path as a person would: circuits[3].running.
func (p Path) String() string {
	var b strings.Builder
	for _, step := range p {
		switch s := step.(type) {
		case int:
			fmt.Fprintf(&b, "[%d]", s)
		default:
			if b.Len() > 0 {
				b.WriteByte('.')
			}
			fmt.Fprint(&b, s)
		}
	}
	if b.Len() == 0 {
		return "the document"
	}
	return b.String()
}

// keys returns the path as mapping keys; ok is false where it holds an index.
func (p Path) keys() (keys []string, ok bool) {
	for _, step := range p {
		key, isKey := step.(string)
		if !isKey {
			return nil, false
		}
		keys = append(keys, key)
	}
	return keys, true
}

// indexIn returns where in the collection a step leads: -1 for a key that a mapping does not have.
func indexIn(n *yaml.Node, step any) (int, error) {
	switch s := step.(type) {
	case int:
		if n.Kind != yaml.SequenceNode {
			return 0, fmt.Errorf("%s has no items, so index %d leads nowhere", kindName(n), s)
		}
		if s < 0 || s >= len(n.Content) {
			return 0, fmt.Errorf("index %d is outside the sequence, which has %d items", s, len(n.Content))
		}
		return s, nil
	case string:
		if n.Kind != yaml.MappingNode {
			return 0, fmt.Errorf("%s has no keys, so %q leads nowhere", kindName(n), s)
		}
		return keyIndex(n, s)
	}
	return 0, fmt.Errorf("a path step is a string or an int, not %T", step)
}

func keyIndex(mapping *yaml.Node, key string) (int, error) {
	found := -1
	for i := 0; i < len(mapping.Content); i += 2 {
		k := mapping.Content[i]
		if k.Kind != yaml.ScalarNode || k.Value != key {
			continue
		}
		if found >= 0 {
			return 0, fmt.Errorf("the key %q stands twice in one mapping, on lines %d and %d",
				key, mapping.Content[2*found].Line, k.Line)
		}
		found = i / 2
	}
	return found, nil
}

func kindName(n *yaml.Node) string {
	switch n.Kind {
	case yaml.MappingNode:
		return "a mapping"
	case yaml.SequenceNode:
		return "a sequence"
	}
	return "a single value"
}

// isNull tells whether a node holds nothing: no text, ~ or null.
func isNull(n *yaml.Node) bool { return n.Kind == yaml.ScalarNode && n.Tag == "!!null" }

// isBlank tells whether a node has no text at all.
func isBlank(n *yaml.Node) bool { return isNull(n) && n.Value == "" && n.Style&yaml.TaggedStyle == 0 }

func isFlow(n *yaml.Node) bool { return n.Style&yaml.FlowStyle != 0 }

// isBlock tells whether a node is a collection written in lines. An empty collection is always in flow style.
func isBlock(n *yaml.Node) bool {
	return n.Kind != yaml.ScalarNode && !isFlow(n)
}
