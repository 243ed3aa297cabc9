package edit

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"sort"
	"unicode/utf8"

	"gopkg.in/yaml.v3"
)

// document is a text with its parsed tree and an index of its lines.
type document struct {
	src   []byte
	lines []line
	eol   string     // the file's own line end, for lines that are added
	root  *yaml.Node // a null scalar where the text holds no value
}

// line holds byte offsets: text is src[start:end], the next line starts at next.
type line struct{ start, end, next int }

var byteOrderMark = []byte("\ufeff")

func read(src []byte) (*document, error) {
	if !utf8.Valid(src) {
		return nil, errors.New("the text is not UTF-8")
	}
	d := &document{src: src, eol: "\n"}
	d.indexLines()
	if len(d.lines) > 0 && bytes.HasPrefix(src[d.lines[0].end:], []byte("\r\n")) {
		d.eol = "\r\n"
	}
	decoder := yaml.NewDecoder(bytes.NewReader(src))
	var first, second yaml.Node
	switch err := decoder.Decode(&first); {
	case errors.Is(err, io.EOF):
		d.root = &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!null"}
		return d, nil
	case err != nil:
		return nil, fmt.Errorf("the text is not valid YAML: %w", err)
	}
	switch err := decoder.Decode(&second); {
	case err == nil:
		return nil, errors.New("the text holds more than one YAML document")
	case !errors.Is(err, io.EOF):
		return nil, fmt.Errorf("the text is not valid YAML: %w", err)
	}
	d.root = first.Content[0]
	return d, refuseAnchors(d.root)
}

func refuseAnchors(n *yaml.Node) error {
	if n.Anchor != "" || n.Kind == yaml.AliasNode {
		return fmt.Errorf("line %d: anchors and aliases are not accepted", n.Line)
	}
	for _, child := range n.Content {
		if err := refuseAnchors(child); err != nil {
			return err
		}
	}
	return nil
}

// indexLines splits at every line break of YAML 1.1 (section 5.4), as the parser counts lines by them.
func (d *document) indexLines() {
	start := 0
	if bytes.HasPrefix(d.src, byteOrderMark) {
		start = len(byteOrderMark) // the parser does not count it as a column
	}
	for i := start; i < len(d.src); {
		n := breakAt(d.src, i)
		if n == 0 {
			i++
			continue
		}
		d.lines = append(d.lines, line{start, i, i + n})
		i += n
		start = i
	}
	d.lines = append(d.lines, line{start, len(d.src), len(d.src)})
}

// breakAt returns the length in bytes of the line break at i, 0 for none.
func breakAt(src []byte, i int) int {
	switch src[i] {
	case '\n':
		return 1
	case '\r':
		if i+1 < len(src) && src[i+1] == '\n' {
			return 2
		}
		return 1
	case 0xC2: // U+0085
		if i+1 < len(src) && src[i+1] == 0x85 {
			return 2
		}
	case 0xE2: // U+2028, U+2029
		if i+2 < len(src) && src[i+1] == 0x80 && src[i+2]&^1 == 0xA8 {
			return 3
		}
	}
	return 0
}

// offset turns the parser's line and column (both from 1, columns in characters) into a byte offset.
func (d *document) offset(lineNumber, column int) (int, error) {
	if lineNumber < 1 || lineNumber > len(d.lines) {
		return 0, fmt.Errorf("line %d is outside the text", lineNumber)
	}
	l := d.lines[lineNumber-1]
	at := l.start
	for ; column > 1 && at < l.end; column-- {
		_, size := utf8.DecodeRune(d.src[at:l.end])
		at += size
	}
	if column > 1 {
		return 0, fmt.Errorf("line %d has no such column", lineNumber)
	}
	return at, nil
}

// lineAt returns the index of the line that holds a byte offset.
func (d *document) lineAt(at int) int {
	return sort.Search(len(d.lines), func(i int) bool { return d.lines[i].start > at }) - 1
}

func (d *document) text(i int) []byte { return d.src[d.lines[i].start:d.lines[i].end] }

// indent counts the leading spaces of line i.
func (d *document) indent(i int) int {
	t := d.text(i)
	return len(t) - len(bytes.TrimLeft(t, " "))
}

func (d *document) isBlankLine(i int) bool { return len(bytes.TrimLeft(d.text(i), " \t")) == 0 }

func (d *document) isCommentLine(i int) bool {
	return bytes.HasPrefix(bytes.TrimLeft(d.text(i), " \t"), []byte("#"))
}

// startsLine tells whether nothing but spaces stands before a byte offset on its line.
func (d *document) startsLine(at int) bool {
	return len(bytes.TrimLeft(d.src[d.lines[d.lineAt(at)].start:at], " ")) == 0
}

// lineEnd returns the end of the text of the line that holds a byte offset.
func (d *document) lineEnd(at int) int { return d.lines[d.lineAt(at)].end }

// column counts the characters before a byte offset on its line.
func (d *document) column(at int) int {
	return utf8.RuneCount(d.src[d.lines[d.lineAt(at)].start:at])
}

// skipSpaces returns the first offset from at on that is neither space nor tab.
func (d *document) skipSpaces(at int) int {
	for at < len(d.src) && (d.src[at] == ' ' || d.src[at] == '\t') {
		at++
	}
	return at
}

// skipGap passes spaces, line breaks and comments.
func (d *document) skipGap(at int) int {
	for at < len(d.src) {
		at = d.skipSpaces(at)
		if at == len(d.src) {
			break
		}
		if d.src[at] == '#' && at > 0 && (d.src[at-1] == ' ' || d.src[at-1] == '\t' || d.startsLine(at)) {
			at = d.lineEnd(at)
			continue
		}
		n := breakAt(d.src, at)
		if n == 0 {
			break
		}
		at += n
	}
	return at
}
