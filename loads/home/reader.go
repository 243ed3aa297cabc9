package home

import (
	"fmt"
	"math"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"gopkg.in/yaml.v3"

	"holdover/loads/units"
	"holdover/loads/visible"
	"holdover/profiles"
)

// A reader fills structs from a YAML tree by their tags, and gathers every fault instead of stopping at the first.
type reader struct {
	file    string
	source  string // what Origin.Source says of values read now
	quiet   bool   // values are defaults or profile fields: their lines are not the home file's
	system  units.System
	faults  Faults
	beyond  int // faults found after the first mostFaults
	origins map[string]Origin
	motors  map[string]float64 // running draws given as a motor's horsepower, by path
}

// An ownReader is a field type that reads itself, because it has a form of its own; a textReader is one whose form is a text, and says
// what it understood.
type (
	ownReader interface {
		readNode(r *reader, n *yaml.Node, path string)
	}
	textReader interface {
		readText(text string) (says string, err error)
	}
)

// The most that a person types on purpose.
const (
	mostLetters = 200    // of a name
	mostEntries = 10_000 // of a list
)

// fault notes what is wrong with the value at path. What the message quotes of it is cut to a screen's width.
func (r *reader) fault(n *yaml.Node, path, format string, args ...any) {
	if len(r.faults) == mostFaults {
		r.beyond++
		return
	}
	line := 0
	if n != nil && !r.quiet {
		line = n.Line
	}
	message := visible.CutQuoted(fmt.Sprintf(format, args...))
	r.faults = append(r.faults, Fault{r.file, line, visible.Cut(path, visible.Width), message})
}

// note records where the value at path came from.
func (r *reader) note(n *yaml.Node, path string) {
	origin := Origin{Source: r.source}
	if !r.quiet {
		origin.Line = n.Line
	}
	r.origins[path] = origin
}

// understood records what was understood of a value of the home file.
func (r *reader) understood(path, says string) {
	if origin, ok := r.origins[path]; ok && !r.quiet {
		origin.Says = says
		r.origins[path] = origin
	}
}

// mapping reads n into the struct value v, key by key.
func (r *reader) mapping(n *yaml.Node, v reflect.Value, path string) {
	if isNull(n) {
		return
	}
	if n.Kind != yaml.MappingNode {
		r.fault(n, path, "%s found; a mapping of keys is wanted (%s)", describe(n), keyList(fieldsOf(v.Type())))
		return
	}
	fields := fieldsOf(v.Type())
	for key, value := range r.entries(n, path, fields) {
		f := fields[slices.IndexFunc(fields, func(f Field) bool { return f.Key == key })]
		r.value(value, f.in(v), f, join(path, key))
	}
}

// entries yields the known keys of a mapping with their values, and faults the unknown and the repeated ones.
func (r *reader) entries(n *yaml.Node, path string, fields []Field) func(func(string, *yaml.Node) bool) {
	return func(yield func(string, *yaml.Node) bool) {
		seen := map[string]int{}
		for i := 0; i+1 < len(n.Content); i += 2 {
			key, value := n.Content[i], n.Content[i+1]
			if line, again := seen[key.Value]; again {
				r.fault(key, join(path, key.Value), "the key stands twice, first on line %d; keep one", line)
				continue
			}
			seen[key.Value] = key.Line
			if !slices.ContainsFunc(fields, func(f Field) bool { return f.Key == key.Value }) {
				r.unknownKey(n, key, value, path, fields)
				continue
			}
			if !yield(key.Value, value) {
				return
			}
		}
	}
}

// unknownKey faults a key that is none of the fields. Past the faults that are kept, nothing is looked up for one that is not.
// Inside braces a comma ends a value, so that the rest of a number with thousands apart looks like a key.
func (r *reader) unknownKey(n, key, value *yaml.Node, path string, fields []Field) {
	if len(r.faults) == mostFaults {
		r.beyond++
		return
	}
	if _, err := strconv.ParseFloat(key.Value, 64); err == nil && isNull(value) && n.Style&yaml.FlowStyle != 0 {
		r.fault(key, join(path, key.Value), "%q stands alone: inside braces a comma ends a value; write the number without it or in quotes, like 8000 or \"8,000\"", key.Value)
		return
	}
	r.fault(key, join(path, key.Value), "unknown key %q%s", key.Value, suggest(key.Value, fields))
}

// value reads one value into its field.
func (r *reader) value(n *yaml.Node, v reflect.Value, f Field, path string) {
	if isNull(n) {
		r.fault(n, path, "nothing found; leave the key out or give a value")
		return
	}
	r.note(n, path)
	switch own := v.Addr().Interface().(type) {
	case ownReader:
		own.readNode(r, n, path)
		return
	case textReader, *units.Limit:
		r.single(n, v, f, path)
		return
	}
	switch v.Kind() {
	case reflect.Struct:
		r.mapping(n, v, path)
	case reflect.Pointer:
		if v.IsNil() {
			v.Set(reflect.New(v.Type().Elem()))
		}
		r.mapping(n, v.Elem(), path)
	case reflect.Slice:
		r.sequence(n, v, f, path)
	default:
		r.single(n, v, f, path)
	}
}

