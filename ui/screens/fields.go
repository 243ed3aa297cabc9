package screens

import (
	"fmt"
	"slices"

	"holdover/loads/home"
	"holdover/ui/screens/draft"
)

// This file says which fields stand on which form, and under which heading. What is left over of a section comes last, so
// that a new field of the home file cannot be forgotten.

// basicFields are a circuit's fields that most people fill in, in this order.
var basicFields = []string{"name", "like", "care", "count", "running", "running_amps", "start", "use", "breaker", "leg"}

// circuitFields are all fields of circuit i.
func circuitFields(i int) []draft.FormField {
	at := draft.Path{"circuits", i}
	all := home.FieldsOf("circuits")
	var fields []draft.FormField
	for _, key := range basicFields {
		n := slices.IndexFunc(all, func(f home.Field) bool { return f.Key == key })
		fields = append(fields, formField("basic", at, all[n]))
	}
	for _, f := range all {
		if !slices.Contains(basicFields, f.Key) && f.Key != "needs" && f.Key != "heater" {
			fields = append(fields, formField("more", at, f))
		}
	}
	fields = append(fields, sectionFields("what it asks of the supply", "needs", append(slices.Clone(at), "needs"))...)
	return append(fields, sectionFields("gas water heater", "heater", append(slices.Clone(at), "heater"))...)
}

func placeFields() []draft.FormField {
	return slices.Concat(sectionFields("home", "home", draft.Path{"home"}), sectionFields("site", "site", draft.Path{"site"}),
		sectionFields("outage", "outage", draft.Path{"outage"}))
}

func termsFields() []draft.FormField {
	return slices.Concat(sectionFields("limits", "limits", draft.Path{"limits"}),
		sectionFields("assumptions", "assume", draft.Path{"assume"}))
}

func sectionFields(group, section string, at draft.Path) []draft.FormField {
	var fields []draft.FormField
	for _, f := range home.FieldsOf(section) {
		fields = append(fields, formField(group, at, f))
	}
	return fields
}

func formField(group string, at draft.Path, f home.Field) draft.FormField {
	return draft.FormField{Group: group, Path: append(slices.Clone(at), f.Key), Field: f}
}

// newCircuitForm is the form of circuit i; turning to another moves the table's selection along.
func newCircuitForm(a *app, i int, table *grid) *form {
	f := newForm(a, "", circuitFields(i))
	at := i
	f.title = func() string {
		circuits := a.draft.Home().Circuits
		return fmt.Sprintf("circuit %d of %d: %s", at+1, len(circuits), circuits[at].Name)
	}
	f.turn = func(by int) {
		if next := at + by; next >= 0 && next < len(a.draft.Home().Circuits) {
			at = next
			table.choose(at)
			active := f.active
			f.show(circuitFields(at))
			f.enter(active)
		}
	}
	return f
}
