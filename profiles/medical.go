package profiles

import (
	"slices"
	"strings"
	"unicode"
)

var medicalWords = table[struct {
	Words  []string `yaml:"words"`
	Source string   `yaml:"source"`
}]("medical.yaml")

// Medical says whether a circuit keeps someone well: it starts from a medical profile, or its name says so.
func Medical(like, name string) bool {
	if c, ok := FindCircuit(like); ok && c.Group == "medical" {
		return true
	}
	name = " " + strings.Join(strings.FieldsFunc(strings.ToLower(name), func(r rune) bool { return !unicode.IsLetter(r) }), " ")
	return slices.ContainsFunc(medicalWords().Words, func(word string) bool { return strings.Contains(name, " "+word) })
}
