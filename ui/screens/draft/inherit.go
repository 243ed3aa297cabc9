package draft

import (
	"fmt"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"holdover/loads/home"
	"holdover/profiles"
)

// Inherited gives the value a field has while the file is silent, and where it comes from: the circuit's profile, or what
// is assumed. Both are empty when the field then has no value.
func (d *Draft) Inherited(path Path, field home.Field) (text, source string) {
	if d.overruled(path) {
		return "", ""
	}
	if path[0] == "circuits" {
		profile, ok := profiles.FindCircuit(d.home.Circuits[path[1].(int)].Like)
		if n := find(&profile.Fields, path[2:]); ok && n != nil {
			return inField(n), "profile " + profile.Name
		}
	}
	defaults := profiles.Defaults()
	at := slices.IndexFunc(defaults, func(f profiles.Default) bool { return f.Key == FieldName(path) })
	if at >= 0 {
		return inField(&defaults[at].Value), defaults[at].Source
	}
	return d.resolved(path, field)
}

// overruled says whether the other way to give the running draw is in the file: then this one inherits nothing.
func (d *Draft) overruled(path Path) bool {
	other := map[any]string{"running": "running_amps", "running_amps": "running"}[path[len(path)-1]]
	if other == "" {
		return false
	}
	_, given := d.Typed(append(slices.Clone(path[:len(path)-1]), other))
	return given
}

// resolved gives the value that the home has ended up with, where it is neither in the file nor zero.
func (d *Draft) resolved(path Path, field home.Field) (text, source string) {
	name := FieldName(path)
	v, ok := valueAt(reflect.ValueOf(d.home).Elem(), path)
	if !ok || d.home.Given(name) || v.IsZero() {
		return "", ""
	}
	if origin, ok := d.home.Origin(name); ok {
		source = origin.Source
	}
	switch v.Kind() {
	case reflect.String:
		return v.String(), source
	case reflect.Int, reflect.Bool:
		return fmt.Sprint(v.Interface()), source
	case reflect.Float64:
		text = strconv.FormatFloat(v.Float(), 'g', 4, 64)
		if field.Dimension != nil {
			text += " " + field.Dimension.Base
		}
		return text, source
	}
	return "", ""
}

// valueAt finds the struct field that the tags of package loads give a path to.
func valueAt(v reflect.Value, path Path) (reflect.Value, bool) {
	for _, step := range path {
		if v.Kind() == reflect.Pointer {
			if v.IsNil() {
				return v, false
			}
			v = v.Elem()
		}
		switch step := step.(type) {
		case int:
			v = v.Index(step)
		case string:
			at := slices.IndexFunc(reflect.VisibleFields(v.Type()), func(f reflect.StructField) bool { return f.Tag.Get("key") == step })
			if at < 0 {
				return v, false
			}
			v = v.Field(at)
		}
	}
	return v, true
}

// Choices lists the accepted values of a field that is a choice, nil for one that is typed.
func (d *Draft) Choices(path Path, field home.Field) []string {
	switch path[len(path)-1] {
	case "earthed_neutral", "corrected_supply", "owned":
		return []string{"true", "false"}
	case "service":
		return home.Services()
	case "shares_neutral_with":
		return d.partners(path[1].(int))
	case "fuels":
		return nil // a list of its words
	}
	return field.Words
}

// partners lists the circuits that could share a neutral with one.
func (d *Draft) partners(index int) []string {
	var names []string
	for i, c := range d.home.Circuits {
		if i != index && c.Volts < 130 {
			names = append(names, strings.TrimSpace(c.Name))
		}
	}
	return names
}
