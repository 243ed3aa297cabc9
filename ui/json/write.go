package json

import (
	"encoding/json"
	"strconv"
	"strings"

	"holdover/loads/visible"
)

// indented writes a value as JSON. Hidden characters of names stand in it as in text, by their code points and not by JSON's
// escapes: whoever prints a string that was read from it prints what can be seen.
func indented(value any) (string, error) {
	text, err := json.MarshalIndent(value, "", "  ")
	if err != nil {
		return "", err
	}
	return visible.Lines(unescaped(string(text))) + "\n", nil
}

// unescaped is JSON in which the escapes that the encoder writes for hidden characters are their code points.
func unescaped(text string) string {
	var b strings.Builder
	for {
		before, rest, found := strings.Cut(text, `\`)
		b.WriteString(before)
		if !found {
			return b.String()
		}
		length, r := 1, map[byte]rune{'b': '\b', 'f': '\f', 'r': '\r'}[rest[0]]
		if rest[0] == 'u' {
			code, _ := strconv.ParseUint(rest[1:5], 16, 16)
			length, r = 5, rune(code)
		}
		if r != 0 && visible.Hidden(r) || rest[:length] == "u0000" {
			b.WriteString(visible.Code(r))
		} else {
			b.WriteString(`\` + rest[:length])
		}
		text = rest[length:]
	}
}

// listed is the list, never nil.
func listed[T any](list []T) []T {
	if list == nil {
		return []T{}
	}
	return list
}

// each is a list of what is said of each of another, never nil.
func each[A, B any](all []A, say func(A) B) []B {
	out := make([]B, 0, len(all))
	for _, one := range all {
		out = append(out, say(one))
	}
	return out
}
