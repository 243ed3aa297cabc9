package home

import (
	"encoding/json"
	"reflect"
	"strings"

	"holdover/loads/units"
	"holdover/profiles"
)

// Schema writes the JSON Schema of a home file, draft 7, which YAML editors read. It comes from the same struct tags as
// the reader, so that the two cannot disagree.
func Schema() []byte {
	root := object(reflect.TypeFor[Home](), "")
	root["$schema"] = "http://json-schema.org/draft-07/schema#"
	root["title"] = "holdover home file"
	root["required"] = []string{"holdover", "circuits"}
	definitions := map[string]any{}
	root["properties"] = shared(root["properties"], definitions)
	root["definitions"] = definitions
	text, err := json.MarshalIndent(root, "", "  ")
	if err != nil {
		panic("home: " + err.Error())
	}
	return append(text, '\n')
}

// shared is a part of the schema in which each form of a text that has a title stands as a reference to its one definition: a
// pattern of all that people write is long, and many keys have the same.
func shared(part any, definitions map[string]any) any {
	switch part := part.(type) {
	case map[string]any:
		if title, ok := part["title"].(string); ok && part["pattern"] != nil {
			definitions[title] = part
			return map[string]any{"$ref": "#/definitions/" + title}
		}
		for key, inner := range part {
			part[key] = shared(inner, definitions)
		}
	case []any:
		for i := range part {
			part[i] = shared(part[i], definitions)
		}
	}
	return part
}

// object describes a mapping by its type's fields; path is where it stands, such as "site".
func object(t reflect.Type, path string) map[string]any {
	properties := map[string]any{}
	var required []string
	for _, f := range fieldsOf(t) {
		properties[f.Key] = schemaOf(f, join(path, f.Key))
		if f.Required {
			required = append(required, f.Key)
		}
	}
	out := map[string]any{"type": "object", "additionalProperties": false, "properties": properties}
	if required != nil {
		out["required"] = required
	}
	return out
}

// schemaOf describes one field.
func schemaOf(f Field, path string) map[string]any {
	s := formOf(f, path)
	doc := f.Doc
	if f.Bounded {
		base := ""
		if f.Dimension != nil {
			base = f.Dimension.Base
		}
		doc += " (" + f.rangeIn(base) + ")"
	}
	s["description"] = doc
	if value, ok := defaultOf(path); ok {
		s["default"] = value
	}
	return s
}

func formOf(f Field, path string) map[string]any {
	if own, ok := ownForms[f.kind]; ok {
		return own()
	}
	t := f.kind
	if t.Kind() == reflect.Pointer {
		t = t.Elem()
	}
	switch {
	case f.Dimension != nil:
		return quantityForm(f)
	case f.Key == "like":
		return enum(profiles.Names("circuits"))
	case f.Words != nil && t.Kind() == reflect.String:
		return wordForm(f.Words)
	}
	switch t.Kind() {
	case reflect.Struct:
		return object(t, path)
	case reflect.Slice:
		list := map[string]any{"type": "array", "maxItems": mostEntries, "items": formOf(Field{kind: t.Elem(), Words: f.Words, Low: f.Low, High: f.High, Bounded: f.Bounded}, path)}
		if f.Words != nil { // without brackets they are one text
			return map[string]any{"anyOf": []any{list, patternForm(units.ListPattern(f.Words), strings.Join(f.Words[:2], ", "))}}
		}
		return list
	case reflect.Bool:
		return map[string]any{"type": "boolean"}
	case reflect.Int:
		return map[string]any{"type": "integer", "minimum": f.Low, "maximum": f.High}
	case reflect.Float64:
		return map[string]any{"anyOf": []any{
			map[string]any{"type": "number", "minimum": f.Low, "maximum": f.High},
			map[string]any{"type": "string", "pattern": units.SharePattern},
		}}
	}
	return map[string]any{"type": "string", "minLength": 1, "maxLength": mostLetters}
}

func enum(words []string) map[string]any { return map[string]any{"enum": words} }

