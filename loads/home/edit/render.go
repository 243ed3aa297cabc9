package edit

import (
	"strings"

	"gopkg.in/yaml.v3"
)

// leaf is what a chain of new keys ends in: a value, or a sequence with one item.
type leaf struct {
	value  string
	item   []Entry
	isItem bool
}

const usualIndentSpaces = 2

// habit is how far this writer indents, in spaces: mappings and sequences below their key.
type habit struct{ mapping, sequence int }

func habitOf(root *yaml.Node) habit {
	h := habit{-1, -1}
	h.learn(root)
	if h.mapping < 0 {
		h.mapping = usualIndentSpaces
	}
	if h.sequence < 0 {
		h.sequence = usualIndentSpaces
	}
	return h
}

func (h *habit) learn(n *yaml.Node) {
	if !isBlock(n) || h.mapping >= 0 && h.sequence >= 0 {
		return
	}
	for i, child := range n.Content {
		if n.Kind == yaml.MappingNode && i%2 == 1 && isBlock(child) && child.Style&yaml.TaggedStyle == 0 {
			in := child.Column - n.Content[0].Column
			if child.Kind == yaml.MappingNode && h.mapping < 0 {
				h.mapping = in
			}
			if child.Kind == yaml.SequenceNode && h.sequence < 0 {
				h.sequence = in
			}
		}
		h.learn(child)
	}
}

func spaces(n int) string { return strings.Repeat(" ", n) }

// inLines writes keys, each inside the one before, and the leaf as block lines that begin at column.
func (h habit) inLines(keys []string, l leaf, column int) []string {
	var lines []string
	for i, key := range keys {
		if i > 0 {
			column += h.mapping
		}
		lines = append(lines, spaces(column)+Quote(key)+":")
	}
	if !l.isItem {
		lines[len(lines)-1] += " " + l.value
		return lines
	}
	if len(keys) > 0 {
		column += h.sequence
	}
	return append(lines, itemLines(l.item, column)...)
}

func itemLines(item []Entry, column int) []string {
	if len(item) == 0 {
		return []string{spaces(column) + "- {}"}
	}
	lines := make([]string, 0, len(item))
	for i, e := range item {
		mark := "  "
		if i == 0 {
			mark = "- "
		}
		lines = append(lines, spaces(column)+mark+Quote(e.Key)+": "+e.Value)
	}
	return lines
}

// inFlow writes the same as the inside of a flow mapping, or the leaf alone where there are no keys.
func inFlow(keys []string, l leaf) string {
	text := l.value
	if l.isItem {
		text = "[" + flowItem(l.item) + "]"
	}
	for i := len(keys) - 1; i >= 0; i-- {
		text = Quote(keys[i]) + ": " + text
		if i > 0 {
			text = "{" + text + "}"
		}
	}
	return text
}

func flowItem(item []Entry) string {
	parts := make([]string, 0, len(item))
	for _, e := range item {
		parts = append(parts, Quote(e.Key)+": "+e.Value)
	}
	return "{" + strings.Join(parts, ", ") + "}"
}
