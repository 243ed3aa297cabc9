package profiles

import "slices"

// Names of entries, as a home file has them.
type (
	FuelName      string
	ChemistryName string
	EngineName    string
	PlaceName     string
)

// An Entry is what every entry of a registry has; the rest of it are its traits. All that the program knows of a thing follows from
// its entry: what a home file may say, what it costs, which machines and which cautions go with it.
type Entry[N ~string] struct {
	Name   N      `yaml:"name"`   // lower case with hyphens, unique in its registry
	Title  string `yaml:"title"`  // for people
	Source string `yaml:"source"` // where its figures are from
}

// Label is what a list of entries shows.
func (e Entry[N]) Label() (name, title string) { return string(e.Name), e.Title }

// labelled is what has a name and is shown in lists.
type labelled interface{ Label() (name, title string) }

// A registry is the entries of one file, by name.
type registry[E labelled] func() []E

func (r registry[E]) all() []E { return slices.Clone(r()) }

func (r registry[E]) find(name string) (E, bool) {
	return find(r(), func(e E) bool {
		called, _ := e.Label()
		return called == name
	})
}

func namesOf[E labelled](entries []E) []string {
	names := make([]string, len(entries))
	for i, e := range entries {
		names[i], _ = e.Label()
	}
	return names
}

// Names lists the names that a key of the home file takes from a registry: chemistries, codes (editions of a wiring code), engines, fuels, gases (the fuels that reach an
// engine as gas), places or circuits. Another word is a programmer's error.
func Names(of string) []string { return names[of]() }

var names = map[string]func() []string{
	"chemistries": func() []string { return namesOf(chemistries()) },
	"engines":     func() []string { return namesOf(engines()) },
	"fuels":       func() []string { return namesOf(fuels()) },
	"gases":       func() []string { return namesOf(slices.DeleteFunc(Fuels(), func(f Fuel) bool { return !f.Gas() })) },
	"codes":       Codes,
	"places":      func() []string { return namesOf(places().Places) },
	"circuits":    func() []string { return namesOf(Circuits()) },
}
