package edit

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"gopkg.in/yaml.v3"
)

// yamlOneWords are plain in YAML 1.2 but true, false or null to a reader of YAML 1.1 (yaml.org/type/bool.html), so they
// are quoted for readers of either.
var yamlOneWords = map[string]bool{"y": true, "n": true, "yes": true, "no": true, "on": true, "off": true}

// Quote returns text as a YAML scalar on one line that reads back as exactly that string, in block and in flow style:
// plain where that is safe, else in double quotes. Bytes that are not UTF-8 become U+FFFD, as YAML has no way to hold
// them in a string.
func Quote(text string) string {
	text = strings.ToValidUTF8(text, "\ufffd")
	if plainSafe(text) {
		return text
	}
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range text {
		writeEscaped(&b, r)
	}
	b.WriteByte('"')
	return b.String()
}

// plainSafe is stricter than YAML: only texts that no reader could take for anything but a string.
func plainSafe(text string) bool {
	first, size := utf8.DecodeRuneInString(text)
	if first == '-' {
		first, _ = utf8.DecodeRuneInString(text[size:])
	}
	if !isWordRune(first) || strings.HasSuffix(text, " ") || yamlOneWords[strings.ToLower(text)] {
		return false
	}
	for _, r := range text {
		if !unicode.IsPrint(r) || strings.ContainsRune(":#,[]{}\"\\&*!?|>`", r) {
			return false
		}
	}
	var doc yaml.Node
	err := yaml.Unmarshal([]byte(text), &doc)
	return err == nil && len(doc.Content) == 1 && doc.Content[0].Tag == "!!str" && doc.Content[0].Value == text
}

func isWordRune(r rune) bool {
	return r != utf8.RuneError && (unicode.IsLetter(r) || unicode.IsDigit(r))
}

func writeEscaped(b *strings.Builder, r rune) {
	switch {
	case r == '"' || r == '\\':
		b.WriteByte('\\')
		b.WriteRune(r)
	case r == '\n':
		b.WriteString(`\n`)
	case r == '\t':
		b.WriteString(`\t`)
	case r == '\r':
		b.WriteString(`\r`)
	case unicode.IsPrint(r):
		b.WriteRune(r)
	case r <= 0xFF:
		fmt.Fprintf(b, `\x%02X`, r)
	case r <= 0xFFFF:
		fmt.Fprintf(b, `\u%04X`, r)
	default:
		fmt.Fprintf(b, `\U%08X`, r)
	}
}
