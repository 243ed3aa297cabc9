package home

import (
	"fmt"
	"reflect"

	"gopkg.in/yaml.v3"

	"holdover/loads/units"
)

// ReadGear turns the text of a file of spec sheets into its gear: a list of entries as they stand under `gear` in a home
// file, or a mapping with that one key. name is what messages call the file, and s the system of its bare numbers. The error,
// when there is one, is a [Faults] with every fault found.
func ReadGear(text []byte, name string, s units.System) ([]Gear, error) {
	root, faults := parseAny(text, name)
	if faults != nil {
		return nil, faults
	}
	r := newReader(name, s, map[string]Origin{})
	r.source = "gear file"
	var sheet struct {
		Gear []Gear `key:"gear" doc:"units on offer or already owned, from their spec sheets"`
	}
	list := root
	if root.Kind == yaml.MappingNode {
		r.mapping(root, reflect.ValueOf(&sheet).Elem(), "")
		list = child(root, "gear")
	} else {
		r.value(root, reflect.ValueOf(&sheet.Gear).Elem(), Field{Key: "gear"}, "gear")
	}
	if len(sheet.Gear) == 0 && len(r.faults) == 0 {
		r.fault(root, "gear", "no unit found; list at least one")
	}
	r.checkGear(list, sheet.Gear)
	if len(r.faults) > 0 {
		return nil, r.found()
	}
	return sheet.Gear, nil
}

// checkGear wants a name and a kind of every unit, each name once, and published runtimes that can be.
func (r *reader) checkGear(list *yaml.Node, gear []Gear) {
	if list == nil || list.Kind != yaml.SequenceNode || len(list.Content) != len(gear) {
		return // the list itself was faulted, or there is none
	}
	lines := map[string]int{}
	for i := range gear {
		n, path := list.Content[i], fmt.Sprintf("gear[%d]", i)
		if n.Kind != yaml.MappingNode {
			continue
		}
		r.checkName(n, gear[i].Name, path, "unit", lines)
		if gear[i].Kind == "" && len(givenKeys(n, "kind")) == 0 {
			r.fault(n, join(path, "kind"), "the kind is missing; ups, power-station, inverter, battery, set or generator is accepted")
		}
		r.checkRuntimes(child(n, "runtimes"), &gear[i], join(path, "runtimes"))
	}
}
