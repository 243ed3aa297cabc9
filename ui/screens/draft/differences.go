package draft

import (
	"slices"
	"strings"

	"gopkg.in/yaml.v3"

	"holdover/loads/home"
)

// A Difference is one thing in which another text of the home differs from the draft's: a field, a circuit or unit that only
// one of them has, or the order of what both have.
type Difference struct {
	Field string // such as "circuits[3].running", counted as in the draft
	Of    string // the circuit or unit that the field belongs to; empty for any other
	Here  string // what the draft has, empty where it has none
	There string // what the other text has

	path  Path // of the field, or of the list
	value *yaml.Node
	kind  differs
	at    int // place in the other text's list, of an item that only that has
}

type differs int

const (
	field   differs = iota // value at path, deleted where it is nil
	removed                // the item at path is not in the other text
	added                  // item at of the other text's list is not in the draft
	order
)

// itemized are the lists whose items are told apart by their names; any other list is one value.
var itemized = []string{"circuits", "gear"}

// Differences lists in what another text of the home differs from the draft's: field by field, in the order of the draft.
// Comments, blank lines, quoting and the order of keys make none.
func (d *Draft) Differences(text []byte) ([]Difference, error) {
	_, theirs, err := home.ReadTree(text, d.Name())
	if err != nil {
		return nil, err
	}
	return between(d.tree, theirs, nil, ""), nil
}

// between compares two mappings, either of which may be nil.
func between(here, there *yaml.Node, path Path, of string) []Difference {
	var out []Difference
	for _, key := range keysOfBoth(here, there) {
		at := append(slices.Clone(path), key)
		a, b := valueOf(here, key), valueOf(there, key)
		switch {
		case a == nil && b == nil:
		case len(at) == 1 && slices.Contains(itemized, key):
			out = append(out, betweenItems(a, b, at)...)
		case isOpen(a) && isOpen(b) && !slices.Contains(wholes, key):
			out = append(out, between(a, b, at, of)...)
		case !sameValue(a, b):
			out = append(out, Difference{Field: FieldName(at), Of: of, Here: written(a), There: written(b), path: at, value: b})
		}
	}
	return out
}

// isOpen says whether a value is compared key by key.
func isOpen(n *yaml.Node) bool { return n == nil || n.Kind == yaml.MappingNode }

// valueOf is the value of a key; nil where there is none, which is what a null stands for.
func valueOf(mapping *yaml.Node, key string) *yaml.Node {
	if mapping == nil {
		return nil
	}
	if n := child(mapping, key); n != nil && n.Tag != "!!null" {
		return n
	}
	return nil
}

func keysOfBoth(here, there *yaml.Node) []string {
	var keys []string
	for _, n := range []*yaml.Node{here, there} {
		for i := 0; n != nil && i+1 < len(n.Content); i += 2 {
			if key := n.Content[i].Value; !slices.Contains(keys, key) {
				keys = append(keys, key)
			}
		}
	}
	return keys
}

func sameValue(a, b *yaml.Node) bool { return written(a) == written(b) }

// written is a value on one line, as a home file may have it.
func written(n *yaml.Node) string {
	if n == nil {
		return ""
	}
	if n.Kind == yaml.ScalarNode {
		return n.Value
	}
	return OneLine(n)
}

// betweenItems compares two lists of named items.
func betweenItems(here, there *yaml.Node, path Path) []Difference {
	a, b := items(here), items(there)
	partner := pairs(a, b)
	onlyTheirs := make(map[int]bool, len(b))
	for j := range b {
		onlyTheirs[j] = true
	}
	var out []Difference
	for i, item := range a {
		at := append(slices.Clone(path), i)
		if j := partner[i]; j >= 0 {
			delete(onlyTheirs, j)
			out = append(out, between(item, b[j], at, nameOf(item))...)
			continue
		}
		out = append(out, Difference{Field: FieldName(at), Of: nameOf(item), Here: OneLine(item), path: at, kind: removed})
	}
	for j, item := range b {
		if onlyTheirs[j] {
			out = append(out, Difference{Field: FieldName(path), Of: nameOf(item), There: OneLine(item), path: path, value: item, kind: added, at: j})
		}
	}
	if !slices.IsSorted(matched(partner)) {
		out = append(out, Difference{Field: FieldName(path), Of: "order", Here: names(a), There: names(b), path: path, kind: order})
	}
	return out
}

func items(list *yaml.Node) []*yaml.Node {
	if list == nil || list.Kind != yaml.SequenceNode {
		return nil
	}
	return list.Content
}

func nameOf(item *yaml.Node) string { return written(valueOf(item, "name")) }

func names(items []*yaml.Node) string {
	all := make([]string, len(items))
	for i, item := range items {
		all[i] = nameOf(item)
	}
	return strings.Join(all, ", ")
}

// pairs finds for each item of one list the same one in the other, -1 where there is none: by its name, of several of one
// name in their order, and of those that are left one that differs in nothing but its name.
func pairs(a, b []*yaml.Node) []int {
	partner := slices.Repeat([]int{-1}, len(a))
	taken := make([]bool, len(b))
	for _, sameness := range []func(*yaml.Node) string{nameOf, allButName} {
		waiting := map[string][]int{}
		for j, item := range b {
			if !taken[j] {
				waiting[sameness(item)] = append(waiting[sameness(item)], j)
			}
		}
		for i, item := range a {
			same := sameness(item)
			if partner[i] < 0 && len(waiting[same]) > 0 {
				partner[i], taken[waiting[same][0]] = waiting[same][0], true
				waiting[same] = waiting[same][1:]
			}
		}
	}
	return partner
}

// allButName writes an item without its name, its keys in the order of the alphabet.
func allButName(item *yaml.Node) string {
	keys := slices.Sorted(slices.Values(keysOfBoth(item, nil)))
	text := ""
	for _, key := range keys {
		if value := valueOf(item, key); key != "name" && value != nil {
			text += key + ": " + written(value) + "\n"
		}
	}
	return text
}

func matched(partner []int) []int {
	return slices.DeleteFunc(slices.Clone(partner), func(j int) bool { return j < 0 })
}
