package compare

import (
	"fmt"
	"reflect"
	"strings"

	"holdover/loads/home"
	"holdover/loads/units"
	"holdover/planner/derive"
)

// Inputs lists what differs in what two plans rest on, by field path: outage.length, circuits[Sump pump].care. A
// circuit is known by its name; one that only one home has is named once. Gear is no input of a plan.
func Inputs(first, second *home.Home) []Differing {
	return append(figures(inputsOf(first), inputsOf(second)), circuits(first, second)...)
}

func inputsOf(house *home.Home) (out []derive.Figure) {
	for _, in := range house.Inputs() {
		if in.Path != "home.name" {
			out = append(out, derive.Figure{ID: in.Path, Value: in.Value, Word: in.Word, Unit: in.Unit})
		}
	}
	return out
}

func circuits(first, second *home.Home) (out []Differing) {
	other := map[string]*home.Circuit{}
	for i := range second.Circuits {
		other[second.Circuits[i].Name] = &second.Circuits[i]
	}
	for i := range first.Circuits {
		a := &first.Circuits[i]
		if b := other[a.Name]; b != nil {
			out = append(out, figures(circuitInputs(a), circuitInputs(b))...)
		} else {
			out = append(out, Differing{First: wholeCircuit(a), ID: wholeCircuit(a).ID})
		}
		delete(other, a.Name)
	}
	for i := range second.Circuits {
		if b := &second.Circuits[i]; other[b.Name] != nil {
			out = append(out, Differing{Second: wholeCircuit(b), ID: wholeCircuit(b).ID})
		}
	}
	return out
}

// wholeCircuit stands for a circuit that only one home has: its care.
func wholeCircuit(c *home.Circuit) *derive.Figure {
	return &derive.Figure{ID: "circuits[" + c.Name + "]", Word: string(c.Care)}
}

func circuitInputs(c *home.Circuit) []derive.Figure {
	return fieldFigures(reflect.ValueOf(*c), "circuits", "circuits["+c.Name+"].")
}

// fieldFigures lists the fields of a section of the home file that are not at their zero, with those inside it.
func fieldFigures(v reflect.Value, section, prefix string) (out []derive.Figure) {
	unit := map[string]string{}
	for _, f := range home.FieldsOf(section) {
		if f.Dimension != nil {
			unit[f.Key] = f.Dimension.Base
		}
	}
	for i := range v.NumField() {
		key, ok := v.Type().Field(i).Tag.Lookup("key")
		field := v.Field(i)
		if !ok || field.IsZero() {
			continue
		}
		f := derive.Figure{ID: prefix + key, Unit: unit[key]}
		switch value := field.Interface().(type) {
		case home.Start:
			f.Word = startWords(value)
		case home.Use:
			f.Word = useWords(value)
		case home.Needs, home.Tank, home.Pit:
			out = append(out, fieldFigures(field, key, f.ID+".")...)
			continue
		case *home.Heater:
			out = append(out, fieldFigures(field.Elem(), key, f.ID+".")...)
			continue
		default:
			switch {
			case field.CanFloat():
				f.Value = field.Float()
			case field.CanInt():
				f.Value = float64(field.Int())
			default:
				f.Word = fmt.Sprint(value)
			}
		}
		out = append(out, f)
	}
	return out
}

// startWords writes a start as a home file has it.
func startWords(s home.Start) string {
	text := map[home.StartKind]string{
		home.StartTimes:  "times: " + units.Format(s.Times),
		home.StartAmps:   "amps: " + units.Quantity(float64(s.Amps), "A"),
		home.StartLetter: "code: " + s.Letter + ", hp: " + units.Format(s.HP),
		home.StartWatts:  "watts: " + units.Quantity(float64(s.Watts), "W"),
	}[s.Kind]
	if text == "" {
		return string(home.NoStart)
	}
	if s.PowerFactor > 0 {
		text += ", power_factor: " + units.Format(s.PowerFactor)
	}
	return "{" + text + "}"
}

// useWords writes a use as a home file has it.
func useWords(u home.Use) string {
	switch u.Kind {
	case home.UseDuty:
		return "{duty: " + units.Format(u.Duty) + "}"
	case home.UseHours:
		return "{hours: " + strings.ReplaceAll(fmt.Sprint(u.Hours), " ", ", ") + "}"
	case home.UseAlways:
		return "always on"
	}
	return string(u.Kind)
}
