package document

import (
	"strings"

	"gopkg.in/yaml.v3"
)

// A Fact is one entry of the built-in tables.
type Fact struct {
	Name  string
	Title string
	Entry any // a struct with yaml tags; all its fields are shown
}

// FactList has one entry a line under the name of their table.
func FactList(heading string, facts []Fact) Document {
	var entries Entries
	for _, f := range facts {
		entries = append(entries, Entry{Lead: f.Name, Text: f.Title})
	}
	return under(heading, entries)
}

// Facts is one entry with all its fields, under the keys that its table and a home file use.
func Facts(f Fact) (Document, error) {
	var root yaml.Node
	if err := root.Encode(f.Entry); err != nil {
		return nil, err
	}
	lines, err := fieldLines(&root, "")
	return Document{Excerpt(lines)}, err
}

func fieldLines(mapping *yaml.Node, indent string) (lines []string, err error) {
	for i := 0; i+1 < len(mapping.Content) && err == nil; i += 2 {
		key, value := indent+mapping.Content[i].Value+":", mapping.Content[i+1]
		text := ""
		switch {
		case value.Kind == yaml.ScalarNode && value.Value == "", value.Kind == yaml.SequenceNode && len(value.Content) == 0:
		case value.Kind == yaml.ScalarNode:
			lines = append(lines, key+" "+value.Value)
		case value.Kind == yaml.MappingNode && indent == "":
			var inner []string
			inner, err = fieldLines(value, "  ")
			lines = append(append(lines, key), inner...)
		case value.Kind == yaml.SequenceNode && value.Content[0].Kind == yaml.MappingNode:
			lines = append(lines, key)
			for _, item := range value.Content {
				text, err = flow(item)
				lines = append(lines, indent+"  - "+text)
			}
		default:
			text, err = flow(value)
			lines = append(lines, key+" "+text)
		}
	}
	return lines, err
}

// flow writes a node on one line, as a home file may have it.
func flow(n *yaml.Node) (string, error) {
	oneLine := *n
	oneLine.Style = yaml.FlowStyle
	text, err := yaml.Marshal(&oneLine)
	return strings.TrimSpace(string(text)), err
}
