package edit

import (
	"fmt"
	"strings"

	"pgregory.net/rapid"
)

// writer makes a random home-like text in mixed styles and notes where everything stands. Each comment has a number of
// its own, so that a lost one is seen.
type writer struct {
	t        *rapid.T
	lines    []string
	comments int
	keys     int
	literal  bool
	spots    []spot
}

// spot is a node and the lines it takes, from 0: head is the first comment line above it.
type spot struct {
	path             Path
	kind             byte // 'm', 's', 'v' as in mapping, sequence, value
	size             int
	flow             bool
	inline           bool // shares its first line with a dash
	head, first, end int  // end is behind the last line
}

func (w *writer) pick(n int) int { return rapid.IntRange(0, n-1).Draw(w.t, "pick") }

func (w *writer) put(format string, a ...any) { w.lines = append(w.lines, fmt.Sprintf(format, a...)) }

func (w *writer) comment() string {
	w.comments++
	return fmt.Sprintf("#c%d;", w.comments)
}

func (w *writer) tail() string {
	if w.pick(3) == 0 {
		return spaces(1+w.pick(3)) + w.comment()
	}
	return ""
}

func (w *writer) key() (written, read string) {
	w.keys++
	read = fmt.Sprintf("k%d", w.keys)
	return []string{read, read, read, `"` + read + `"`, "'" + read + "'"}[w.pick(5)], read
}

// heads writes blank and comment lines above an entry and returns the line of its first comment.
func (w *writer) heads(column int) int {
	if w.pick(3) == 0 {
		if w.pick(4) == 0 {
			w.put("%s%s", spaces(column), w.comment())
		}
		w.put("")
	}
	head := len(w.lines)
	for range w.pick(3) {
		w.put("%s%s", spaces(column), w.comment())
	}
	return head
}

// block writes a block collection. start is what its first line begins with where it stands behind a dash, else empty.
func (w *writer) block(path Path, column, depth int, kind byte, start string) int {
	size := 1 + w.pick(3)
	for i := range size {
		prefix, inline, head := spaces(column), false, len(w.lines)
		if i == 0 && start != "" {
			prefix, inline = start, true
		} else {
			head = w.heads(column)
		}
		step, read := any(i), ""
		if kind == 'm' {
			var written string
			written, read = w.key()
			prefix += written + ":"
			step = read
		} else {
			prefix += "-"
		}
		w.value(append(append(Path{}, path...), step), column, depth, prefix, kind, inline, head)
	}
	return size
}

func (w *writer) value(path Path, column, depth int, prefix string, in byte, inline bool, head int) {
	s := spot{path: path, kind: 'v', inline: inline, head: head, first: len(w.lines)}
	at := len(w.spots)
	w.spots = append(w.spots, s)
	choices := 9
	if depth > 0 {
		choices = 14
	}
	switch c := w.pick(choices); {
	case c < 7:
		w.scalar(c, column, prefix)
	case c < 9:
		s.kind = "ms"[w.pick(2)]
		s.size, s.flow = w.pick(4), true
		text := w.flow(path, s.kind, s.size, len(w.spots), column+4)
		w.lines = append(w.lines, strings.Split(prefix+" "+text+w.tail(), "\n")...)
	default:
		s.kind = "ms"[w.pick(2)]
		deeper := column + 2 + 2*w.pick(2)
		if in == 'm' && s.kind == 's' && w.pick(2) == 0 {
			deeper = column
		}
		if in == 's' && w.pick(3) > 0 {
			s.size = w.block(path, len(prefix)+1, depth-1, s.kind, prefix+" ")
			break
		}
		w.put("%s%s", prefix, w.tail())
		s.size = w.block(path, deeper, depth-1, s.kind, "")
	}
	s.end = len(w.lines)
	w.spots[at] = s
	for i := at + 1; i < len(w.spots); i++ {
		if s.flow { // those inside stand on the lines of the whole
			w.spots[i].head, w.spots[i].first, w.spots[i].end = s.first, s.first, s.end
		}
	}
}

func (w *writer) scalar(choice, column int, prefix string) {
	in := spaces(column + 3)
	switch choice {
	case 0:
		w.put("%s plain %d W%s", prefix, w.pick(100), w.tail())
	case 1:
		w.put("%s%s%s", prefix, spaces(1+w.pick(4)), []string{`"it's # not"`, `'say ''so'' {['`, "1.5", "true", "\u00e9t\u00e9", "~"}[w.pick(6)]+w.tail())
	case 2:
		w.put("%s%s", prefix, w.tail())
	case 3:
		w.put("%s one", prefix)
		w.put("%stwo#three%s", in, w.tail())
	case 4:
		w.put("%s \"one", prefix)
		w.put("%s# two\\\" \"%s", in, w.tail())
	case 5:
		w.literal = true
		w.put("%s %s%s", prefix, []string{"|", ">", "|-", ">-"}[w.pick(4)], w.tail())
		w.put("%s# text: [", in)
		w.put("")
		w.put("%s  \"more", in)
	case 6:
		w.put("%s%s", prefix, w.tail())
		w.put("%sbelow%s", in, w.tail())
	}
}

func (w *writer) flow(path Path, kind byte, size, at, column int) string {
	var b strings.Builder
	open, closer := "[", "]"
	if kind == 'm' {
		open, closer = "{", "}"
	}
	b.WriteString(open + spaces(w.pick(2)))
	for i := range size {
		if i > 0 {
			b.WriteString("," + w.flowGap(column))
		}
		step := any(i)
		if kind == 'm' {
			written, read := w.key()
			step = read
			b.WriteString(written + ": ")
		}
		inner := append(append(Path{}, path...), step)
		s := spot{path: inner, kind: 'v', flow: true}
		text := []string{"7", "a b", `"q, ]"`, "'it''s'"}[w.pick(4)]
		k := len(w.spots)
		w.spots = append(w.spots, s)
		if column < 20 && w.pick(4) == 0 {
			s.kind, s.size = "ms"[w.pick(2)], w.pick(3)
			text = w.flow(inner, s.kind, s.size, at, column+4)
		}
		w.spots[k] = s
		b.WriteString(text)
	}
	if size > 0 && w.pick(6) == 0 {
		b.WriteString(",")
	}
	if w.pick(6) == 0 {
		b.WriteString(w.tail() + "\n" + spaces(column))
	}
	return b.String() + closer
}

func (w *writer) flowGap(column int) string {
	if w.pick(3) > 0 {
		return spaces(w.pick(2) + 1)
	}
	gap := w.tail() + "\n"
	if w.pick(4) == 0 {
		gap += spaces(column) + w.comment() + "\n"
	}
	return gap + spaces(column)
}

// sample is a text with what is known of it.
type sample struct {
	text  string
	lines []string
	eol   string
	spots []spot
}

func drawSample(t *rapid.T) sample {
	w := &writer{t: t}
	if w.pick(3) == 0 {
		w.put("---%s", w.tail())
	}
	kind := "mms"[w.pick(3)]
	first := len(w.lines)
	size := w.block(Path{}, 0, 3, kind, "")
	root := spot{path: Path{}, kind: kind, size: size, head: first, first: first, end: len(w.lines)}
	s := sample{lines: w.lines, eol: []string{"\n", "\n", "\r\n"}[w.pick(3)], spots: append(w.spots, root)}
	s.text = strings.Join(w.lines, s.eol)
	if w.literal || len(w.lines) == 1 || w.pick(2) == 0 { // a text without any line end would not show which kind it uses
		s.text += s.eol
	}
	if w.pick(5) == 0 {
		s.text = "\ufeff" + s.text
	}
	return s
}
