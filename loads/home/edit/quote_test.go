package edit

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestQuote(t *testing.T) {
	plain := []string{"Kitchen refrigerator", "150 W", "1.5 kW", "120/240 V", "-5 F", "50%", "it's", "été", "a-b", "a  b", "5°"}
	for _, text := range plain {
		assert.Equal(t, text, Quote(text))
	}
	quoted := map[string]string{
		"": `""`, "yes": `"yes"`, "No": `"No"`, "on": `"on"`, "y": `"y"`, "true": `"true"`, "~": `"~"`, "null": `"null"`, "1e3": `"1e3"`, "0x1F": `"0x1F"`,
		"12": `"12"`, "-5": `"-5"`, "1_000": `"1_000"`, ".5": `".5"`, "12:30": `"12:30"`, "2026-01-31": `"2026-01-31"`,
		"# x": `"# x"`, "a #b": `"a #b"`, "a: b": `"a: b"`, "a, b": `"a, b"`, "[a": `"[a"`, "- a": `"- a"`, "-": `"-"`, "--- a": `"--- a"`,
		" a": `" a"`, "a ": `"a "`, "a\nb": `"a\nb"`, "a\tb": `"a\tb"`, "a\rb": `"a\rb"`, `a"b\c`: `"a\"b\\c"`,
		"\x00\x1b\x7f": `"\x00\x1B\x7F"`, "a\u00a0b": `"a\xA0b"`, "\u2028": `"\u2028"`, "\ufeffa": `"\uFEFFa"`,
		"\U0001F600": "\"\U0001F600\"", "\U000E0001": `"\U000E0001"`, "\xff": `"` + "\ufffd" + `"`, "!x": `"!x"`, "&x": `"&x"`, "*x": `"*x"`, "=": `"="`, "<<": `"<<"`,
	}
	for text, want := range quoted {
		assert.Equal(t, want, Quote(text), "%q", text)
	}
}

func TestQuote_ReadsBack_Property(t *testing.T) {
	odd := rapid.StringOf(rapid.SampledFrom([]rune(" \t\n\r:#,[]{}\"'\\-?!&*|>%@`~=<.01eExyYnNoO_é°\u0085\u00a0\u2028\ufeff\ufffd\x00\x7f")))
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.OneOf(odd, rapid.String()).Draw(t, "text")
		q := Quote(text)
		for _, place := range []string{q + "\n", "- " + q + " # c\n", "k: " + q + "\n", "k: {a: " + q + ", b: [" + q + "]}\n"} {
			require.Equal(t, text, firstString(decode(t, []byte(place))), "%s", place)
		}
		if len(q) < 1000 { // YAML 1.1, section 7.4.2: a key has at most 1024 characters
			require.Equal(t, map[string]any{text: 1}, decode(t, []byte(q+": 1\n")))
		}
	})
}

func firstString(v any) any {
	switch v := v.(type) {
	case []any:
		return firstString(v[0])
	case map[string]any:
		for _, key := range []string{"k", "b"} {
			if inner, ok := v[key]; ok {
				return firstString(inner)
			}
		}
	}
	return v
}
