package profiles

import (
	"bytes"
	"maps"
	"path"
	"regexp"
	"slices"
	"strings"
	"sync"

	"gopkg.in/yaml.v3"
)

// A Code is one edition of a wiring code. Everything that it says, by number, clause or phrase, stands in its file in the folder
// code and nowhere else; a new edition is one file, which may be like an older one and give only what is different.
type Code struct {
	Name     string
	Title    string   `yaml:"title"`
	Like     string   `yaml:"like"`     // the edition that holds where this file says nothing
	Cites    string   `yaml:"cites"`    // what stands before a clause
	Edition  string   `yaml:"edition"`  // what stands behind it
	Supplies []string `yaml:"supplies"` // the kinds of service it is for, as a home file has them
	Usual    bool     `yaml:"usual"`    // followed for these where the home file names none, if its own file says so
	Detailed bool     `yaml:"detailed"` // it has a calculated load, equipment, wire and its grounding; else only physics is told
	Unknown  string   `yaml:"unknown"`  // the source of a rule of which nothing is known
	Foot     string   `yaml:"foot"`     // how what is quoted is to be taken

	file    editionFile
	rules   *sync.Map // id → Rule, of those asked for so far
	dryers  func() DryerDemand
	cooking func() CookingLoad
	wire    func() Wire
	motors  func() motorTables
}

// A Rule is one entry of a code: where it stands, what it says and the numbers in it. Its lists are read only.
type Rule struct {
	ID         string             `yaml:"id"` // of our own; in a code the key that it stands under
	Clause     string             `yaml:"clause"`
	Quote      string             `yaml:"source"`      // the whole source, where it is no clause of this code
	FromMemory bool               `yaml:"from_memory"` // it was recalled and not read again
	Read       string             `yaml:"read"`        // else where it was read
	None       bool               `yaml:"none"`        // this edition has no such rule
	Item       string             `yaml:"item"`        // the thing it asks for, as a bill of materials has it
	Words      string             `yaml:"words"`       // what it says; {name} is a value, {name %} the same as a percentage
	Phrases    map[string]string  `yaml:"phrases"`     // what else it says, by the occasion
	Values     map[string]float64 `yaml:"values"`
	Steps      Steps              `yaml:"steps"`
	List       []float64          `yaml:"list"`

	code *Code
}

// Source is where the rule stands, in which edition, and how that is known: with "from memory" where it is.
func (r Rule) Source() string {
	if r.Clause == "" {
		if r.Quote != "" {
			return r.Quote
		}
		return r.code.Unknown
	}
	parts := []string{r.Short(), r.code.Edition, r.Read}
	if r.FromMemory {
		parts[2] = "from memory"
	}
	return strings.Join(slices.DeleteFunc(parts, func(s string) bool { return s == "" }), ", ")
}

// Short is where the rule stands and no more: its clause.
func (r Rule) Short() string {
	if r.Clause == "" {
		return r.Source()
	}
	return r.code.Cites + " " + r.Clause
}

// Value is one of its numbers; one that it lacks is a programmer's error.
func (r Rule) Value(name string) float64 {
	value, ok := r.Values[name]
	if !ok {
		panic("profiles: " + r.code.Name + ": " + r.ID + " has no " + name)
	}
	return value
}

// Phrase is the rule with its words for an occasion in place of its own; an unknown occasion is a programmer's error.
func (r Rule) Phrase(occasion string) Rule {
	words, ok := r.Phrases[occasion]
	if !ok {
		panic("profiles: " + r.code.Name + ": " + r.ID + " says nothing of " + occasion)
	}
	r.Words = words
	return r
}

// Rule gives the entry of an id, which is parsed alone: a plan asks for few of them. Every edition answers every id; one that no
// edition has is a programmer's error.
func (c *Code) Rule(id string) Rule {
	if r, ok := c.rules.Load(id); ok {
		return r.(Rule)
	}
	parts := c.file.parts("rules", id)
	if len(parts) == 0 && !slices.Contains(section[[]string](c.file, "silent")(), id) {
		panic("profiles: " + c.Name + ": no rule " + id)
	}
	r := decodeParts[Rule](parts, id, c.Name)
	r.ID, r.code = id, c
	if own := (editionFile{c.Name, c.file.texts[:1]}); c.Like != "" && r.Read != "" && decodeParts[Rule](own.parts("rules", id), id, c.Name).Read == "" {
		r.Read = "taken to be as in an older edition, " + r.Read
	}
	c.rules.Store(id, r)
	return r
}

var inBraces = regexp.MustCompile(`\{([a-z-]+)\}`)

// Caution fills in a caution that names rules by their ids in braces: "{transfer-equipment}" becomes where the code has it.
func (c *Code) Caution(of Caution) Caution {
	of.Text = strings.ReplaceAll(strings.TrimSpace(of.Text), "{code}", c.Title)
	of.Source = inBraces.ReplaceAllStringFunc(of.Source, func(id string) string { return c.Rule(id[1 : len(id)-1]).Source() })
	return of
}

// Dryers is the demand of clothes dryers, and Cooking that of household cooking appliances.
func (c *Code) Dryers() DryerDemand  { return c.dryers() }
func (c *Code) Cooking() CookingLoad { return c.cooking() }

// Wire gives the tables of wire sizes, read only.
func (c *Code) Wire() Wire { return c.wire() }

// NextRating is the smallest standard rating of a breaker, A, that is not less; the largest there is where none is.
func (c *Code) NextRating(amps float64) float64 {
	all := c.Rule("ratings").List
	if rating, ok := find(all, func(rating float64) bool { return rating >= amps-1e-9 }); ok {
		return rating
	}
	return all[len(all)-1]
}

