package profiles

// Caution is a warning in plain words. Word is the signal word, used as ANSI Z535 does: DANGER will kill if ignored,
// WARNING could kill, CAUTION could hurt or harm things, NOTICE is no danger to people.
type Caution struct {
	ID     string `yaml:"id"`
	Word   string `yaml:"word"`
	Text   string `yaml:"text"`
	Source string `yaml:"source"`
}

// Label is what a list of cautions shows.
func (c Caution) Label() (id, says string) { return c.ID, c.Word + ": " + c.Text }

var cautions = registry[Caution](table[[]Caution]("cautions.yaml"))

// Cautions lists all of them, the gravest first.
func Cautions() []Caution { return cautions.all() }

// FindCaution gives the caution of that id.
func FindCaution(id string) (Caution, bool) { return cautions.find(id) }
