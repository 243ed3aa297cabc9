package profiles

import (
	"slices"

	"gopkg.in/yaml.v3"
)

// Default is what is assumed where a home file is silent.
type Default struct {
	Key     string    `yaml:"key"`   // section and key, like "assume.power_margin"
	Value   yaml.Node `yaml:"value"` // in the syntax of a home file; read only
	Meaning string    `yaml:"meaning"`
	Source  string    `yaml:"source"`
}

// Label is what a list of defaults shows.
func (d Default) Label() (key, meaning string) { return d.Key, d.Meaning }

var defaults = table[[]Default]("assume.yaml")

// Defaults lists what is assumed, section by section. What follows from the battery chemistry is not here: see
// [Chemistry].
func Defaults() []Default { return slices.Clone(defaults()) }