// quantityForm is a number, within its range where the home's units have no say in it, or a text with a unit.
func quantityForm(f Field) map[string]any {
	number := map[string]any{"type": "number"}
	if f.Bounded && !f.Dimension.BySystem() {
		number["minimum"], number["maximum"] = f.Low, f.High
	}
	forms := []any{number, quantityText(*f.Dimension)}
	if f.Motor {
		forms = append(forms, quantityText(units.MotorSize))
	}
	return map[string]any{"anyOf": forms}
}

func quantityText(d units.Dimension) map[string]any {
	text := patternForm(d.Pattern(), d.Example)
	text["title"] = strings.NewReplacer(" ", "-", "/", "-per-").Replace(d.Name + " in " + d.Base)
	return text
}

func patternForm(pattern string, examples ...string) map[string]any {
	return map[string]any{"type": "string", "pattern": pattern, "examples": examples}
}

// wordForm is one of some words, offered as they are, or written as people also do.
func wordForm(words []string) map[string]any {
	also := units.WordsPattern(words)
	if also == "" {
		return enum(words)
	}
	return map[string]any{"anyOf": []any{enum(words), map[string]any{"type": "string", "pattern": also}}}
}

// ownForms describes the fields that read themselves.
var ownForms map[reflect.Type]func() map[string]any

func init() { // not a literal: object refers back to it
	pattern := func(p string) map[string]any { return map[string]any{"type": "string", "pattern": "^" + p + "$"} }
	ownForms = map[reflect.Type]func() map[string]any{
		reflect.TypeFor[Service](): func() map[string]any { return enum(Services()) },
		reflect.TypeFor[StartHour](): func() map[string]any {
			return map[string]any{"anyOf": []any{pattern("(worst|" + units.ClockPattern() + ")"), map[string]any{"type": "integer", "minimum": 13, "maximum": 24}}}
		},
		reflect.TypeFor[QuietHours](): func() map[string]any {
			clock := units.ClockPattern()
			return pattern("([fF][rR][oO][mM] +|[bB][eE][tT][wW][eE][eE][nN] +)?" + clock + "( *[-–—] *| +([tT][oO]|[uU][nN][tT][iI][lL]|[tT][iI][lL][lL]|[aA][nN][dD]) +)" + clock)
		},
		reflect.TypeFor[EngineDerate](): func() map[string]any {
			return map[string]any{"anyOf": []any{enum([]string{string(ISO3046), string(RuleOfThumb)}), map[string]any{"type": "number", "minimum": leastDerate, "maximum": 1}}}
		},
		reflect.TypeFor[Start](): func() map[string]any { return wordOr(enum([]string{string(NoStart)}), reflect.TypeFor[startKeys]()) },
		reflect.TypeFor[Use](): func() map[string]any {
			plain := wordOr(enum([]string{string(UseHeating), string(UseCooling)}), reflect.TypeFor[useKeys]())
			plain["anyOf"] = append(plain["anyOf"].([]any), patternForm(units.UsePattern(), "3 hours a day", "35 %", "always"))
			return plain
		},
		reflect.TypeFor[Pipe](): func() map[string]any {
			return pattern("(" + strings.ReplaceAll(strings.Join(profiles.PipeTables().Sizes, "|"), "-", "[- ]") + ")( in)?")
		},
		reflect.TypeFor[Sun]():     func() map[string]any { return object(reflect.TypeFor[sunKeys](), "") },
		reflect.TypeFor[Circuit](): func() map[string]any { return object(reflect.TypeFor[Circuit](), "circuits") },
		reflect.TypeFor[Runtime](): func() map[string]any { return map[string]any{"type": "array", "minItems": 2, "maxItems": 2} },
	}
}

func wordOr(word map[string]any, t reflect.Type) map[string]any {
	return map[string]any{"anyOf": []any{word, object(t, "")}}
}

// defaultOf finds the default of the field at a path.
func defaultOf(path string) (string, bool) {
	for _, d := range profiles.Defaults() {
		if d.Key == path && d.Value.Value != "" {
			return d.Value.Value, true
		}
	}
	return "", false
}
