package profiles

import (
	"bytes"
	"slices"
	"strings"
	"sync"

	"gopkg.in/yaml.v3"
)

// Circuit is one household circuit or appliance that a home file can start from with `like`.
type Circuit struct {
	Entry[string] `yaml:",inline"`

	Group string `yaml:"-"`    // the file it stands in
	Note  string `yaml:"note"` // what the reader should check, perhaps empty

	// Fields is a mapping in the syntax of a home file's circuit, with quantities as text ("150 W"). It has no name,
	// like or care. Read only.
	Fields yaml.Node `yaml:"circuit"`
}

// groups are the files of the folder circuits, in the order in which people meet them.
var groups = []string{
	"lighting", "kitchen", "laundry", "water-heating", "heating", "cooling", "pumps", "medical", "network", "electronics",
	"household",
}

var circuitFiles = func() map[string]func() []Circuit {
	all := make(map[string]func() []Circuit, len(groups))
	for _, group := range groups {
		all[group] = sync.OnceValue(func() []Circuit {
			circuits := parse[[]Circuit](circuitFile(group))
			for i := range circuits {
				circuits[i].Group = group
			}
			return circuits
		})
	}
	return all
}()

func circuitFile(group string) string { return "circuits/" + group + ".yaml" }

// Groups lists the kinds of circuit in a fixed order.
func Groups() []string { return slices.Clone(groups) }

// Circuits lists every circuit, group by group, in the order of the files.
func Circuits() []Circuit {
	var all []Circuit
	for _, group := range groups {
		all = append(all, circuitFiles[group]()...)
	}
	return all
}

// FindCircuit gives the circuit of that name. It parses that entry alone: a plan of a few circuits should not pay for a
// hundred and more.
func FindCircuit(name string) (Circuit, bool) {
	if name == "" {
		return Circuit{}, false // like is not given
	}
	if c, ok := found.Load(name); ok {
		return c.(Circuit), true
	}
	for _, group := range groups {
		entry, ok := cutEntry(text(circuitFile(group)), name)
		if !ok {
			continue
		}
		c := decode[[]Circuit](entry, name)[0]
		c.Group = group
		found.Store(name, c)
		return c, true
	}
	return Circuit{}, false
}

var found sync.Map // name → Circuit

// cutEntry cuts one entry out of the text of a file. An entry begins at the left edge with its name and stands for
// itself, without anchors; a test holds that.
func cutEntry(content []byte, name string) ([]byte, bool) {
	if strings.ContainsAny(name, "\r\n") {
		return nil, false
	}
	start := bytes.Index(content, []byte("\n- name: "+name+"\n"))
	if start < 0 {
		return nil, false
	}
	entry := content[start+1:]
	if end := bytes.Index(entry, []byte("\n- ")); end >= 0 {
		entry = entry[:end+1]
	}
	return entry, true
}
