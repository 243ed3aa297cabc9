package edit

import "bytes"

// chunk is what looks like one item of a block sequence: the lines from its dash to the next, byte offsets. The parser
// has the last word on it (see [thin]).
type chunk struct {
	start, end int
	column     int
	closed     bool
}

// nextLine returns the text of the line at a line start, without its line end, and the start of the next.
func nextLine(src []byte, start int) (text []byte, next int) {
	n := bytes.IndexByte(src[start:], '\n')
	if n < 0 {
		return src[start:], len(src)
	}
	return bytes.TrimSuffix(src[start:start+n], []byte("\r")), start + n + 1
}

// topKey returns the key of a line that reads "key:" in the first column, "" for any other line.
func topKey(src []byte, start int) (key string, next int) {
	text, next := nextLine(src, start)
	colon := bytes.IndexByte(text, ':')
	if colon < 1 {
		return "", next
	}
	for _, c := range text[:colon] {
		if !isWordByte(c) {
			return "", next
		}
	}
	rest := bytes.TrimLeft(text[colon+1:], " ")
	if len(rest) > 0 && (rest[0] != '#' || len(rest) == len(text)-colon-1) {
		return "", next
	}
	return string(text[:colon]), next
}

func isWordByte(c byte) bool {
	return c == '_' || c >= '0' && c <= '9' || c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z'
}

// itemsBelow returns the items of the block sequence that begins at a line start, nil where there is none.
func itemsBelow(src []byte, start int) []chunk {
	var items []chunk
	column := -1
	for at := start; at < len(src); {
		text, next := nextLine(src, at)
		inner := bytes.TrimLeft(text, " ")
		indent := len(text) - len(inner)
		isItem := len(inner) > 0 && inner[0] == '-' && (len(inner) == 1 || inner[1] == ' ')
		switch {
		case len(inner) == 0 || inner[0] == '#':
		case column < 0 && !isItem:
			return nil
		case column < 0:
			column = indent
		}
		if column >= 0 && len(inner) > 0 && inner[0] != '#' && (indent < column || indent == column && !isItem) {
			break
		}
		if isItem && indent == column {
			items = append(items, chunk{start: at, column: column, closed: true})
		}
		if len(items) > 0 {
			last := &items[len(items)-1]
			last.end = next
			last.closed = last.closed && closes(text)
		}
		at = next
	}
	return items
}

// closes tells whether a line, read from a state without open quotes or brackets, surely leaves none open, whatever the
// lines around it. False is the answer to all that is doubtful.
func closes(text []byte) bool {
	s := lineScan{text: text, fresh: true}
	for s.at < len(text) {
		c := text[s.at]
		if c == '#' && (s.at == 0 || text[s.at-1] == ' ') {
			return s.depth == 0 && !bytes.ContainsRune(text, '\t')
		}
		if !s.step(c) {
			return false
		}
	}
	return s.depth == 0
}

// lineScan reads one line. fresh: a value may begin here, so that a quote would open.
type lineScan struct {
	text  []byte
	at    int
	depth int // open brackets
	fresh bool
}

func (s *lineScan) step(c byte) bool {
	followedBySpace := s.at+1 == len(s.text) || s.text[s.at+1] == ' '
	switch {
	case c == ' ':
	case c < ' ' || c == 0x7F || c == '&' || c == '*':
		return false
	case c == '"' || c == '\'':
		return s.quote(c)
	case c == '{' || c == '[':
		s.depth++
		if !s.fresh {
			return false
		}
	case c == '}' || c == ']':
		s.depth--
		s.fresh = false
		if s.depth < 0 {
			return false
		}
	case c == ',' && s.depth > 0, c == ':' && followedBySpace:
		s.fresh = true
	case c == '-' && s.fresh && followedBySpace && s.depth == 0:
	case s.fresh && bytes.IndexByte([]byte("!?%@`"), c) >= 0:
		return false
	default:
		s.fresh = false
	}
	s.at++
	return true
}

// quote passes a quoted scalar without escapes, or an apostrophe inside a word.
func (s *lineScan) quote(c byte) bool {
	if !s.fresh {
		s.at++
		return s.at > 1 && isWordByte(s.text[s.at-2])
	}
	n := bytes.IndexByte(s.text[s.at+1:], c)
	if n < 0 || bytes.IndexByte(s.text[s.at+1:s.at+1+n], '\\') >= 0 {
		return false
	}
	s.at += n + 2
	s.fresh = false
	return true
}
