package home

import (
	"fmt"
	"reflect"
	"strings"

	"holdover/loads/units"
)

// An Input is one value that a plan rests on, with where it came from.
type Input struct {
	Path   string  // "site.elevation"
	Value  float64 // in Unit, when Word is empty
	Word   string  // for a value that is a word
	Unit   string
	Doc    string
	Origin Origin
}

// Inputs lists every value of the sections that are no lists, home to prices, that the file or a default gives, in the order of the
// sections.
func (h *Home) Inputs() []Input {
	var out []Input
	root := reflect.ValueOf(h).Elem()
	for _, section := range fieldsOf(root.Type()) {
		if section.kind.Kind() != reflect.Struct {
			continue
		}
		v := section.in(root)
		for _, f := range fieldsOf(section.kind) {
			path := join(section.Key, f.Key)
			origin, ok := h.origins[path]
			if !ok {
				continue
			}
			if f.kind == reflect.TypeFor[Lasts]() {
				for _, inner := range fieldsOf(f.kind) {
					at := join(path, inner.Key)
					out = append(out, input(inner.in(f.in(v)), inner, at, h.origins[at]))
				}
				continue
			}
			out = append(out, input(f.in(v), f, path, origin))
		}
	}
	return out
}

// Input is one value of a section, such as "home.gains", whether anybody gave it or not. An unknown path is a programmer's error.
func (h *Home) Input(path string) Input {
	section, key, _ := strings.Cut(path, ".")
	v, _ := fieldByKey(reflect.ValueOf(h).Elem(), section)
	v, f := fieldByKey(v, key)
	return input(v, f, path, h.origins[path])
}

func input(v reflect.Value, f Field, path string, origin Origin) Input {
	in := Input{Path: path, Doc: f.Doc, Origin: origin}
	if limit, ok := v.Interface().(units.Limit); ok {
		v = reflect.ValueOf(limit.Most())
	}
	switch {
	case v.Kind() == reflect.Float64:
		in.Value, in.Unit = v.Float(), f.Unit
		if f.Dimension != nil {
			in.Unit = f.Dimension.Base
		}
	case v.Kind() == reflect.Int:
		in.Value = float64(v.Int())
	case v.Kind() == reflect.Slice:
		in.Word = strings.Trim(fmt.Sprint(v.Interface()), "[]")
	default:
		in.Word = fmt.Sprint(v.Interface())
	}
	return in
}

// Text says where a value came from, in words.
func (o Origin) Text(file string) string {
	if o.Line > 0 {
		return fmt.Sprintf("%s, line %d", file, o.Line)
	}
	return o.Source
}
