package home

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"reflect"
	"regexp"
	"strconv"
	"strings"
	"unicode/utf8"

	"gopkg.in/yaml.v3"

	"holdover/loads/units"
	"holdover/loads/visible"
	"holdover/profiles"
)

// MaxBytes bounds a home file. A thousand circuits take about 300 kB.
const MaxBytes = 4 << 20

// Read turns the text of a home file into a Home, its profiles and defaults filled in. name is what messages call the
// file. The error, when there is one, is a [Faults] with every fault found.
func Read(text []byte, name string) (*Home, error) {
	house, _, err := ReadTree(text, name)
	return house, err
}

// ReadTree is [Read] for those who want the YAML of the text too; it is a mapping, and nothing is changed in it.
func ReadTree(text []byte, name string) (*Home, *yaml.Node, error) {
	root, faults := parse(text, name)
	if faults != nil {
		return nil, nil, faults
	}
	house, err := readHome(root, name)
	return house, root, err
}

// readHome reads the mapping of a home file.
func readHome(root *yaml.Node, name string) (*Home, error) {
	house := &Home{file: name, origins: map[string]Origin{}}
	r := newReader(name, systemOf(root), house.origins)
	r.readDefaults(house)
	r.source = "home file"
	r.mapping(root, reflect.ValueOf(house).Elem(), "")
	if house.Version == 0 && len(r.faults) == 0 {
		r.fault(root, "holdover", "the format version is missing; begin the file with %q", "holdover: 1")
	}
	r.finish(root, house)
	if len(r.faults) > 0 {
		return nil, r.found()
	}
	return house, nil
}

func newReader(file string, s units.System, origins map[string]Origin) *reader {
	return &reader{file: file, system: s, origins: origins, motors: map[string]float64{}}
}

// systemOf is home.units, which decides what the bare numbers of the whole file mean, wherever it stands: us unless it says si.
func systemOf(root *yaml.Node) units.System {
	switch word := child(child(root, "home"), "units").Value; word {
	case "", string(units.US): // there is none, or the usual one: no need to read the table of words
		return units.US
	case string(units.SI):
		return units.SI
	default:
		if means, _ := profiles.Meaning(word); means == string(units.SI) {
			return units.SI
		}
		return units.US
	}
}

// parse checks the text as text and as YAML: one document, a mapping, without anchors.
func parse(text []byte, name string) (*yaml.Node, Faults) {
	root, faults := parseAny(text, name)
	if faults == nil && root.Kind != yaml.MappingNode {
		return nil, Faults{{File: name, Line: root.Line, Message: describe(root) + " found; a home file is a mapping that begins with \"holdover: 1\""}}
	}
	return root, faults
}

// parseAny is parse for a document of any shape.
func parseAny(text []byte, name string) (*yaml.Node, Faults) {
	if line, message := notText(text); message != "" {
		return nil, Faults{{File: name, Line: line, Message: message}}
	}
	decoder := yaml.NewDecoder(bytes.NewReader(text))
	var doc yaml.Node
	if err := decoder.Decode(&doc); errors.Is(err, io.EOF) {
		return nil, Faults{{File: name, Line: 1, Message: "the file is empty; a home file begins with \"holdover: 1\""}}
	} else if err != nil {
		return nil, Faults{yamlFault(text, name, err)}
	}
	var more yaml.Node
	if err := decoder.Decode(&more); err == nil {
		return nil, Faults{{File: name, Line: more.Line, Message: "a second document begins here; one home a file is accepted"}}
	} else if !errors.Is(err, io.EOF) {
		return nil, Faults{yamlFault(text, name, err)}
	}
	root := doc.Content[0]
	if line := findAlias(root); line > 0 {
		return nil, Faults{{File: name, Line: line, Message: "a YAML anchor or alias (& or *) stands here; write the value out instead"}}
	}
	return root, nil
}

// notText finds what makes bytes no text: too many of them, a broken character or a control character.
func notText(text []byte) (line int, message string) {
	if len(text) > MaxBytes {
		return bytes.Count(text[:MaxBytes], []byte("\n")) + 1, fmt.Sprintf("the file goes on past %d MiB; that is no home file", MaxBytes>>20)
	}
	line = 1
	for i := 0; i < len(text); {
		c, size := utf8.DecodeRune(text[i:])
		switch {
		case c == utf8.RuneError && size == 1:
			return line, fmt.Sprintf("byte 0x%02x is not UTF-8 text; save the file as UTF-8", text[i])
		case c == '\n':
			line++
		case c < ' ' && c != '\t' && c != '\r', c == 0x7f:
			return line, fmt.Sprintf("the control character 0x%02x stands here; that is no text file", c)
		}
		i += size
	}
	return 0, ""
}

var yamlLine = regexp.MustCompile(`^yaml: (?:line (\d+): )?(.*)$`)

// yamlParserErrors are the messages that the YAML library counts lines from 0 for; all others it counts from 1.
var yamlParserErrors = regexp.MustCompile(`^did not find expected (node content|key|'-' indicator|',' or|<)`)

// yamlFault says a YAML syntax error in our form.
func yamlFault(text []byte, name string, err error) Fault {
	m := yamlLine.FindStringSubmatch(strings.TrimSpace(err.Error()))
	if m == nil {
		return Fault{File: name, Message: visible.Cut(err.Error(), visible.Width)}
	}
	line, _ := strconv.Atoi(m[1])
	if line == 0 || yamlParserErrors.MatchString(m[2]) {
		line++
	}
	if lines := bytes.Split(text, []byte("\n")); line <= len(lines) {
		if typed := lines[line-1]; bytes.ContainsRune(typed[:len(typed)-len(bytes.TrimLeft(typed, " \t"))], '\t') {
			return Fault{File: name, Line: line, Message: "a tab indents this line; YAML is indented with spaces"}
		}
	}
	return Fault{File: name, Line: line, Message: "this is not well-formed YAML: " + visible.Cut(m[2], visible.Width)}
}

func findAlias(n *yaml.Node) int {
	if n.Kind == yaml.AliasNode || n.Anchor != "" {
		return n.Line
	}
	for _, child := range n.Content {
		if line := findAlias(child); line > 0 {
			return line
		}
	}
	return 0
}

// readDefaults fills home with the defaults of profiles/assume.yaml, each with its source.
func (r *reader) readDefaults(house *Home) {
	r.quiet = true
	root := reflect.ValueOf(house).Elem()
	for _, d := range profiles.Defaults() {
		section, key, _ := strings.Cut(d.Key, ".")
		r.source = "default: " + d.Source
		v, _ := fieldByKey(root, section)
		v, f := fieldByKey(v, key)
		r.value(&d.Value, v, f, d.Key)
	}
	r.quiet = false
	if len(r.faults) > 0 {
		panic("home: bad default: " + r.faults.Error())
	}
}

// fieldByKey finds the field with a key; a key that is not there is a programmer's error.
func fieldByKey(v reflect.Value, key string) (reflect.Value, Field) {
	for _, f := range fieldsOf(v.Type()) {
		if f.Key == key {
			return f.in(v), f
		}
	}
	panic("home: no key " + key + " in " + v.Type().String())
}