const codeFolder = "code"

// codes are the editions by the names of their files, each read when it is first asked for.
var codes = func() map[string]func() *Code {
	entries, err := files.ReadDir(codeFolder)
	if err != nil {
		panic("profiles: " + err.Error())
	}
	all := map[string]func() *Code{}
	for _, e := range entries {
		name := strings.TrimSuffix(e.Name(), ".yaml")
		all[name] = sync.OnceValue(func() *Code { return NewCode(name, codeText(name)) })
	}
	return all
}()

func codeText(name string) []byte { return text(path.Join(codeFolder, name+".yaml")) }

// Codes lists the names of the editions.
func Codes() []string { return slices.Sorted(maps.Keys(codes)) }

// FindCode gives the edition of that name.
func FindCode(name string) (*Code, bool) {
	code, ok := codes[name]
	if !ok {
		return nil, false
	}
	return code(), true
}

// UsualCode is the edition for a kind of service, such as "230 V", where the home file names none.
func UsualCode(service string) *Code {
	name, ok := usualCodes()[service]
	if !ok {
		panic("profiles: no code for " + service)
	}
	return codes[name]()
}

// usualCodes names the edition for each kind of service, by what each file says of itself.
var usualCodes = sync.OnceValue(func() map[string]string {
	usual := map[string]string{}
	for _, name := range Codes() {
		if own := aboutCode(editionFile{name, [][]byte{codeText(name)}}); own.Usual {
			for _, service := range own.Supplies {
				usual[service] = name
			}
		}
	}
	return usual
})

// NewCode makes an edition of the text of its file. The sections of a file, its top-level keys, are parsed when they are first
// asked for, since a plan asks for few of them. A text that is no edition is a programmer's error.
func NewCode(name string, content []byte) *Code {
	f := editionFile{name, [][]byte{content}}
	c := aboutCode(f)
	for like := c.Like; like != ""; {
		older := editionFile{like, [][]byte{codeText(like)}}
		f.texts, like = append(f.texts, older.texts...), aboutCode(older).Like
	}
	if len(f.texts) > 1 {
		c = aboutCode(f)
	}
	c.Name, c.Foot = name, strings.ReplaceAll(c.Foot, "{edition}", c.Edition)
	c.file, c.rules = f, &sync.Map{}
	c.dryers, c.cooking = section[DryerDemand](f, "dryers"), section[CookingLoad](f, "cooking")
	c.wire, c.motors = section[Wire](f, "wire"), section[motorTables](f, "motors")
	return &c
}

func aboutCode(f editionFile) Code { return section[Code](f, "about")() }

// An editionFile is the text of an edition, and of those that it is like, the newest first.
type editionFile struct {
	name  string
	texts [][]byte
}

// section gives a function that parses one top-level key: what the newest text says of it laid over the older ones, key by key.
// A section that no text has is empty.
func section[T any](f editionFile, key string) func() T {
	return sync.OnceValue(func() T { return decodeParts[T](f.parts(key), key, f.name) })
}

// parts cuts the block of a key, within the blocks of those before it, out of each text that has it, the oldest first.
func (f editionFile) parts(keys ...string) (parts [][]byte) {
	for _, content := range slices.Backward(f.texts) {
		for depth, key := range keys {
			content = cutBlock(content, strings.Repeat("  ", depth)+key+":")
		}
		if content != nil {
			parts = append(parts, content)
		}
	}
	return parts
}

// cutBlock gives the lines of a key, which begin with head: its own, and those after it that begin with no word so far to the left.
// nil where it is not there.
func cutBlock(content []byte, head string) []byte {
	depth := len(head) - len(strings.TrimLeft(head, " "))
	from, at := -1, 0
	for line := range bytes.Lines(content) {
		left := len(line) - len(bytes.TrimLeft(line, " "))
		if isWord := line[left] >= 'a' && line[left] <= 'z'; from >= 0 && isWord && left <= depth {
			return content[from:at]
		}
		if from < 0 && bytes.HasPrefix(line, []byte(head)) {
			from = at
		}
		at += len(line)
	}
	if from < 0 {
		return nil
	}
	return content[from:]
}

// decodeParts decodes what a key has in the newest part, laid over the older ones. Without any part it is empty.
func decodeParts[T any](parts [][]byte, key, name string) (out T) {
	switch len(parts) {
	case 0:
		return out
	case 1:
		return decode[map[string]T](parts[0], name)[key]
	}
	var merged yaml.Node
	for _, part := range parts {
		newer := decode[yaml.Node](part, name)
		layOver(&merged, newer.Content[0])
	}
	whole, err := yaml.Marshal(&merged)
	if err != nil {
		panic("profiles: " + name + ": " + err.Error())
	}
	return decode[map[string]T](whole, name)[key]
}

// layOver puts the keys of a mapping over those of an older one. Lists and single values are replaced whole.
func layOver(older, newer *yaml.Node) {
	if older.Kind != yaml.MappingNode || newer.Kind != yaml.MappingNode {
		*older = *newer
		return
	}
	at := map[string]*yaml.Node{}
	for i := 0; i+1 < len(older.Content); i += 2 {
		at[older.Content[i].Value] = older.Content[i+1]
	}
	for i := 0; i+1 < len(newer.Content); i += 2 {
		if value, there := at[newer.Content[i].Value]; there {
			layOver(value, newer.Content[i+1])
		} else {
			older.Content = append(older.Content, newer.Content[i], newer.Content[i+1])
		}
	}
}
