package home

import (
	"reflect"
	"slices"

	"gopkg.in/yaml.v3"
)

// fill reads a mapping into the struct that into points to; ok is false where that brought a fault.
func (r *reader) fill(n *yaml.Node, into any, path string) (ok bool) {
	before := r.count()
	r.mapping(n, reflect.ValueOf(into).Elem(), path)
	return r.count() == before
}

// oneForm reads a mapping that takes exactly one of several forms, each known by its key, and says which it is.
func (r *reader) oneForm(n *yaml.Node, into any, path string, keys ...string) (key string, ok bool) {
	if !r.fill(n, into, path) {
		return "", false
	}
	given := givenKeys(n, keys...)
	if len(given) != 1 {
		r.fault(n, path, "exactly one of %s is wanted; found %d", oneOf(keys), len(given))
		return "", false
	}
	return given[0], true
}

// givenKeys lists which of the keys a mapping has.
func givenKeys(n *yaml.Node, keys ...string) []string {
	var given []string
	for i := 0; i+1 < len(n.Content); i += 2 {
		if slices.Contains(keys, n.Content[i].Value) && !slices.Contains(given, n.Content[i].Value) {
			given = append(given, n.Content[i].Value)
		}
	}
	return given
}