// scalar gives the text of a scalar as it was typed.
func (r *reader) scalar(n *yaml.Node, path string) (string, bool) {
	if n.Kind != yaml.ScalarNode {
		r.fault(n, path, "%s found; a single value is wanted", describe(n))
		return "", false
	}
	return n.Value, true
}

// single reads a value that is one scalar.
func (r *reader) single(n *yaml.Node, v reflect.Value, f Field, path string) {
	text, ok := r.scalar(n, path)
	if !ok {
		return
	}
	switch own := v.Addr().Interface().(type) {
	case textReader:
		says, err := own.readText(text)
		if err != nil {
			r.fault(n, path, "%v", err)
			return
		}
		r.echoWord(path, text, says)
		return
	case *units.Limit:
		if most, ok := r.number(n, text, f, path); ok {
			*own = units.AtMost(most)
		}
		return
	}
	switch v.Kind() {
	case reflect.String:
		r.word(n, text, v, f, path)
	case reflect.Bool:
		if text != "true" && text != "false" {
			r.fault(n, path, "%q found; true or false is wanted", text)
			return
		}
		v.SetBool(text == "true")
	case reflect.Int:
		if value, ok := r.whole(n, text, f, path); ok {
			v.SetInt(value)
		}
	case reflect.Float64:
		if value, ok := r.number(n, text, f, path); ok {
			v.SetFloat(value)
		}
	default:
		panic("home: no reader for " + v.Type().String())
	}
}

// whole reads a whole number and holds it to its range.
func (r *reader) whole(n *yaml.Node, text string, f Field, path string) (int64, bool) {
	value, err := strconv.ParseFloat(text, 64)
	if err != nil || value != math.Trunc(value) || math.IsInf(value, 0) {
		r.fault(n, path, "%q is not a whole number", text)
		return 0, false
	}
	if err := f.check(value, text, ""); err != nil {
		r.fault(n, path, "%v", err)
		return 0, false
	}
	return int64(value), true
}

func (r *reader) word(n *yaml.Node, text string, v reflect.Value, f Field, path string) {
	if f.Words != nil && !slices.Contains(f.Words, text) {
		means, ok := profiles.Meaning(text)
		if !ok || !slices.Contains(f.Words, means) {
			r.fault(n, path, "%s", f.notAWord(text))
			return
		}
		text = means
		r.understood(path, means)
	}
	if strings.ContainsFunc(text, unicode.IsControl) {
		r.fault(n, path, "%q holds a control character or a line break; plain text on one line is wanted", text)
		return
	}
	if letters := utf8.RuneCountInString(text); letters > mostLetters {
		r.fault(n, path, "%q is %s characters long; %d at most are accepted", text, units.Format(float64(letters)), mostLetters)
		return
	}
	if f.Words == nil && strings.TrimSpace(text) == "" {
		r.fault(n, path, "empty text found; give a name")
		return
	}
	v.SetString(text)
}

func (r *reader) sequence(n *yaml.Node, v reflect.Value, f Field, path string) {
	items := n.Content
	switch {
	case n.Kind == yaml.ScalarNode && f.Words != nil:
		items = wordsIn(n)
	case n.Kind != yaml.SequenceNode:
		r.fault(n, path, "%s found; a list is wanted", describe(n))
		return
	}
	if entries := len(items); entries > mostEntries {
		r.fault(n, path, "%s entries found; %s at most are accepted", units.Format(float64(entries)), units.Format(mostEntries))
		return
	}
	v.Set(reflect.MakeSlice(v.Type(), len(items), len(items)))
	for i, item := range items {
		r.value(item, v.Index(i), Field{Words: f.Words, Low: f.Low, High: f.High, Bounded: f.Bounded,
			Dimension: dimensions[v.Type().Elem()]}, fmt.Sprintf("%s[%d]", path, i))
	}
}

// wordsIn makes a list of words that stand without brackets, with commas between them.
func wordsIn(n *yaml.Node) []*yaml.Node {
	var items []*yaml.Node
	for _, word := range strings.Split(n.Value, ",") {
		item := *n
		item.Value = strings.TrimSpace(word)
		items = append(items, &item)
	}
	return items
}

// notAWord says what is accepted in place of a word, or asks which of two it is.
func (f Field) notAWord(text string) string {
	may := slices.DeleteFunc(profiles.MayMean(text), func(word string) bool { return !slices.Contains(f.Words, word) })
	if len(may) > 1 {
		return fmt.Sprintf("%q may be one or the other: %s?", text, oneOf(may))
	}
	return fmt.Sprintf("%q found; %s is accepted", text, oneOf(f.Words))
}

func isNull(n *yaml.Node) bool { return n.Kind == yaml.ScalarNode && n.Tag == "!!null" }

func join(path, key string) string {
	if path == "" {
		return key
	}
	return path + "." + key
}

// describe says what kind of node was found.
func describe(n *yaml.Node) string {
	switch n.Kind {
	case yaml.MappingNode:
		return "a mapping"
	case yaml.SequenceNode:
		return "a list"
	case yaml.ScalarNode:
		if n.Tag == "!!null" {
			return "nothing"
		}
	}
	return strconv.Quote(n.Value)
}

func oneOf(words []string) string {
	if len(words) == 1 {
		return words[0]
	}
	return strings.Join(words[:len(words)-1], ", ") + " or " + words[len(words)-1]
}

func keyList(fields []Field) string { return strings.Join(fieldKeys(fields), ", ") }
