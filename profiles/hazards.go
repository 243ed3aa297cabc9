package profiles

var hazards = registry[Caution](table[[]Caution]("hazards.yaml"))

// Hazards lists the warnings that belong to a transfer job alone, the gravest first.
func Hazards() []Caution { return hazards.all() }

// FindHazard gives the warning of that id, be it a transfer job's own or one of [Cautions].
func FindHazard(id string) (Caution, bool) {
	if c, ok := hazards.find(id); ok {
		return c, true
	}
	return FindCaution(id)
}
