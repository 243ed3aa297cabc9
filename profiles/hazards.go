package profiles

import "slices"

var hazards = table[[]Caution]("hazards.yaml")

// Hazards lists the warnings that belong to a transfer job alone, the gravest first.
func Hazards() []Caution { return slices.Clone(hazards()) }

// FindHazard gives the warning of that id, be it a transfer job's own or one of [Cautions].
func FindHazard(id string) (Caution, bool) {
	if c, ok := find(hazards(), func(c Caution) bool { return c.ID == id }); ok {
		return c, true
	}
	return FindCaution(id)
}
