package report

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

// FactList writes one entry a line under the name of their table.
func FactList(heading string, facts []Fact, width int) string {
	p := &page{width: max(width, MinWidth)}
	p.line(heading)
	longest := 0
	for _, f := range facts {
		longest = max(longest, cells(f.Name))
	}
	for _, f := range facts {
		p.paragraph(f.Title, tableIndent+pad(f.Name, longest, false)+tableGap)
	}
	return p.String()
}

// Facts writes one entry with all its fields, under the keys that its table and a home file use.
func Facts(f Fact, width int) (string, error) {
	var root yaml.Node
	if err := root.Encode(f.Entry); err != nil {
		return "", err
	}
	p := &page{width: max(width, MinWidth)}
	if err := addFields(p, &root, ""); err != nil {
		return "", err
	}
	return p.String(), nil
}

func addFields(p *page, mapping *yaml.Node, indent string) error {
	for i := 0; i+1 < len(mapping.Content); i += 2 {
		key, value := mapping.Content[i].Value, mapping.Content[i+1]
		switch {
		case value.Kind == yaml.ScalarNode && value.Value == "", value.Kind == yaml.SequenceNode && len(value.Content) == 0:
		case value.Kind == yaml.ScalarNode:
			p.hang(key+": "+value.Value, indent, indent+tableIndent)
		case value.Kind == yaml.MappingNode && indent == "":
			p.line(key + ":")
			if err := addFields(p, value, tableIndent); err != nil {
				return err
			}
		case value.Kind == yaml.SequenceNode && value.Content[0].Kind == yaml.MappingNode:
			p.line(indent + key + ":")
			for _, item := range value.Content {
				text, err := flow(item)
				if err != nil {
					return err
				}
				p.paragraph(text, indent+"  - ")
			}
		default:
			text, err := flow(value)
			if err != nil {
				return err
			}
			p.hang(key+": "+text, indent, indent+tableIndent)
		}
	}
	return nil
}

// flow writes a node on one line, as a home file may have it.
func flow(n *yaml.Node) (string, error) {
	oneLine := *n
	oneLine.Style = yaml.FlowStyle
	text, err := yaml.Marshal(&oneLine)
	return strings.TrimSpace(string(text)), err
}
