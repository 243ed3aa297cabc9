package profiles

import "slices"

// Caution is a warning in plain words. Word is the signal word, used as ANSI Z535 does: DANGER will kill if ignored,
// WARNING could kill, CAUTION could hurt or harm things, NOTICE is no danger to people.
type Caution struct {
	ID     string `yaml:"id"`
	Word   string `yaml:"word"`
	Text   string `yaml:"text"`
	Source string `yaml:"source"`
}

var cautions = table[[]Caution]("cautions.yaml")

// Cautions lists all of them, the gravest first.
func Cautions() []Caution { return slices.Clone(cautions()) }

// FindCaution gives the caution of that id.
func FindCaution(id string) (Caution, bool) {
	return find(cautions(), func(c Caution) bool { return c.ID == id })
}
