package units

import (
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strings"

	"holdover/profiles"
)

// This file reads quantities as people write them and no table of units has them: words for units, fractions, thousands
// apart by commas, amounts of money. What its words mean stands in profiles/everyday.yaml. What may mean two things is asked
// about, never guessed.

// typeset are signs that a word processor or a spec sheet has in place of those of a keyboard.
var typeset = strings.NewReplacer("\u00a0", " ", "\u202f", " ", "\u2009", " ", "−", "-", "–", "-", "’", "'", "′", "'",
	"″", "\"", "”", "\"", "º", "°", "²", "2", "³", "3", "⁄", "/")

func untypeset(text string) string { return strings.TrimSpace(typeset.Replace(text)) }

// readEveryday is [Read] for what is more than a decimal number and the sign of a unit.
func readEveryday(text string, d Dimension, s System) (Reading, error) {
	plain := untypeset(text)
	if d.words {
		if hours, ok := lengthWord(plain); ok {
			u, _ := d.find("h")
			return d.reading(text, hours, u, Reading{Unit: u.name})
		}
	}
	value, name, err := signed(withoutAbout(plain))
	if errors.Is(err, errNoNumber) {
		return Reading{}, fmt.Errorf("%q is not a number with a unit; %s is wanted, like %q", text, d.Article, d.Example)
	}
	if err != nil {
		return Reading{}, d.fault(text, err)
	}
	if name == "" || slices.Contains(profiles.EverydayInput().Bare, profiles.Tidy(name)) && d.us != "" {
		u := d.must(d.BareUnit(s))
		return d.reading(text, value, u, Reading{Unit: u.name, Bare: true})
	}
	if u, ok := d.named(name); ok {
		return d.reading(text, value, u, Reading{Unit: u.name})
	}
	if r, ok := d.parts(text, value, name); ok {
		return r, nil
	}
	if question, ok := d.question(text, name); ok {
		return Reading{}, errors.New(question)
	}
	return Reading{}, d.unknown(text, name)
}

func lengthWord(text string) (hours float64, ok bool) {
	for _, l := range profiles.EverydayInput().Lengths {
		if l.Word == profiles.Tidy(text) {
			return l.Hours, true
		}
	}
	return 0, false
}

// withoutAbout takes a word such as "about" off the front.
func withoutAbout(text string) string {
	for _, word := range profiles.EverydayInput().About {
		if len(text) < len(word) || !strings.EqualFold(text[:len(word)], word) {
			continue
		}
		rest := text[len(word):]
		if trimmed := strings.TrimLeft(rest, ". "); trimmed != rest || len([]rune(word)) == 1 {
			return trimmed
		}
	}
	return text
}

// dollars is a currency sign before its number.
var dollars = regexp.MustCompile(`^([+-]?)(?:US\$|USD|\$)\s*(.*)$`)

// signed reads a number and what stands after it. A currency sign in front counts as if it stood behind: "$8k" is 8 kUSD, and
// "$4/gal" is 4 USD/gal.
func signed(text string) (value float64, name string, err error) {
	m := dollars.FindStringSubmatch(text)
	if m == nil {
		return everydayNumber(text)
	}
	value, name, err = everydayNumber(m[1] + m[2])
	switch {
	case err != nil:
		return 0, "", err
	case name == "", strings.HasPrefix(name, "/"), strings.HasPrefix(name, "per "):
		return value, strings.TrimSpace("USD " + name), nil
	}
	return value, name, nil
}

var (
	errNoNumber = errors.New("is not a number")
	errComma    = errors.New("has a comma that does not set thousands apart: is it a decimal point, like 1.5, or a thousand, like 1,500?")

	fraction = regexp.MustCompile(`^([+-]?)(?:([0-9]+)(?: +| ?- ?))?([0-9]+)/([0-9]+)(.*)$`)
	vulgar   = regexp.MustCompile(`^([+-]?)([0-9]*) ?([½¼¾⅓⅔⅛⅜⅝⅞])(.*)$`)
	grouped  = regexp.MustCompile(`^([+-]?[0-9]{1,3}(?:(?:,[0-9]{3})+|(?: [0-9]{3})+)(?:\.[0-9]+)?)(.*)$`)
	spelt    = regexp.MustCompile(`^([a-zA-Z]+(?: an?)?) +(\S.*)$`)
)

var vulgarFractions = map[string]float64{"½": 1.0 / 2, "¼": 1.0 / 4, "¾": 3.0 / 4, "⅓": 1.0 / 3, "⅔": 2.0 / 3,
	"⅛": 1.0 / 8, "⅜": 3.0 / 8, "⅝": 5.0 / 8, "⅞": 7.0 / 8}

