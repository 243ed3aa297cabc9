package edit

import (
	"sort"
	"strings"
	"unicode/utf8"
)

// A patch puts text in the place of src[start:end], both byte offsets.
type patch struct {
	start, end int
	text       string
}

// tidy sorts patches by place; those at one place keep their order.
func tidy(patches []patch) []patch {
	sort.SliceStable(patches, func(i, j int) bool { return patches[i].start < patches[j].start })
	return patches
}

// apply returns a new text; patches must be sorted. One that overlaps the one before it would lose bytes, and the check
// on the tree may not see a lost comment, so it is a programmer's error.
func apply(src []byte, patches []patch) []byte {
	out := make([]byte, 0, len(src)+256)
	at := 0
	for _, p := range patches {
		if p.start < at || p.end < p.start {
			panic("edit: patches overlap")
		}
		out = append(out, src[at:p.start]...)
		out = append(out, p.text...)
		at = p.end
	}
	return append(out, src[at:]...)
}

// replace writes text over [start, end) and keeps a comment behind it in its column where there is room.
func (d *document) replace(start, end int, text string) patch {
	hash := d.skipSpaces(end)
	gap := hash - end
	if gap == 0 || hash == len(d.src) || d.src[hash] != '#' || d.lineAt(start) != d.lineAt(end) ||
		strings.Contains(string(d.src[end:hash]), "\t") {
		return patch{start, end, text}
	}
	grown := utf8.RuneCountInString(text) - utf8.RuneCount(d.src[start:end])
	return patch{start, hash, text + strings.Repeat(" ", max(1, gap-grown))}
}

// addLines puts whole lines at a line start, or at the end of a text that has no final line end: then the new text has
// none either.
func (d *document) addLines(at int, lines []string) patch {
	text := strings.Join(lines, d.eol)
	last := d.lines[len(d.lines)-1]
	if at == len(d.src) && last.start < last.end {
		return patch{at, at, d.eol + text}
	}
	return patch{at, at, text + d.eol}
}
