package edit

import (
	"bytes"
	"errors"
	"fmt"
	"strings"
	"unicode/utf8"

	"gopkg.in/yaml.v3"
)

var errUnknownForm = errors.New("the text is written in a form that cannot be edited in place")

// begin returns where a node's text begins, its tag included.
func (d *document) begin(n *yaml.Node) (int, error) { return d.offset(n.Line, n.Column) }

// afterTag returns where the value behind a tag begins, and the end of the tag itself; both at for a node without one.
func (d *document) afterTag(at int) (value, tagEnd int) {
	if at == len(d.src) || d.src[at] != '!' {
		return at, at
	}
	tagEnd = at
	for tagEnd < len(d.src) && !bytes.ContainsRune([]byte(" \t,]}"), rune(d.src[tagEnd])) && breakAt(d.src, tagEnd) == 0 {
		tagEnd++
	}
	return d.skipGap(tagEnd), tagEnd
}

// end returns where a node's text ends. The parser tells only where nodes begin. parentIndent is the column of the block
// collection around the node, -1 for none.
func (d *document) end(n *yaml.Node, parentIndent int) (int, error) {
	at, err := d.begin(n)
	if err != nil {
		return 0, err
	}
	value, tagEnd := d.afterTag(at)
	switch {
	case n.Kind == yaml.ScalarNode && n.Value == "" && n.Style&^yaml.TaggedStyle == 0:
		return tagEnd, nil
	case n.Kind == yaml.ScalarNode:
		return d.scalarEnd(n, value, parentIndent)
	case isFlow(n):
		return d.flowEnd(n, value)
	}
	last, err := d.entry(n, count(n)-1)
	return last.end, err
}

func (d *document) scalarEnd(n *yaml.Node, at, parentIndent int) (int, error) {
	switch {
	case n.Style&yaml.DoubleQuotedStyle != 0:
		return d.quoteEnd(at, '"')
	case n.Style&yaml.SingleQuotedStyle != 0:
		return d.quoteEnd(at, '\'')
	case n.Style&(yaml.LiteralStyle|yaml.FoldedStyle) != 0:
		return d.blockScalarEnd(at, parentIndent)
	}
	return d.plainEnd(n.Value, at)
}

func (d *document) quoteEnd(at int, quote byte) (int, error) {
	if at == len(d.src) || d.src[at] != quote {
		return 0, errUnknownForm
	}
	for i := at + 1; i < len(d.src); i++ {
		switch {
		case d.src[i] == '\\' && quote == '"':
			i++
		case d.src[i] == quote && quote == '\'' && i+1 < len(d.src) && d.src[i+1] == quote:
			i++
		case d.src[i] == quote:
			return i + 1, nil
		}
	}
	return 0, errUnknownForm
}

// plainEnd walks the source beside the value. A plain scalar stands in the text as it reads, but for white space, which
// the parser folds at line ends.
func (d *document) plainEnd(value string, at int) (int, error) {
	for _, r := range value {
		if isSpace(r) {
			continue
		}
		for {
			s, size := utf8.DecodeRune(d.src[at:])
			if size == 0 {
				return 0, errUnknownForm
			}
			at += size
			if s == r {
				break
			}
			if !isSpace(s) {
				return 0, errUnknownForm
			}
		}
	}
	return at, nil
}

func isSpace(r rune) bool { return strings.ContainsRune(" \t\r\n\u0085\u2028\u2029", r) }

// blockScalarEnd returns the end of the last line of a | or > scalar. Blank lines behind it belong to it only where it
// keeps them (YAML 1.1, section 9.1.2, "+").
func (d *document) blockScalarEnd(at, parentIndent int) (int, error) {
	if at == len(d.src) || d.src[at] != '|' && d.src[at] != '>' {
		return 0, errUnknownForm
	}
	first := d.lineAt(at)
	header := d.src[at:blockHeaderEnd(d.src, at)]
	indent := 0
	for _, c := range header[1:] {
		if c >= '1' && c <= '9' {
			indent = max(parentIndent, 0) + int(c-'0')
		}
	}
	last := first
	for i := first + 1; i < len(d.lines); i++ {
		if len(bytes.TrimLeft(d.text(i), " ")) == 0 {
			if bytes.ContainsRune(header, '+') && i+1 < len(d.lines) {
				last = i
			}
			continue
		}
		if indent == 0 {
			indent = max(d.indent(i), parentIndent+1)
		}
		if d.indent(i) < indent {
			break
		}
		last = i
	}
	if last == first {
		return at + len(header), nil
	}
	return d.lines[last].end, nil
}

func blockHeaderEnd(src []byte, at int) int {
	at++
	for at < len(src) && bytes.ContainsRune([]byte("+-123456789"), rune(src[at])) {
		at++
	}
	return at
}

func (d *document) flowEnd(n *yaml.Node, open int) (int, error) {
	if open == len(d.src) {
		return 0, errUnknownForm
	}
	at := open + 1
	if k := count(n); k > 0 {
		last, err := d.entry(n, k-1)
		if err != nil {
			return 0, err
		}
		at = last.end
	}
	if isPair(d.src, open) {
		return at, nil
	}
	at = d.skipGap(at)
	if at < len(d.src) && d.src[at] == ',' {
		at = d.skipGap(at + 1)
	}
	if at == len(d.src) || d.src[at] != d.src[open]+2 { // '{' and '}', '[' and ']' lie two apart in ASCII
		return 0, fmt.Errorf("line %d: %w", n.Line, errUnknownForm)
	}
	return at + 1, nil
}

// isPair tells a one-pair mapping written without braces inside a flow sequence: [a: b].
func isPair(src []byte, open int) bool { return src[open] != '{' && src[open] != '[' }

// count returns the number of entries of a collection.
func count(n *yaml.Node) int {
	if n.Kind == yaml.MappingNode {
		return len(n.Content) / 2
	}
	return len(n.Content)
}