// everydayNumber reads the number that a text begins with and gives what is left of the text. The error is errNoNumber where
// it begins with none.
func everydayNumber(text string) (value float64, rest string, err error) {
	if m := fraction.FindStringSubmatch(text); m != nil {
		return mixed(m[1], m[2], m[3], m[4], m[5])
	}
	if m := vulgar.FindStringSubmatch(text); m != nil {
		whole, err := number("0" + m[2])
		return negative(m[1], whole+vulgarFractions[m[3]]), strings.TrimSpace(m[4]), err
	}
	if m := grouped.FindStringSubmatch(text); m != nil && !continues(m[2]) {
		value, err = number(strings.NewReplacer(",", "", " ", "").Replace(m[1]))
		return value, strings.TrimSpace(m[2]), err
	}
	if m := quantity.FindStringSubmatch(text); m != nil {
		if continues(m[2]) && m[2][0] == ',' {
			return 0, "", errComma
		}
		value, err = number(m[1])
		return value, strings.TrimSpace(m[2]), err
	}
	if m := spelt.FindStringSubmatch(text); m != nil {
		if value, ok := profiles.EverydayInput().Numbers[strings.ToLower(m[1])]; ok {
			return value, m[2], nil
		}
	}
	return 0, "", errNoNumber
}

// mixed is a whole number and a fraction, such as 1 1/2.
func mixed(sign, whole, over, under, rest string) (float64, string, error) {
	var parts [3]float64
	for i, text := range []string{"0" + whole, over, under} {
		var err error
		if parts[i], err = number(text); err != nil {
			return 0, "", err
		}
	}
	if parts[2] == 0 {
		return 0, "", errors.New("is a fraction over nothing")
	}
	return negative(sign, parts[0]+parts[1]/parts[2]), strings.TrimSpace(rest), nil
}

func negative(sign string, value float64) float64 {
	if sign == "-" {
		return -value
	}
	return value
}

// continues says whether digits go on after what was taken for a number.
func continues(rest string) bool {
	return rest != "" && (rest[0] == ',' || rest[0] >= '0' && rest[0] <= '9')
}

// named looks a unit up by its sign or by a word for it; a unit over another by both of its parts.
func (d Dimension) named(name string) (unit, bool) {
	if u, ok := d.find(name); ok {
		return u, true
	}
	if sign, ok := profiles.UnitSign(name); ok {
		return d.exact(sign)
	}
	for _, over := range []string{"/", " per "} {
		if top, bottom, ok := strings.Cut(strings.ToLower(name), over); ok {
			return d.exact(signOf(top) + "/" + signOf(bottom))
		}
	}
	return unit{}, false
}

func signOf(word string) string {
	if sign, ok := profiles.UnitSign(word); ok {
		return sign
	}
	return canonical(strings.TrimSpace(word))
}

// canonical is a sign as the tables write it, whatever its case.
func canonical(sign string) string {
	for _, d := range all {
		if u, ok := d.find(sign); ok && sign != "" {
			return u.name
		}
	}
	return sign
}

func (d Dimension) exact(sign string) (unit, bool) {
	for _, u := range d.units {
		if u.name == sign {
			return u, true
		}
	}
	return unit{}, false
}

var partsOf = regexp.MustCompile(`^([^0-9]+?) *([0-9].*)$`)

// parts reads what is given in two units or more, the larger first, such as 5 ft 6 in or 1 h 30 min. Each needs its unit.
func (d Dimension) parts(text string, value float64, name string) (Reading, bool) {
	m := partsOf.FindStringSubmatch(name)
	if m == nil || !d.compound {
		return Reading{}, false
	}
	first, ok := d.named(m[1])
	if !ok {
		return Reading{}, false
	}
	sum, last := value*first.factor, first
	for rest := m[2]; rest != ""; {
		value, name, err := everydayNumber(rest)
		if err != nil {
			return Reading{}, false
		}
		next, more := name, ""
		if m := partsOf.FindStringSubmatch(name); m != nil {
			next, more = m[1], m[2]
		}
		u, ok := d.named(next)
		if next == "" || !ok || u.factor >= last.factor {
			return Reading{}, false
		}
		sum, last, rest = sum+value*u.factor, u, more
	}
	said := d.Base
	if d.us != "" {
		said = first.name // a length in feet and inches stays one in feet
	}
	r, err := d.reading(text, sum, unit{d.Base, 1, 0}, Reading{Unit: said})
	return r, err == nil
}

// question is what to ask about a unit that is likely to be a slip.
func (d Dimension) question(text, name string) (string, bool) {
	ask, ok := profiles.AskUnit(name, d.Name)
	if !ok {
		return "", false
	}
	question := ask.Say
	if question == "" {
		question = strings.TrimSuffix(strings.TrimSpace(untypeset(text)), name) + ask.Ask + "?"
	}
	for _, other := range all {
		if u, ok := other.named(name); ok && u.name != "" && other.Name != d.Name {
			return fmt.Sprintf("%q is %s; %s is wanted: %s", text, other.Article, d.Article, question), true
		}
	}
	return fmt.Sprintf("%q is not clear; %s is wanted: %s", text, d.Article, question), true
}
