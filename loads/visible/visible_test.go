package visible

import (
	"strconv"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"github.com/rivo/uniseg"
	"github.com/stretchr/testify/assert"
)

func TestHiddenCharactersAreSeen(t *testing.T) {
	for text, want := range map[string]string{
		"Kitchen, 120 V · 3 kW":         "Kitchen, 120 V · 3 kW",
		"Kühlschrank 冷蔵庫":               "Kühlschrank 冷蔵庫",
		"a\x1b[31mb\tc\nd":              "a<U+001B>[31mb c d",
		"a\u202eb\u2066c\u2069":         "a<U+202E>b<U+2066>c<U+2069>",
		"a\u200eb\u200fc\u061cd":        "a<U+200E>b<U+200F>c<U+061C>d",
		"a\u200bb\u200cc\u200dd":        "a<U+200B>b<U+200C>c<U+200D>d",
		"a\u2060b\ufeffc\u00add":        "a<U+2060>b<U+FEFF>c<U+00AD>d",
		"a\u2028b\u2029c\u0085d":        "a<U+2028>b<U+2029>c<U+0085>d",
		"a\u3164b\u115fc\u034fd":        "a<U+3164>b<U+115F>c<U+034F>d",
		"a\U000e0041\ufe0e\U000e0100":   "a<U+E0041><U+FE0E><U+E0100>",
		"a\ue000b\u0378":                "a<U+E000>b<U+0378>",
		"a\u00a0b\u3000c":               "a b c",
		"❄\ufe0f Freezer":               "❄\ufe0f Freezer",
		"👨\u200d👩\u200d👧":               "👨\u200d👩\u200d👧",
		"👩🏽\u200d⚕\ufe0f❤\ufe0f\u200d🔥": "👩🏽\u200d⚕\ufe0f❤\ufe0f\u200d🔥",
		"👨\u200da":                      "👨<U+200D>a",
		"👨\u200d\u200d👩":                "👨<U+200D><U+200D>👩",
		"\u200d👩":                       "<U+200D>👩",
		"x\ufe0f\u200d👩":                "x<U+FE0F><U+200D>👩",
	} {
		assert.Equal(t, want, Text(text), "%q", text)
	}
	assert.Equal(t, "one\n\u00a0two<U+0007>", Lines("one\n\u00a0two\a"))
}

// Every format character that Unicode has is seen, whichever came with the last version.
func TestEveryFormatCharacterIsHidden(t *testing.T) {
	for r := rune(0); r <= unicode.MaxRune; r++ {
		if unicode.In(r, unicode.Cf, unicode.Cc, unicode.Zl, unicode.Zp, unicode.Bidi_Control, unicode.Join_Control) && utf8.ValidRune(r) {
			assert.True(t, Hidden(r), "%U", r)
			if r != '\n' {
				assert.Equal(t, "a"+Code(r)+"b", Lines("a"+string(r)+"b"))
			}
		}
	}
}

func TestCutKeepsToItsWidth(t *testing.T) {
	assert.Equal(t, "12345", Cut("12345", 5))
	assert.Equal(t, "1234…", Cut("123456", 5))
	assert.Equal(t, "冷蔵…", Cut("冷蔵庫", 5))
	assert.Equal(t, "e\u0301e\u0301…", Cut(strings.Repeat("e\u0301", 4), 3))
	assert.Less(t, len(Cut("e"+strings.Repeat("\u0301", 100_000), 80)), 100)
	assert.Equal(t, "a…", Cut("ab"+strings.Repeat("\u0301", 10_000), 80), "a letter with marks without end are left off")
}

func TestCutQuotedLeavesWhole(t *testing.T) {
	long := strings.Repeat("9", 5000)
	assert.Equal(t, `"`+long[:79]+`…" is not a number; "1.5 kW" is wanted`, CutQuoted(`"`+long+`" is not a number; "1.5 kW" is wanted`))
	assert.Equal(t, `no quote `+long, CutQuoted(`no quote `+long))
	assert.Equal(t, `open "`+long, CutQuoted(`open "`+long))
}

// What is quoted stays quoted: no escape is cut in two, no quote opened or closed.
func FuzzCutQuoted(f *testing.F) {
	f.Add(strings.Repeat("\u202e", 30), "and more")
	f.Add(strings.Repeat(`\"`, 60), `"`)
	f.Add(strings.Repeat("a", 76)+"\x1b\x1b\x1b", strings.Repeat("冷", 60))
	f.Add(strings.Repeat("a", 78)+`\\\\`, "")
	f.Fuzz(func(t *testing.T, first, second string) {
		message := CutQuoted("found " + strconv.Quote(first) + " and " + strconv.Quote(second) + " there")
		rest := strings.TrimPrefix(message, "found ")
		for _, text := range []string{first, second} {
			quoted, err := strconv.QuotedPrefix(rest)
			if err != nil {
				t.Fatalf("%q: %v", message, err)
			}
			inside := quoted[1 : len(quoted)-1]
			if wide := uniseg.StringWidth(inside); wide > Width {
				t.Fatalf("%d cells: %s", wide, quoted)
			}
			if got, _ := strconv.Unquote(quoted); got != text && !strings.HasPrefix(text, strings.TrimSuffix(got, "…")) {
				t.Fatalf("%q is no beginning of %q", got, text)
			}
			rest = strings.TrimPrefix(rest[len(quoted):], " and ")
		}
		if rest != " there" {
			t.Fatalf("%q", message)
		}
	})
}

// What is shown holds nothing hidden but what joins an emoji, and showing it again changes nothing.
func FuzzText(f *testing.F) {
	f.Add("a\u202eb \u200d👨\u200d👩 ❄\ufe0f\n\xff")
	f.Fuzz(func(t *testing.T, text string) {
		for _, shown := range []string{Text(text), Lines(text)} {
			if Lines(shown) != shown || !utf8.ValidString(shown) && utf8.ValidString(text) {
				t.Fatalf("%q becomes %q", shown, Lines(shown))
			}
			for _, r := range shown {
				if Hidden(r) && r != '\n' && r != joiner && r != emoji {
					t.Fatalf("%U in %q", r, shown)
				}
			}
		}
	})
}
