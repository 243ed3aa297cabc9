package profiles

import (
	"slices"
	"strings"
	"sync"
)

// Everyday is how people write quantities and words, each with the meaning it is given: the table everyday.yaml. It is
// shared and must be read only.
type Everyday struct {
	About   []string           `yaml:"about"`   // stands in front of a number and changes nothing
	Numbers map[string]float64 `yaml:"numbers"` // numbers in words
	Units   []Synonyms         `yaml:"units"`   // by the sign of the unit
	Bare    []string           `yaml:"bare"`    // says no more than no unit does
	Unclear []Unclear          `yaml:"unclear"`
	Lengths []LengthWord       `yaml:"lengths"`
	Clock   map[string]string  `yaml:"clock"` // word → HH:MM
	Uses    map[string]float64 `yaml:"uses"`  // word → share of the time, 0 to 1
	Words   []Synonyms         `yaml:"words"` // by the word of a choice
	Either  []Either           `yaml:"either"`
}

// Synonyms are the other ways to write one thing.
type Synonyms struct {
	Means string   `yaml:"means"`
	Words []string `yaml:"words"`
}

// Label is what a list of them shows.
func (s Synonyms) Label() (means, also string) { return s.Means, "also " + strings.Join(s.Words, ", ") }

// Unclear is a unit that is likely to be a slip where a quantity of some dimensions stands.
type Unclear struct {
	Words []string `yaml:"words"`
	Where []string `yaml:"where"` // names of dimensions
	Ask   string   `yaml:"ask"`   // the unit that may be meant
	Say   string   `yaml:"say"`   // the question in full, in place of ask
}

// LengthWord is a length of time in a word.
type LengthWord struct {
	Word   string  `yaml:"word"`
	Hours  float64 `yaml:"hours"`
	Source string  `yaml:"source"`
}

// Either is a word that may be one thing or another.
type Either struct {
	Word string   `yaml:"word"`
	Of   []string `yaml:"of"`
}

var everyday = sync.OnceValue(func() Everyday {
	all := parse[Everyday]("everyday.yaml")
	for _, f := range fuels() {
		if f.Words != nil {
			all.Words = append(all.Words, Synonyms{string(f.Name), f.Words})
		}
	}
	return all
})

// EverydayInput gives the whole table.
func EverydayInput() Everyday { return everyday() }

// tidy are the signs in a word that make no difference.
var tidy = strings.NewReplacer(".", "", "-", " ", "_", " ")

// Tidy writes a word as the table has its words: in small letters, without full stops, with single blanks.
func Tidy(word string) string {
	return strings.Join(strings.Fields(tidy.Replace(strings.ToLower(word))), " ")
}

// UnitSign gives the sign of a unit that is written in words, such as "ft" for "feet"; ok is false for a word that is not
// known.
func UnitSign(word string) (sign string, ok bool) {
	sign, ok = unitSigns()[Tidy(word)]
	return sign, ok
}

var unitSigns = sync.OnceValue(func() map[string]string { return byWord(everyday().Units) })

// Meaning gives the word of a choice that an everyday word stands for, such as "si" for "metric"; ok is false for a word that is
// not known.
func Meaning(word string) (means string, ok bool) {
	means, ok = meanings()[Tidy(word)]
	return means, ok
}

var meanings = sync.OnceValue(func() map[string]string { return byWord(everyday().Words) })

func byWord(all []Synonyms) map[string]string {
	out := map[string]string{}
	for _, s := range all {
		for _, word := range s.Words {
			out[Tidy(word)] = s.Means
		}
	}
	return out
}

// MayMean lists the things that a word may stand for, where it may be one or another; nil for a word that is not known.
func MayMean(word string) []string {
	e, _ := find(everyday().Either, func(e Either) bool { return e.Word == Tidy(word) })
	return slices.Clone(e.Of)
}

// AskUnit finds what to ask about a unit that is likely to be a slip where a quantity of a dimension stands.
func AskUnit(word, dimension string) (Unclear, bool) {
	return find(everyday().Unclear, func(u Unclear) bool {
		return slices.Contains(u.Where, dimension) && slices.Contains(u.Words, Tidy(word))
	})
}
