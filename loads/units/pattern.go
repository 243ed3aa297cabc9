package units

import (
	"maps"
	"regexp"
	"slices"
	"strings"
	"unicode"

	"holdover/profiles"
)

// blanks are the spaces that a text may have, for a pattern.
const blanks = `[ \u00a0\u202f\u2009]`

// numeral is a pattern for the form of a number, loosely: it takes no blank at its end, so that whoever tries a pattern by going back
// and forth over a text has one way to try.
const numeral = `[0-9.,/½¼¾⅓⅔⅛⅜⅝⅞⁄]+([ \u00a0\u202f\u2009\-]+[0-9½¼¾⅓⅔⅛⅜⅝⅞][0-9.,/½¼¾⅓⅔⅛⅜⅝⅞⁄]*){0,5}([eE][+\-]?[0-9]+)?`

// Pattern is a regular expression, in the dialect of JSON Schema, that every text matches which [Read] takes for a quantity of
// dimension d. It looks at units and not at size, and at the form of a number loosely.
func (d Dimension) Pattern() string {
	table := profiles.EverydayInput()
	unit := "(" + strings.Join(d.unitPatterns(), "|") + ")"
	spelt := "(" + strings.Join(anyOf(keys(table.Numbers)), "|") + ")"
	about := "((" + strings.Join(anyOf(table.About), "|") + `)[. ]*)?`
	more := ""
	if d.compound {
		more = "(" + blanks + "*" + numeral + blanks + "*" + unit + "){0,5}"
	}
	pattern := about + `[+\-−–]?(US\$|USD|\$)?` + blanks + "*(" + numeral + "|" + spelt + ")" + blanks + "*(" + unit + more + ")?"
	if d.words {
		for _, l := range table.Lengths {
			pattern += "|" + anyCase(l.Word)
		}
	}
	return "^" + blanks + "*(" + pattern + ")" + blanks + "*$"
}

// unitPatterns are the patterns of every way to write a unit of d.
func (d Dimension) unitPatterns() []string {
	table := profiles.EverydayInput()
	words := map[string][]string{}
	for _, s := range table.Units {
		words[s.Means] = append(words[s.Means], s.Words...)
	}
	var out []string
	for _, u := range d.units {
		out = append(out, anyOf(append([]string{u.name}, words[u.name]...))...)
		if top, bottom, ok := strings.Cut(u.name, "/"); ok {
			over := "(" + blanks + "*/" + blanks + "*|" + blanks + "+" + anyCase("per") + blanks + "+)"
			left := strings.Join(anyOf(append([]string{top}, words[top]...)), "|")
			right := strings.Join(anyOf(append([]string{bottom}, words[bottom]...)), "|")
			if strings.HasPrefix(top, "USD") {
				left += "|" // the currency stands in front of the number
			}
			out = append(out, "("+left+")"+over+"("+right+")")
		}
	}
	if d.us != "" {
		out = append(out, anyOf(table.Bare)...)
	}
	return out
}

func anyOf(words []string) []string {
	out := make([]string, len(words))
	for i, word := range words {
		out[i] = anyCase(word)
	}
	return out
}

// anyCase is a pattern for a word in any case, with what [profiles.Tidy] takes no heed of.
func anyCase(word string) string {
	var b strings.Builder
	for _, r := range word {
		switch lower, upper := unicode.ToLower(r), unicode.ToUpper(r); {
		case r == '.':
			b.WriteString(`\.?`)
		case r == ' ':
			b.WriteString(`[ .\-_\u00a0]+`)
		case lower != upper && r < unicode.MaxASCII:
			b.WriteString("[" + string(lower) + string(upper) + `]\.?`)
		case r == '\'':
			b.WriteString(`['’′]`)
		case r == '"':
			b.WriteString(`["”″]`)
		case r == '2' || r == '3':
			b.WriteString("[" + string(r) + map[rune]string{'2': "²", '3': "³"}[r] + "]")
		default:
			b.WriteString(regexp.QuoteMeta(string(r)))
		}
	}
	if !strings.HasSuffix(b.String(), `\.?`) {
		b.WriteString(`\.?`)
	}
	return b.String()
}

func keys[V any](m map[string]V) []string { return slices.Sorted(maps.Keys(m)) }

// SharePattern is a pattern for what [ParseShare] takes and no JSON number is.
const SharePattern = `^[+\-−–]?` + numeral + ` *%?$`

// ClockPattern is a pattern, without its ends, for a clock time as people write it.
func ClockPattern() string {
	words := keys(profiles.EverydayInput().Clock)
	return `(([0-9]{1,2}([:.][0-5][0-9]|[hH]([0-5][0-9])?)? *([aApP]\.? ?[mM]\.?)?)|` + strings.Join(anyOf(words), "|") + ")"
}

// UsePattern is a pattern for how much of the time something is on, as people say it.
func UsePattern() string {
	time := strings.TrimSuffix(strings.TrimPrefix(LongTime.Pattern(), "^"), "$")
	share := strings.TrimSuffix(strings.TrimPrefix(SharePattern, "^"), "$") + "( +" + anyCase("of the") + " +(" + anyCase("time") + "|" + anyCase("day") + "))?"
	words := anyOf(keys(profiles.EverydayInput().Uses))
	return "^(" + time + "( */ *| +[a-zA-Z]+ +)?(" + anyCase("day") + "|d| *" + anyCase("daily") + ")?|" + share + "|" + strings.Join(words, "|") + ")$"
}

// WordsPattern is a pattern for the other ways to write one of some words; empty where there are none.
func WordsPattern(words []string) string {
	also := alsoWritten(words)
	if also == nil {
		return ""
	}
	return "^(" + strings.Join(also, "|") + ")$"
}

// ListPattern is a pattern for some words apart by commas, each as it is or as people also write it.
func ListPattern(words []string) string {
	one := "(" + strings.Join(append(slices.Clone(words), alsoWritten(words)...), "|") + ")"
	return "^ *" + one + "( *, *" + one + ")* *$"
}

func alsoWritten(words []string) (patterns []string) {
	for _, s := range profiles.EverydayInput().Words {
		if slices.Contains(words, s.Means) {
			patterns = append(patterns, anyOf(s.Words)...)
		}
	}
	return patterns
}
